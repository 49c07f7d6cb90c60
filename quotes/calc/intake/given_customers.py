"""Customers, engines and stretches of service as a file gives them, and when two are the same one."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from catalogue.calc.search_key import search_key
from quotes.calc.ask.request import Delivered, Unit


@dataclass(frozen=True, slots=True)
class SegmentGiven:
    """A stretch of past service."""

    line: int
    amount: Decimal
    unit: Unit
    duty: str
    tier: str
    start: date | None = None
    end: date | None = None

    @property
    def content(self) -> tuple[Decimal, str, str, str, date | None, date | None]:
        """What makes two stretches the same: everything but the line it stands on."""
        return (self.amount, self.unit, self.duty, self.tier, self.start, self.end)


@dataclass(frozen=True, slots=True)
class EngineGiven:
    """An engine with its past. Known without segments means that it has not run."""

    line: int
    type_code: str
    number: str
    delivered: Delivered = "loose"
    fitted: str = ""
    note: str = ""
    history_known: bool = False
    segments: tuple[SegmentGiven, ...] = ()

    @property
    def key(self) -> tuple[str, str]:
        return engine_key(self.type_code, self.number)


@dataclass(frozen=True, slots=True)
class CustomerGiven:
    """A customer with the engines named beside it. Blank means that the file does not say."""

    line: int
    name: str
    address: str = ""
    telephone: str = ""
    email: str = ""
    tax_registration: str = ""
    country: str = ""
    engines: tuple[EngineGiven, ...] = ()


@dataclass(frozen=True, slots=True)
class Identity:
    """By what a customer is told from others of the same name."""

    name: str
    email: str
    telephone: str


class Ambiguous(Exception):
    """More than one customer may be meant; holds their places in the sequence."""


def identity(name: str, email: str, telephone: str) -> Identity:
    digits = "".join(char for char in telephone if char.isdigit())
    return Identity(search_key(name), email.strip().casefold(), digits)


def engine_key(type_code: str, number: str) -> tuple[str, str]:
    """Type and number without case, spaces and marks: H4-20417 and h4 20417 are one engine."""
    return type_code, search_key(number).replace(" ", "")


def same_customer(known: Sequence[Identity], given: Identity) -> int | None:
    """Place of the customer in `known` that is meant; None if it is a new one; raises Ambiguous.

    The e-mail tells first. One who is known without an e-mail is told by the telephone. Where neither is
    given, one who is known with neither is meant, else the only one of that name.
    """
    named = [place for place, one in enumerate(known) if one.name == given.name]
    if given.email:
        same = [place for place in named if known[place].email == given.email]
        if not same and given.telephone:
            without = [place for place in named if not known[place].email]
            same = [place for place in without if known[place].telephone == given.telephone]
    elif given.telephone:
        same = [place for place in named if known[place].telephone == given.telephone]
    else:
        bare = [place for place in named if not known[place].email and not known[place].telephone]
        same = bare or named
    if len(same) > 1:
        raise Ambiguous(same)
    return same[0] if same else None
