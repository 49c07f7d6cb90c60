"""Target sizes of machine work, and the check of what came back against them."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal
from typing import Annotated

from pydantic import Field, StringConstraints

from catalogue.calc.said import say
from quotes.calc.ask.request import Text, Value
from quotes.calc.bench.said import exact

Name = Annotated[
    str, StringConstraints(strip_whitespace=True, min_length=1, max_length=120, pattern=r"^[^\x00]*$")
]
Size = Annotated[Decimal, Field(ge=-100_000, le=100_000, allow_inf_nan=False)]


class Target(Value):
    """A size asked for, both bounds included, in `unit`."""

    name: Name
    low: Size
    high: Size
    unit: Text = "mm"


class CheckedSize(Value):
    """What was measured on the part that came back, by the target's name."""

    name: Name
    value: Size


def outside(targets: Sequence[Target], checked: Sequence[CheckedSize]) -> tuple[str, ...]:
    """In words, what came back outside its size or was not measured; empty where all is as asked."""
    measured = {one.name: one.value for one in checked}
    faults = []
    for target in targets:
        value = measured.get(target.name)
        allowed = say(
            "{low} to {high} {unit}", low=exact(target.low), high=exact(target.high), unit=target.unit
        )
        if value is None:
            faults.append(
                say("{name} was not measured: {allowed} was asked for", name=target.name, allowed=allowed)
            )
        elif not target.low <= value <= target.high:
            faults.append(
                say(
                    "{name} is {value} {unit} where {allowed} was asked for",
                    name=target.name,
                    value=exact(value),
                    unit=target.unit,
                    allowed=allowed,
                )
            )
    return tuple(faults)
