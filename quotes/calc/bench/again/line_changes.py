"""What changed between two workings of one option, line by line, with the reason of each change."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from typing import Literal, Self

from pydantic import model_validator

from catalogue.calc.money import ZERO
from catalogue.calc.said import say, to_say
from quotes.calc.ask.request import Reading, Value
from quotes.calc.bench.said import exact
from quotes.calc.sheet.line_values import Kind, Line
from quotes.calc.sheet.values import Option

How = Literal["added", "dropped", "dearer", "cheaper"]
MEASURED = to_say("No longer needed: measured within limits.")
NOT_NEEDED = to_say("No longer needed by what was found.")
SHOWN_OPERATIONS = 4
"""So many pieces of bench work are named; of more, how many there are."""


class LineChange(Value):
    """One line of the two workings, with its sums before tax."""

    how: How
    key: str
    kind: Kind
    description: str
    old: Decimal
    new: Decimal
    reason: str

    @property
    def change(self) -> Decimal:
        return self.new - self.old


class LineChanges(Value):
    """All that changed about an option: the changes and that of the tax come to that of the sum."""

    tier: str
    name: str
    lines: tuple[LineChange, ...]
    unchanged: int
    tax: Decimal
    """By how much the tax changed."""
    old_gross: Decimal
    new_gross: Decimal

    @property
    def net(self) -> Decimal:
        return sum((line.change for line in self.lines), ZERO)

    @property
    def gross(self) -> Decimal:
        return self.new_gross - self.old_gross

    @model_validator(mode="after")
    def sums_agree(self) -> Self:
        if self.net + self.tax != self.gross:
            raise ValueError(f"{self.tier}: net {self.net} + tax {self.tax} is not {self.gross}")
        return self


def line_changes(old: Option, new: Option, within: Collection[str] = ()) -> LineChanges:
    """The changes from one working to the next, in the order of the new one, then what is gone.

    `within` are the components that were measured and found within limits.
    """
    before, after = _by_mark(old.lines), _by_mark(new.lines)
    changes = (*_come(before, after, old, new), *_gone(before, after, new, within))
    same = sum(1 for mark, both in after.items() if mark in before and both.net == before[mark].net)
    return LineChanges(
        tier=new.tier,
        name=new.name,
        lines=changes,
        unchanged=same,
        tax=new.tax.typical - old.tax.typical,
        old_gross=old.gross.typical,
        new_gross=new.gross.typical,
    )


def within_limits(readings: Iterable[Reading]) -> frozenset[str]:
    """Components that were measured and of which no reading is past its limit."""
    read: dict[str, bool] = {}
    for one in readings:
        past = one.value > one.limit if one.bad_when == "above" else one.value < one.limit
        read[one.component] = read.get(one.component, True) and not past
    return frozenset(component for component, good in read.items() if good)


@dataclass(frozen=True, slots=True)
class _Marked:
    """A line, with the sum of all that are marked the same."""

    line: Line
    net: Decimal
    quantity: Decimal


def _by_mark(lines: Iterable[Line]) -> dict[str, _Marked]:
    """Lines by their key; the desk's own, whose numbers move up, by their words."""
    found: dict[str, _Marked] = {}
    for line in lines:
        mark = f"own:{line.description}" if line.code.startswith("own-") else line.key
        held = found.get(mark)
        net = line.net + (held.net if held else ZERO)
        quantity = line.quantity + (held.quantity if held else ZERO)
        found[mark] = _Marked(held.line if held else line, net, quantity)
    return found


def _come(
    before: Mapping[str, _Marked], after: Mapping[str, _Marked], old: Option, new: Option
) -> Iterator[LineChange]:
    """What is new, and what costs more or less than before."""
    for mark, now in after.items():
        was = before.get(mark)
        if was is None:
            yield _change("added", now.line, ZERO, now.net, _added(now.line, new))
        elif now.net != was.net:
            how: How = "dearer" if now.net > was.net else "cheaper"
            yield _change(how, now.line, was.net, now.net, _moved(was, now, old, new))


def _gone(
    before: Mapping[str, _Marked], after: Mapping[str, _Marked], new: Option, within: Collection[str]
) -> Iterator[LineChange]:
    for mark, was in before.items():
        if mark not in after:
            yield _change("dropped", was.line, was.net, ZERO, _dropped(was.line, new, within))


def _change(how: How, line: Line, old: Decimal, new: Decimal, reason: str) -> LineChange:
    return LineChange(
        how=how,
        key=line.key,
        kind=line.kind,
        description=line.description,
        old=old,
        new=new,
        reason=reason,
    )


def _added(line: Line, new: Option) -> str:
    if line.kind != "labour":
        return line.reason
    return _now_also(_steps(new, line.code)) or line.reason


def _moved(was: _Marked, now: _Marked, old: Option, new: Option) -> str:
    """Why a line that stays costs another sum."""
    line = now.line
    if line.edited and line.edited != was.line.edited:
        return say("Changed by hand: {why}", why=line.edited)
    if line.kind == "labour":
        return _hours(line.code, old, new) or line.reason
    if line.kind in ("consumables", "discount"):
        return say("It follows the sums above. {reason}", reason=line.reason)
    if now.quantity != was.quantity:
        many = say(
            "{quantity} {unit} instead of {was}.",
            quantity=exact(now.quantity.normalize()),
            unit=say(line.unit),
            was=exact(was.quantity.normalize()),
        )
        return f"{many} {line.reason}"
    return say("Its price has changed.")


def _hours(kind: str, old: Option, new: Option) -> str:
    """Which operations of a kind came and went."""
    was, now = _steps(old, kind), _steps(new, kind)
    come = [name for name in now if name not in was]
    gone = [name for name in was if name not in now]
    said = (_now_also(come), _no_longer(gone))
    return " ".join(filter(None, said))


def _steps(option: Option, kind: str) -> list[str]:
    return [step.name for step in option.work if step.kind == kind]


def _now_also(names: Sequence[str]) -> str:
    return say("Now also: {names}.", names=_some_of(names)) if names else ""


def _no_longer(names: Sequence[str]) -> str:
    return say("No longer: {names}.", names=_some_of(names)) if names else ""


def _some_of(names: Sequence[str]) -> str:
    first, more = ", ".join(names[:SHOWN_OPERATIONS]), len(names) - SHOWN_OPERATIONS
    return say("{names} and {count} more", names=first, count=more) if more > 0 else first


def _dropped(line: Line, new: Option, within: Collection[str]) -> str:
    """Why a line is no longer there."""
    code = line.component or ""
    left = new.left.get(code) or new.offered.get(code)
    if line.code.startswith("own-"):
        return say("Taken off by hand.")
    if left is not None and left.refused_by:
        return say("Left as it is; refused in writing by {refused_by}.", refused_by=left.refused_by)
    if code in new.reconditioned:
        return say(
            "Brought back by machine work instead. {sentence}", sentence=new.reconditioned[code].sentence
        )
    if code in new.renewed:
        return say("It comes with another part now. {sentence}", sentence=new.renewed[code].sentence)
    if code in within:
        return say(MEASURED)
    if line.reason_code == "single_use":
        return say("What it seals or holds is no longer undone.")
    return say(NOT_NEEDED)
