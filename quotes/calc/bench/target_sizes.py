"""Target sizes of machine work, and the check of what came back against them."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal
from typing import Annotated

from pydantic import Field, StringConstraints

from quotes.calc.ask.request import Text, Value

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


class Checked(Value):
    """What was measured on the part that came back, by the target's name."""

    name: Name
    value: Size


def outside(targets: Sequence[Target], checked: Sequence[Checked]) -> tuple[str, ...]:
    """In words, what came back outside its size or was not measured; empty where all is as asked."""
    measured = {one.name: one.value for one in checked}
    faults = []
    for target in targets:
        value = measured.get(target.name)
        allowed = f"{target.low:f} to {target.high:f} {target.unit}"
        if value is None:
            faults.append(f"{target.name} was not measured: {allowed} was asked for")
        elif not target.low <= value <= target.high:
            faults.append(f"{target.name} is {value:f} {target.unit} where {allowed} was asked for")
    return tuple(faults)
