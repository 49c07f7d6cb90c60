"""The columns of a file of customers and engines, in the order of the template."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

from catalogue.calc.search_key import search_key

SHEET = "Customers"
MOST_AMOUNT = 1_000_000

Part = Literal["customer", "engine", "service"]
Kind = Literal["text", "telephone", "email", "country", "choice", "amount", "date"]


@dataclass(frozen=True, slots=True)
class Column:
    """One column: `longest` counts characters, `allowed` says what may stand there."""

    key: str
    heading: str
    part: Part
    kind: Kind
    longest: int
    allowed: str
    example: str


COLUMNS: tuple[Column, ...] = (
    Column("name", "Customer", "customer", "text", 200, "a name on every line", "Ines Karrow"),
    Column("address", "Address", "customer", "text", 400, "as on an envelope", "4 Tallow Yard"),
    Column(
        "telephone",
        "Telephone",
        "customer",
        "telephone",
        40,
        "figures with + ( ) / - . and spaces",
        "555 0104",
    ),
    Column("email", "E-mail", "customer", "email", 254, "such as desk@yard.example", "ines@karrow.example"),
    Column("tax_registration", "Tax registration", "customer", "text", 40, "as the customer writes it", ""),
    Column("country", "Country", "customer", "country", 2, "two letters of ISO 3166, such as US", "US"),
    Column("type_code", "Engine type", "engine", "choice", 64, "a type of the catalogue", "600 inline four"),
    Column("number", "Engine number", "engine", "text", 60, "as stamped on the case", "H4-20417"),
    Column("delivered", "Delivered", "engine", "choice", 20, "", "loose"),
    Column("fitted", "Tune fitted now", "engine", "choice", 64, "a tier of the catalogue", ""),
    Column("history", "History", "engine", "choice", 20, "", "known"),
    Column("note", "Engine note", "engine", "text", 2000, "anything worth knowing", ""),
    Column("amount", "Used", "service", "amount", 12, "a number above 0 with at most 2 decimals", "4100"),
    Column("unit", "Unit", "service", "choice", 20, "", "mi"),
    Column("duty", "Duty", "service", "choice", 64, "a duty of the catalogue", "sprint"),
    Column("tier", "Tune", "service", "choice", 64, "a tier of the catalogue", "refresh"),
    Column("start", "From", "service", "date", 10, "a date such as 2026-03-01", "2026-03-01"),
    Column("end", "To", "service", "date", 10, "a date such as 2026-10-10", "2026-10-10"),
)
BY_KEY: Mapping[str, Column] = {column.key: column for column in COLUMNS}
REQUIRED = "name"


def heading_key(heading: str) -> str:
    """A heading without case, spaces and marks: e-mail, E-Mail and Email are one."""
    return search_key(heading).replace(" ", "")


BY_HEADING: Mapping[str, Column] = {heading_key(column.heading): column for column in COLUMNS}


@dataclass(frozen=True, slots=True)
class Choices:
    """The codes that a file may name, each with its name; a file may give either."""

    type_code: Mapping[str, str]
    duty: Mapping[str, str]
    tier: Mapping[str, str]
    units_of_duty: Mapping[str, tuple[str, ...]]
    """The units in which service of a duty may be given."""
    delivered: Mapping[str, str] = field(
        default_factory=lambda: {"loose": "loose", "in_chassis": "in the chassis"}
    )
    history: Mapping[str, str] = field(
        default_factory=lambda: {"known": "known", "new": "new", "unknown": "unknown"}
    )
    unit: Mapping[str, str] = field(
        default_factory=lambda: {"mi": "miles", "km": "kilometres", "h": "hours", "runs": "runs"}
    )

    def of(self, key: str) -> Mapping[str, str]:
        """Code to name for one column of choices."""
        found: Mapping[str, str] = getattr(self, "tier" if key == "fitted" else key)
        return found

    def allowed(self, key: str) -> str:
        """What may stand in a column of choices."""
        pairs = self.of(key).items()
        return "one of " + ", ".join(code if code == name else f"{code} ({name})" for code, name in pairs)
