"""An invoice as it is issued, frozen: page, PDF, XML, workbook and journal draw these values.

Invoice here is the word of EN 16931 for all three documents: invoice, credit note and deposit invoice. BT and
BR numbers are those of the standard. Money is Decimal in the sheet's currency; amounts of a credit note are
positive, what they take back is said by its kind.
"""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from typing import Literal, Self

from pydantic import model_validator

from catalogue.calc.money import ZERO
from quotes.calc.ask.request import Value
from quotes.calc.invoice.line_tax import LineTax
from quotes.calc.sheet.issued_values import Party
from quotes.calc.sheet.line_values import TaxGroup

Kind = Literal["deposit_invoice", "invoice", "credit_note"]
TYPE_CODES: dict[Kind, str] = {"deposit_invoice": "386", "invoice": "380", "credit_note": "381"}
"""BT-3, from UNTDID 1001."""

LineKind = Literal[
    "labour",
    "part",
    "machine_work",
    "consumables",
    "discount",
    "core",
    "storage",
    "freight",
    "interest",
    "deposit",
    "other",
]
"""What a line is for. `deposit`: asked for by a deposit invoice, or, negative, taken off again."""


class Adjustment(Value):
    """An allowance (taken off) or a charge (put on), of a line or of a document. `amount` is positive.

    `percent` of `base` is how it was worked out, where it was. `tax_code` is set on those of a document.
    """

    kind: Literal["allowance", "charge"]
    amount: Decimal
    reason: str = ""
    percent: Decimal | None = None
    base: Decimal | None = None
    tax_code: str = ""
    category: str = ""
    rate_pct: Decimal = ZERO
    taxed: LineTax | None = None

    @property
    def signed(self) -> Decimal:
        return -self.amount if self.kind == "allowance" else self.amount


class InvoiceLine(Value):
    """One line (BG-25). `key` says which accepted line it asks for, and is empty where it stands alone."""

    number: int
    """BT-126, from 1."""
    key: str = ""
    kind: LineKind
    description: str
    """BT-153."""
    note: str = ""
    quantity: Decimal
    """BT-129; a return carries its sign here."""
    unit: str
    """In words, for people."""
    unit_code: str
    """BT-130, UN/ECE Recommendation 20."""
    unit_price: Decimal
    """BT-146, never negative (BR-27)."""
    price_base: Decimal = Decimal(1)
    """BT-149: the price is for so many units."""
    adjustments: tuple[Adjustment, ...] = ()
    net: Decimal
    """BT-131."""
    tax_code: str
    category: str
    """BT-151."""
    rate_pct: Decimal
    """BT-152."""
    component: str | None = None
    own_part: bool = False
    """Whether the customer brought the part: it is fitted and not charged."""
    taxed: LineTax | None = None
    of_line: int | None = None
    """On a credit note: the number of the line of the original that this takes back."""


class Sums(Value):
    """The totals of a document (BG-22) and its tax breakdown (BG-23)."""

    line_total: Decimal
    """BT-106: sum of the lines' nets."""
    allowance_total: Decimal = ZERO
    """BT-107."""
    charge_total: Decimal = ZERO
    """BT-108."""
    net: Decimal
    """BT-109."""
    tax: Decimal
    """BT-110."""
    gross: Decimal
    """BT-112."""
    prepaid: Decimal = ZERO
    """BT-113: paid before, without tax having been due on it."""
    rounding: Decimal = ZERO
    """BT-114."""
    due: Decimal
    """BT-115."""
    tax_groups: tuple[TaxGroup, ...]

    @model_validator(mode="after")
    def sums_agree(self) -> Self:
        """The rules of calculation BR-CO-13 to BR-CO-16, so that a sheet that breaks one can't exist."""
        rules = (
            ("BR-CO-13", self.net, self.line_total - self.allowance_total + self.charge_total),
            ("BR-CO-14", self.tax, sum((group.tax for group in self.tax_groups), ZERO)),
            ("BR-CO-15", self.gross, self.net + self.tax),
            ("BR-CO-16", self.due, self.gross - self.prepaid + self.rounding),
        )
        for rule, stated, worked_out in rules:
            if stated != worked_out:
                raise ValueError(f"{rule}: {stated} is stated where {worked_out} comes out")
        return self


class ExtraAgreed(Value):
    """Extra work that was accepted on top of the option."""

    number: str
    words: str
    gross: Decimal
    accepted_by: str
    accepted_on: date


class Agreed(Value):
    """The yes that the invoice rests on."""

    quote: str
    revision: int
    option: str
    accepted_by: str
    accepted_on: date
    gross: Decimal
    limit_sum: Decimal
    extra_work: tuple[ExtraAgreed, ...] = ()

    @property
    def up_to(self) -> Decimal:
        """The most that may be asked for without another yes."""
        return self.gross + self.limit_sum + sum((extra.gross for extra in self.extra_work), ZERO)


class Reference(Value):
    """An earlier document that this one refers to (BG-3)."""

    kind: Kind
    number: str
    issued_on: date


class Prepayment(Value):
    """A deposit taken by receipt, without tax, that is taken off what is due (part of BT-113)."""

    receipt: str
    on: date
    amount: Decimal


class Account(Value):
    """Where a transfer goes: BT-84, BT-86, BT-85."""

    iban: str = ""
    bic: str = ""
    name: str = ""


class Late(Value):
    """What the terms ask for once the day of payment has passed. A rate of 0 asks for nothing."""

    rate_pct_a_year: Decimal = ZERO
    after_days: int = 0


class InvoiceSheet(Value):
    """A document as it was issued: reprinting it needs no catalogue, no settings and no sums."""

    kind: Kind
    number: str
    issued_on: date
    """BT-2."""
    due_on: date | None
    """BT-9."""
    payment_words: str
    """BT-20, such as: before the engine leaves."""
    supplied_from: date | None = None
    supplied_on: date
    """BT-72 and BT-74: the day the work was done, or the deposit asked for."""
    currency: str
    decimals: int
    tax_style: Literal["sales-tax", "value-added-tax"]
    seller: Party
    seller_country: str
    """BT-40."""
    buyer: Party
    buyer_country: str
    """BT-55."""
    engine_name: str = ""
    engine_number: str = ""
    service_in_words: str = ""
    """What the engine had run when it was built."""
    agreed: Agreed | None = None
    lines: tuple[InvoiceLine, ...]
    adjustments: tuple[Adjustment, ...] = ()
    """Of the whole document (BG-20, BG-21)."""
    sums: Sums
    preceding: tuple[Reference, ...] = ()
    """The original of a credit note; the deposit invoices taken off an invoice."""
    prepayments: tuple[Prepayment, ...] = ()
    account: Account = Account()
    late: Late = Late()
    reason: str = ""
    """Why a credit note was issued."""
    notes: tuple[str, ...] = ()
    terms: tuple[str, ...] = ()
    paper: Literal["A4", "Letter"] = "A4"
    language: str = "en"

    @property
    def sign(self) -> int:
        """+1 for what asks for money, -1 for what gives it back."""
        return -1 if self.kind == "credit_note" else 1

    @property
    def remittance(self) -> str:
        """BT-83: what the payer says with the transfer."""
        return self.number
