"""The columns of a file of customers and engines, in the order of the template."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

from catalogue.calc.said import say, to_say
from catalogue.calc.search_key import search_key

SHEET = "Customers"
MOST_AMOUNT = 1_000_000

Part = Literal["customer", "engine", "service"]
Kind = Literal["text", "telephone", "email", "country", "choice", "amount", "date"]


@dataclass(frozen=True, slots=True)
class Column:
    """One column: `longest` counts characters, `allows` says what may stand there."""

    key: str
    english: str
    part: Part
    kind: Kind
    longest: int
    allows: str
    example: str

    @property
    def heading(self) -> str:
        return say(self.english)

    @property
    def allowed(self) -> str:
        return say(self.allows)


COLUMNS: tuple[Column, ...] = (
    Column(
        "name", to_say("Customer"), "customer", "text", 200, to_say("a name on every line"), "Ines Karrow"
    ),
    Column(
        "address", to_say("Address"), "customer", "text", 400, to_say("as on an envelope"), "4 Tallow Yard"
    ),
    Column(
        "telephone",
        to_say("Telephone"),
        "customer",
        "telephone",
        40,
        to_say("figures with + ( ) / - . and spaces"),
        "555 0104",
    ),
    Column(
        "email",
        to_say("E-mail"),
        "customer",
        "email",
        254,
        to_say("such as desk@yard.example"),
        "ines@karrow.example",
    ),
    Column(
        "tax_registration",
        to_say("Tax registration"),
        "customer",
        "text",
        40,
        to_say("as the customer writes it"),
        "",
    ),
    Column(
        "country",
        to_say("Country"),
        "customer",
        "country",
        2,
        to_say("two letters of ISO 3166, such as US"),
        "US",
    ),
    Column(
        "type_code",
        to_say("Engine type"),
        "engine",
        "choice",
        64,
        to_say("a type of the catalogue"),
        "600 inline four",
    ),
    Column(
        "number", to_say("Engine number"), "engine", "text", 60, to_say("as stamped on the case"), "H4-20417"
    ),
    Column("delivered", to_say("Delivered"), "engine", "choice", 20, "", "loose"),
    Column(
        "fitted", to_say("Tune fitted now"), "engine", "choice", 64, to_say("a tier of the catalogue"), ""
    ),
    Column("history", to_say("History"), "engine", "choice", 20, "", "known"),
    Column("note", to_say("Engine note"), "engine", "text", 2000, to_say("anything worth knowing"), ""),
    Column(
        "amount",
        to_say("Used"),
        "service",
        "amount",
        12,
        to_say("a number above 0 with at most 2 decimals"),
        "4100",
    ),
    Column("unit", to_say("Unit"), "service", "choice", 20, "", "mi"),
    Column("duty", to_say("Duty"), "service", "choice", 64, to_say("a duty of the catalogue"), "sprint"),
    Column("tier", to_say("Tune"), "service", "choice", 64, to_say("a tier of the catalogue"), "refresh"),
    Column("start", to_say("From"), "service", "date", 10, to_say("a date such as 2026-03-01"), "2026-03-01"),
    Column("end", to_say("To"), "service", "date", 10, to_say("a date such as 2026-10-10"), "2026-10-10"),
)
BY_KEY: Mapping[str, Column] = {column.key: column for column in COLUMNS}
REQUIRED = "name"


def heading_key(heading: str) -> str:
    """A heading without case, spaces and marks: e-mail, E-Mail and Email are one."""
    return search_key(heading).replace(" ", "")


def by_heading() -> dict[str, Column]:
    """The columns by their heading, in the reader's language or in English."""
    return {heading_key(words): column for column in COLUMNS for words in (column.english, column.heading)}


@dataclass(frozen=True, slots=True)
class Choices:
    """The codes that a file may name, each with its name; a file may give either."""

    type_code: Mapping[str, str]
    duty: Mapping[str, str]
    tier: Mapping[str, str]
    units_of_duty: Mapping[str, tuple[str, ...]]
    """The units in which service of a duty may be given."""
    delivered: Mapping[str, str] = field(
        default_factory=lambda: {"loose": say("loose"), "in_chassis": say("in the chassis")}
    )
    history: Mapping[str, str] = field(
        default_factory=lambda: {"known": say("known"), "new": say("new"), "unknown": say("unknown")}
    )
    unit: Mapping[str, str] = field(
        default_factory=lambda: {
            "mi": say("miles"),
            "km": say("kilometres"),
            "h": say("hours"),
            "runs": say("runs"),
        }
    )

    def of(self, key: str) -> Mapping[str, str]:
        """Code to name for one column of choices."""
        found: Mapping[str, str] = getattr(self, "tier" if key == "fitted" else key)
        return found

    def allowed(self, key: str) -> str:
        """What may stand in a column of choices."""
        pairs = self.of(key).items()
        codes = (code if code == name else f"{code} ({name})" for code, name in pairs)
        return say("one of {codes}", codes=", ".join(codes))
