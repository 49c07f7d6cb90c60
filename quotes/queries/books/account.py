"""The money of one build as values: what is agreed, asked for, held and still to come."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from typing import Literal

from catalogue.calc.money import ZERO
from quotes.calc.invoice.draft import DraftLine
from quotes.calc.invoice.tally import Tally
from quotes.calc.invoice.values import Agreed
from quotes.calc.shop import TaxCode
from quotes.models import Acceptance, ExtraWork, Invoice, InvoiceDraft

LabourBy = Literal["quoted", "clocked"]


@dataclass(frozen=True, slots=True)
class AcceptedLine:
    """One accepted line: how much of it was asked for, and what is left (None: nothing)."""

    line: DraftLine
    invoiced: Decimal
    left: DraftLine | None


@dataclass(frozen=True, slots=True)
class DepositOf:
    """A deposit of the build, by invoice or by receipt, and what of it no invoice has taken off yet."""

    by: Literal["invoice", "receipt"]
    number: str
    pk: int
    on: date
    customer_id: int
    customer: str
    asked: Decimal
    left: Decimal
    """With tax where it was asked for by invoice."""
    lines: tuple[DraftLine, ...] = ()
    """By invoice: what an invoice takes off, one negative line for each tax."""
    rounding: Decimal = ZERO
    """By invoice: the rounding (BT-114) of the invoice that takes off the last of it."""
    unpaid: Decimal = ZERO


@dataclass(frozen=True, slots=True)
class HoursOf:
    """Quoted and clocked hours of one operation."""

    operation: str
    name: str
    quoted: Decimal
    clocked: Decimal


@dataclass(frozen=True, slots=True)
class BuildAccount:
    """All that the money page of a build shows and that its documents are made from. Sums in `currency`."""

    build: Acceptance
    on: date
    currency: str
    decimals: int
    tax_codes: Mapping[str, TaxCode]
    """As they hold on `on`."""
    agreed: Agreed
    labour_by: LabourBy
    lines: tuple[AcceptedLine, ...]
    to_invoice: tuple[DraftLine, ...]
    """What of the accepted lines has not been asked for, labour by `labour_by`."""
    to_invoice_gross: Decimal
    """With tax at the rates of `on`; deposits not taken off."""
    accepted_gross: Decimal
    """All accepted lines at the rates of `on`."""
    extra_work: tuple[ExtraWork, ...]
    documents: tuple[Invoice, ...]
    """Issued ones, in order."""
    drafts: tuple[InvoiceDraft, ...]
    deposits: tuple[DepositOf, ...]
    hours: tuple[HoursOf, ...]
    asked: Tally
    finally_invoiced: bool

    @property
    def asked_gross(self) -> Decimal:
        """Asked for so far, less credits, as it counts against the yes."""
        return self.asked.gross

    @property
    def up_to(self) -> Decimal:
        """The most that may be asked for without another yes."""
        return self.agreed.up_to

    @property
    def agreed_gross(self) -> Decimal:
        """Accepted without the signed limit: the option with its extras, and extra work."""
        return self.agreed.up_to - self.agreed.limit_sum

    @property
    def beyond(self) -> Decimal:
        """What of the signed limit has been used."""
        return max(self.asked_gross - self.agreed_gross, ZERO)

    @property
    def deposit_agreed(self) -> Decimal:
        return self.build.deposit

    @property
    def deposit_asked(self) -> Decimal:
        """Deposits asked for or taken, less what was credited or paid back."""
        return sum((deposit.asked for deposit in self.deposits), ZERO)

    @property
    def deposit_to_ask(self) -> Decimal:
        return max(self.deposit_agreed - self.deposit_asked, ZERO)

    @property
    def deposit_left(self) -> Decimal:
        """Held and not taken off by an invoice yet."""
        return sum((deposit.left for deposit in self.deposits), ZERO)

    @property
    def to_pay_back(self) -> Decimal:
        """Of a build called off: what is held beyond the work so far, once that is invoiced."""
        if not self.build.is_called_off:
            return ZERO
        return max(self.deposit_left - self.to_invoice_gross, ZERO)

    @property
    def hours_quoted(self) -> Decimal:
        return sum((row.quoted for row in self.hours), ZERO)

    @property
    def hours_clocked(self) -> Decimal:
        return sum((row.clocked for row in self.hours), ZERO)
