"""The first lines of a price list as they stand in the file, and what is read from each."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from decimal import Decimal

from catalogue.calc.price_list.listed import Listed, Rejected
from catalogue.calc.price_list.reading import Reading
from catalogue.calc.said import say, say_count, say_figure
from quotes.imports.faults import shown
from quotes.imports.price_list.limits import Figure, Raw, raw_text
from quotes.imports.price_list.refused_file import has_reasons
from quotes.imports.price_list.rows import RowReader, fault_said

DIGITS = 15


@dataclass(frozen=True, slots=True)
class SampleLine:
    """One line as it stands in the file, and what is read from it: a row, a refusal, or neither."""

    line: int
    cells: tuple[str, ...]
    row: Listed | None = None
    refused: Rejected | None = None
    instead: str = ""
    """The number whose price it has, where it names no price of its own."""

    @property
    def refused_said(self) -> str:
        return fault_said(self.refused) if self.refused else ""

    @property
    def cost(self) -> str:
        return _figure(self.row.cost) if self.row and not self.instead else ""

    @property
    def list_price(self) -> str:
        return _figure(self.row.list_price) if self.row and self.row.list_price is not None else ""

    @property
    def also(self) -> str:
        """Unit, pack and the rest in one line."""
        if self.row is None:
            return ""
        if self.instead:
            return say("replaced by {number}, at its price", number=self.instead)
        row, said = self.row, [self.row.unit]
        if row.pack > 1:
            said.append(say("{count} in a pack", count=say_figure(row.pack, 0)))
        if row.lead_days is not None:
            said.append(say_count("{count} working day", "{count} working days", row.lead_days))
        if row.gtin:
            said.append(say("GTIN {gtin}", gtin=row.gtin))
        if row.superseded_by:
            said.append(say("replaced by {number}", number=row.superseded_by))
        return ", ".join(filter(None, said))


def _figure(amount: Decimal) -> str:
    """At least two decimals, and no nought behind them."""
    exponent = amount.normalize().as_tuple().exponent
    return say_figure(amount, max(2, -exponent if isinstance(exponent, int) else 2))


@dataclass(frozen=True, slots=True)
class Suggested:
    """A reading to look at, with what helps to judge it."""

    reading: Reading
    heads: tuple[str, ...]
    above: tuple[SampleLine, ...]
    """The filled lines above the heads, and the heads themselves."""
    sample: tuple[SampleLine, ...]
    """The first lines below."""
    sheets: tuple[str, ...] = ()
    known: bool = False
    """Whether it is read as the supplier's last list was."""
    cautions: tuple[str, ...] = ()

    @property
    def refused_before(self) -> bool:
        """Whether it holds the refused rows of another list: what it leaves out is not gone then."""
        return any(has_reasons(one.cells) for one in self.above)

    @property
    def width(self) -> int:
        return max((len(one.cells) for one in (*self.above, *self.sample)), default=0)

    @property
    def in_the_file(self) -> Iterator[tuple[SampleLine, bool, tuple[str, ...]]]:
        """Each line that is shown, whether it stands above the first row, and its cells, all of one width."""
        for one in (*self.above, *self.sample):
            yield one, one in self.above, one.cells + ("",) * (self.width - len(one.cells))


def told(cells: Sequence[Raw]) -> tuple[str, ...]:
    """The cells of a line as texts."""
    return tuple(shown(_as_a_sheet_shows(raw)) for raw in cells)


def _as_a_sheet_shows(raw: Raw) -> str:
    """A number in the 15 digits that spreadsheets show: 15.6, not 15.600000000000001."""
    if isinstance(raw, Figure) and len(raw) > DIGITS and "e" not in raw:
        return f"{float(raw):.{DIGITS}g}"
    return raw_text(raw)


def read_line(line: int, cells: Sequence[Raw], reader: RowReader) -> SampleLine:
    """What the reader made of its only line."""
    texts = told(cells)
    for values, _ in reader.unpriced:
        row = Listed(line, values["number"], values.get("name") or "", Decimal(0))
        return SampleLine(line, texts, row, instead=values["superseded_by"])
    return SampleLine(line, texts, next(iter(reader.rows), None), next(iter(reader.rejected), None))
