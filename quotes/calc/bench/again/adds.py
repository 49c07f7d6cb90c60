"""What a build worked out again adds to what was said yes to, as lines of extra work."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from catalogue.calc.engine import EngineCatalogue
from catalogue.calc.money import ZERO
from quotes.calc.ask.request import Value
from quotes.calc.bench.again.committed import Touches
from quotes.calc.bench.again.line_changes import line_changes
from quotes.calc.invoice.draft import DraftLine
from quotes.calc.invoice.from_yes import accepted_lines
from quotes.calc.invoice.sums import line_net
from quotes.calc.sheet.line_values import Line
from quotes.calc.sheet.values import Option

NOTE_LENGTH = 500
A_SUM = ("consumables", "discount")
"""Lines that are one sum: more of it is a dearer sum, not a second piece."""


class Working(Value):
    """One option twice, both worked out on the same day: as it stood agreed, and with the teardown."""

    base: Option
    new: Option

    @property
    def differs(self) -> bool:
        """Whether a line came, went or costs another sum."""
        return {line.key: line.net for line in self.base.lines} != {
            line.key: line.net for line in self.new.lines
        }


@dataclass(frozen=True, slots=True)
class Adds:
    """The lines, and what they bear on besides their sum. `new_ready_on` where the promised day moves."""

    lines: tuple[DraftLine, ...]
    components: tuple[str, ...]
    touches: tuple[Touches, ...]
    rider_safety: bool
    new_ready_on: date | None = None


def what_it_adds(
    working: Working,
    catalogue: EngineCatalogue,
    *,
    prices: Mapping[str, Decimal],
    promised_on: date | None,
    within: Collection[str] = (),
    decimals: int = 2,
) -> Adds:
    """What the new working adds to what stood agreed. `within` were measured and found within limits.

    `prices` are those of the lines said yes to, by key: what was quoted costs what was quoted.
    """
    base, new = working.base, working.new
    components = _components(base, new, catalogue)
    reasons = {line.key: line.reason for line in line_changes(base, new, within).lines}
    rider = any(catalogue.components[code].locks_wheel_or_oils_tyre for code in components)
    later = (new.ready.p80 - base.ready.p80) if new.ready.p80 > base.ready.p80 else None
    touches: dict[Touches, bool] = {
        "safety": rider,
        "life": new.good_for != base.good_for,
        "date": later is not None,
    }
    return Adds(
        lines=tuple(_lines(working, reasons, prices, decimals)),
        components=components,
        touches=tuple(touch for touch, so in touches.items() if so),
        rider_safety=rider,
        new_ready_on=promised_on + later if promised_on and later else None,
    )


def _components(base: Option, new: Option, catalogue: EngineCatalogue) -> tuple[str, ...]:
    """Components that the new working deals with otherwise."""
    was, now = _dealt_with(base), _dealt_with(new)
    return tuple(code for code in catalogue.components if was.get(code) != now.get(code))


def _dealt_with(option: Option) -> dict[str, str]:
    return {**dict.fromkeys(option.reconditioned, "done"), **dict.fromkeys(option.renewed, "new")}


def _lines(
    working: Working, reasons: Mapping[str, str], prices: Mapping[str, Decimal], decimals: int
) -> Iterator[DraftLine]:
    """In the order of the new working, then what it takes off."""
    was, now = _at_prices(working.base, prices), _at_prices(working.new, prices)
    for key, line in (*now.items(), *((key, line) for key, line in was.items() if key not in now)):
        change = _change(was.get(key), now.get(key), decimals)
        if change:
            note = reasons.get(key.removeprefix("option:"), "")[:NOTE_LENGTH]
            yield line.model_copy(update={**change, "note": note, "key": ""})


def _at_prices(option: Option, prices: Mapping[str, Decimal]) -> dict[str, DraftLine]:
    lines = (_at(line, prices) for line in option.lines)
    worked = option.model_copy(update={"lines": tuple(lines)})
    return {line.key: line for line in accepted_lines(worked, part_tax_code="")}


def _at(line: Line, prices: Mapping[str, Decimal]) -> Line:
    quoted = line.kind not in A_SUM and line.key in prices
    return line.model_copy(update={"unit_price": prices[line.key]}) if quoted else line


def _change(was: DraftLine | None, now: DraftLine | None, decimals: int) -> dict[str, Decimal]:
    """Quantity and price of the difference; empty where there is none."""
    line = now or was
    assert line is not None
    if line.kind in A_SUM:
        more = _net(now, decimals) - _net(was, decimals)
        return {"quantity": Decimal(1) if more > 0 else Decimal(-1), "unit_price": abs(more)} if more else {}
    more = (now.quantity if now else ZERO) - (was.quantity if was else ZERO)
    return {"quantity": more, "unit_price": line.unit_price} if more else {}


def _net(line: DraftLine | None, decimals: int) -> Decimal:
    return ZERO if line is None else line_net(line, decimals)
