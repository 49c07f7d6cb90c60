"""How a supplier's price list is read, as somebody chose it; and what reading it gave."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from pydantic import BaseModel, ConfigDict, Field, ValidationError

from catalogue.calc.price_list.listed import Listed, Rejected

Column = Literal[
    "number",
    "name",
    "cost",
    "list_price",
    "gtin",
    "unit",
    "pack",
    "priced_for",
    "lead_days",
    "superseded_by",
    "currency",
]
NEEDED: tuple[Column, ...] = ("number", "cost")
DecimalMark = Literal["", ".", ","]


class Reading(BaseModel):
    """How one supplier's list is read; kept as JSON. What is empty is found out from the file.

    `model_dump(mode="json")` is what is kept, `Reading.model_validate(kept)` brings it back.
    """

    model_config = ConfigDict(frozen=True, extra="forbid")

    sheet: str = ""
    """The sheet of a workbook; empty for a CSV file, or for a workbook's first sheet with prices."""
    charset: str = ""
    """The character set of a CSV file, by its name in Python."""
    separator: Literal["", ",", ";", "\t", "|"] = ""
    decimal_mark: DecimalMark = ""
    """The mark before the decimals, where a price is a text."""
    head_line: int = Field(default=0, ge=0)
    """The line that names the columns, counted from 1; 0 where none does."""
    head_lines: int = Field(default=1, ge=1, le=3)
    """Over so many lines the heads stand, `head_line` being the first."""
    columns: Mapping[Column, int] = Field(default_factory=dict)
    """The place of each chosen column, counted from 0."""
    heads: Mapping[Column, str] = Field(default_factory=dict)
    """The head that each chosen column bore: by it the column is found again where it has moved."""
    currency: str = ""
    """Rows in another currency are refused; empty where any is taken as the supplier's."""
    priced_for: int = Field(default=1, ge=1)
    """Prices are for so many units, where no column says so."""
    priced_by_pack: bool = False
    """Prices are for a whole pack."""

    @classmethod
    def kept(cls, kept: Mapping[str, object]) -> Reading | None:
        """The reading that was kept; None where there is none, or one of another release."""
        try:
            return cls.model_validate(kept) if kept else None
        except ValidationError:
            return None

    @property
    def missing(self) -> tuple[Column, ...]:
        """The needed columns that are not chosen yet."""
        return tuple(one for one in NEEDED if one not in self.columns)


@dataclass(frozen=True, slots=True)
class ReadList:
    """What a file says: sound rows, refused ones, and what somebody should know besides."""

    rows: tuple[Listed, ...]
    rejected: tuple[Rejected, ...]
    lines: int
    """Filled lines below the heads."""
    passed_over: int = 0
    """Of them, lines that list no article: titles, notes, heads said again, a row that stands twice alike."""
    cautions: tuple[str, ...] = ()
    """What was taken, but should be looked at."""
    heads: tuple[str, ...] = ()
    """What the columns are called, for the file of refused rows."""
