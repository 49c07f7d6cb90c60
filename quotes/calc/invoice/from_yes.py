"""What a yes covers, as lines that may be asked for: the option, the extras ticked with it, extra work.

Each line has a key, by which what was asked for and credited is counted against it. Quantities and prices are
those of the frozen sheet that was accepted, so that nothing is typed twice.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal

from catalogue.calc.money import ZERO, round_half_up
from catalogue.calc.said import say
from quotes.calc.invoice.draft import DraftLine
from quotes.calc.invoice.own_parts import brought
from quotes.calc.invoice.parts import Done, nearer_to_nought, part_of
from quotes.calc.money.extras import extras_of
from quotes.calc.sheet.line_values import Line
from quotes.calc.sheet.values import Option

WORDS_LENGTH = 200
"""As long as the words of a line may be; longer ones go on in its note."""
QUANTITY_DECIMALS = 4


@dataclass(frozen=True, slots=True)
class ExtraLines:
    """Extra work that was accepted: its index within the build, and its lines."""

    index: int
    lines: tuple[DraftLine, ...]


def accepted_lines(
    option: Option,
    ticked: Iterable[str] = (),
    extra_work: Sequence[ExtraLines] = (),
    *,
    part_tax_code: str,
    own_parts: Collection[str] = (),
) -> tuple[DraftLine, ...]:
    """All that a yes covers. Lines of nothing are left out.

    `ticked` are components of extras; each is one line at the price it was offered at, taxed as parts are.
    `own_parts` are components that the customer brings. Raises KeyError for an extra that was not offered.
    """
    lines = (
        *(_of_option(line) for line in option.lines),
        *_extras(option, ticked, part_tax_code),
        *_extra_work(extra_work),
    )
    return tuple(_own(line, own_parts) for line in lines if line.quantity)


def _of_option(line: Line) -> DraftLine:
    words = line.description.strip() or line.code
    return DraftLine(
        key=f"option:{line.key}",
        kind=line.kind,
        description=words if len(words) <= WORDS_LENGTH else f"{words[: WORDS_LENGTH - 3]}...",
        note="" if len(words) <= WORDS_LENGTH else words,
        quantity=line.quantity,
        unit=line.unit,
        unit_price=line.unit_price,
        tax_code=line.tax_code,
        component=line.component,
    )


def _extras(option: Option, ticked: Iterable[str], tax_code: str) -> Iterable[DraftLine]:
    names = {extra.component: extra.name for extra in extras_of(option)}
    for component in dict.fromkeys(ticked):
        yield DraftLine(
            key=f"extra:{component}:1",
            kind="part",
            description=say("{part}, renewed with what it brings", part=names[component])[:WORDS_LENGTH],
            quantity=Decimal(1),
            unit="job",
            unit_price=option.offered[component].cost_to_renew,
            tax_code=tax_code,
            component=component,
        )


def _extra_work(extra_work: Sequence[ExtraLines]) -> Iterable[DraftLine]:
    for extra in extra_work:
        for number, line in enumerate(extra.lines, start=1):
            yield line.model_copy(update={"key": f"work:{extra.index}:{number}"})


def _own(line: DraftLine, own_parts: Collection[str]) -> DraftLine:
    return brought(line) if line.kind == "part" and line.component in own_parts else line


def still_to_invoice(
    accepted: Sequence[DraftLine],
    invoiced: Mapping[str, Decimal],
    *,
    nets: Mapping[str, Decimal] | None = None,
    decimals: int = 2,
) -> tuple[DraftLine, ...]:
    """What of the accepted lines has not been asked for, by key: `invoiced` less what was credited.

    With `nets`, what was asked for net by key, the last part of a line makes the parts add up to the whole.
    """
    left = (
        _left(line, invoiced.get(line.key, ZERO), (nets or {}).get(line.key), decimals) for line in accepted
    )
    return tuple(line for line in left if line is not None)


def _left(line: DraftLine, invoiced: Decimal, net: Decimal | None, decimals: int) -> DraftLine | None:
    rest = nearer_to_nought(line.quantity - invoiced, line.quantity)
    if rest == ZERO:
        return None
    return part_of(line, rest, decimals, Done(line.quantity - rest, net))


def share(
    lines: Sequence[DraftLine],
    pct: Decimal,
    *,
    left: Sequence[DraftLine] | None = None,
    decimals: int = 2,
) -> tuple[DraftLine, ...]:
    """`pct` per cent of each line's quantity, at most what is `left` of it (None: all of it).

    Where the share reaches what is left it is just that, so that the shares of two payers make the whole.
    """
    rest = {line.key: line for line in (lines if left is None else left)}
    found = (_share(line, rest.get(line.key), pct, decimals) for line in lines)
    return tuple(line for line in found if line is not None)


def _share(line: DraftLine, left: DraftLine | None, pct: Decimal, decimals: int) -> DraftLine | None:
    wanted = round_half_up(line.quantity * pct / 100, QUANTITY_DECIMALS)
    if left is None or not wanted:
        return None
    if abs(wanted) >= abs(left.quantity):
        return left
    return part_of(line, wanted, decimals, Done(line.quantity - left.quantity))
