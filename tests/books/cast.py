"""Builds that were accepted and what happens to their money. All invented.

The build is a mild one of six lines: 14.3 h of labour at 110, valve springs, a camshaft, seats cut and
consumables, 2,655.40 before tax. With value added tax of 20 % on everything that is 3,186.48, half of it
agreed as deposit, and a signed limit of 200.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import timedelta
from decimal import Decimal
from typing import Any

from catalogue.calc.money import ZERO, round_half_up
from quotes.actions.books.drafts import save_invoice_draft, start_credit, start_deposit, start_invoice
from quotes.actions.books.extra_work import answer_extra_work, offer_extra_work
from quotes.actions.books.issuing import issue_invoice
from quotes.calc.invoice.draft import Draft, DraftLine
from quotes.calc.money.tax import tax_of
from quotes.calc.sheet.base_values import Spread
from quotes.calc.sheet.values import Comparison, Option
from quotes.models import (
    Acceptance,
    BooksSettings,
    Customer,
    ExtraWork,
    Invoice,
    InvoiceDraft,
    TaxCode,
    TaxComponent,
    Workshop,
)
from quotes.queries.books.day import money_of
from quotes.queries.books.sheets import content_of
from tests.cast import books, desk
from tests.quotes import cast
from tests.quotes.cast import NOW, ON
from tests.sample_sheet import sample_comparison
from tests.written_again import written_again

__all__ = ["LATER", "NOW", "ON"]

LATER = NOW + timedelta(days=20)
KEPT = (
    "labour:cases_split",
    "labour:head_on",
    "part:S-VSP",
    "part:P-CAM-I",
    "machine_work:seat_cut",
    "consumables:consumables",
)
LABOUR = Decimal("1573.00")
"""Before tax: 6.8 h and 7.5 h at 110."""
NET, TAX, GROSS = Decimal("2655.40"), Decimal("531.08"), Decimal("3186.48")
DEPOSIT = Decimal("1593.24")
LIMIT = Decimal(200)


@written_again
def vat_shop(rate: str = "20", **change: Any) -> Workshop:
    """A workshop with value added tax of 20 % on everything, in euro."""
    code = TaxCode.objects.create(code="standard", category="S")
    TaxComponent.objects.create(tax_code=code, order=0, name="VAT", rate_pct=Decimal(rate))
    fields: dict[str, Any] = {
        f"tax_on_{kind}": code for kind in ("labour", "parts", "machine_work", "consumables")
    }
    fields |= {
        "name": "Sorrel Yard Engines",
        "address": "4 Sorrel Yard\nAnyborough",
        "tax_registration": "DE123456789",
        "currency": "EUR",
        "tax_style": "value-added-tax",
        "paper": "A4",
    }
    keep_settings(country="DE")
    return Workshop.objects.create(id=Workshop.ONLY_ID, **(fields | change))


def sales_tax_shop() -> Workshop:
    """6 % state and 1.25 % county on parts; labour exempt."""
    shop = cast.workshop()
    TaxCode.objects.create(code="exempt", category="E", reason="Repair labour stated apart is not taxed.")
    return shop


def keep_settings(**fields: Any) -> BooksSettings:
    row, _ = BooksSettings.objects.update_or_create(pk=BooksSettings.ONLY_ID, defaults=fields)
    return row


def change_rate(rate: str, code: str = "standard") -> None:
    TaxComponent.objects.filter(tax_code__code=code).update(rate_pct=Decimal(rate))


def comparison(style: str = "value-added-tax") -> Comparison:
    """The hand-made comparison, its mild build cut down to six lines and taxed by the workshop's codes."""
    whole = sample_comparison(currency="EUR" if style == "value-added-tax" else "USD")
    small = _small(whole.option("mild"), "standard" if style == "value-added-tax" else "")
    options = tuple(small if option.tier == "mild" else option for option in whole.options)
    return whole.model_copy(update={"options": options})


def _small(option: Option, code: str) -> Option:
    lines = tuple(line for line in option.lines if line.key in KEPT)
    lines = tuple(line.model_copy(update={"tax_code": code or line.tax_code}) for line in lines)
    net = sum((line.net for line in lines), ZERO)
    workshop = Workshop.objects.get()
    money = money_of(ON, workshop)
    groups = tax_of([(line.tax_code, line.net) for line in lines], money.tax_codes, money.decimals)
    tax = sum((group.tax for group in groups), ZERO)
    one = {"lines": lines, "tax_groups": groups}
    sums = {"net": net, "tax": tax, "gross": net + tax}
    spreads = {name: Spread(low=amount, typical=amount, high=amount) for name, amount in sums.items()}
    asked = round_half_up((net + tax) * workshop.deposit_pct / 100, money.decimals)
    codes = {line.code for line in lines}
    work = tuple(step for step in option.work if step.code in codes)
    return option.model_copy(update={**one, **spreads, "deposit": asked, "work": work})


@written_again
def build(number: str = "H4-20417", *, limit: Decimal = LIMIT, style: str = "", **change: Any) -> Acceptance:
    """A yes to the mild build, in a workshop that is made where there is none (value added tax)."""
    if not Workshop.objects.exists():
        vat_shop()
    style = style or str(Workshop.objects.get().tax_style)
    owner = Customer.objects.filter(name="Marel Otten").first() or cast.customer()
    quote = cast.draft(cast.engine(owner, number))
    # Where a test commits, the quote's papers would be drawn, which takes longer than the rest of it.
    revision = cast.issued(quote, comparison=comparison(style), papers=False)
    return cast.accepted(revision, limit_sum=limit, papers=False, **change)


def other_payer() -> Customer:
    return Customer.objects.filter(name="Two Rivers Team").first() or cast.customer("Two Rivers Team")


@written_again
def drafted(of: Acceptance, **options: Any) -> InvoiceDraft:
    return start_invoice(build=of, by=books(), now=options.pop("now", NOW), **options)


def changed(draft: InvoiceDraft, change: Callable[[Draft], Draft], **options: Any) -> InvoiceDraft:
    """The draft with its content changed by hand and kept."""
    return save_invoice_draft(
        draft=draft,
        content=change(content_of(draft)),
        expected_version=draft.version,
        by=books(),
        now=NOW,
        **options,
    )


def issue(draft: InvoiceDraft, **options: Any) -> Invoice:
    return issue_invoice(draft=draft, by=options.pop("by", books()), now=options.pop("now", NOW), **options)


@written_again
def invoiced(of: Acceptance, **options: Any) -> Invoice:
    """All that is left of a build, or the part that the options say, issued."""
    now = options.pop("now", NOW)
    return issue(drafted(of, now=now, **options), now=now)


@written_again
def deposited(of: Acceptance, **options: Any) -> Invoice:
    """The deposit invoice of a build, issued."""
    now = options.pop("now", NOW)
    return issue(start_deposit(build=of, by=books(), now=now, **options), now=now)


def credited(invoice: Invoice, quantities: dict[int, str] | None = None, **options: Any) -> Invoice:
    """A credit note, whole or of these quantities by line number, issued."""
    now = options.pop("now", NOW)
    draft = start_credit(invoice=invoice, by=books(), now=now)
    return issue(changed(draft, lambda content: _cut(content, quantities)), now=now)


def _cut(content: Draft, quantities: dict[int, str] | None) -> Draft:
    lines: Sequence[DraftLine] = content.lines
    if quantities is not None:
        lines = [
            line.model_copy(update={"quantity": Decimal(quantities[line.of_line])})
            for line in lines
            if line.of_line is not None and line.of_line in quantities
        ]
    return content.model_copy(update={"lines": tuple(lines), "reason": "Asked for twice"})


def line(description: str = "Freight of the crankshaft", **change: Any) -> DraftLine:
    """A line that stands alone: 100 before tax."""
    fields: dict[str, Any] = {
        "kind": "freight",
        "description": description,
        "quantity": Decimal(1),
        "unit_price": Decimal(100),
        "tax_code": "standard",
    }
    return DraftLine(**(fields | change))


def with_line(extra: DraftLine) -> Callable[[Draft], Draft]:
    return lambda content: content.model_copy(update={"lines": (*content.lines, extra)})


def extra_work(of: Acceptance, *, accepted: bool | None = True, **change: Any) -> ExtraWork:
    """A bore plated again for 320 and 1.5 h of labour: 485 before tax, 582 with it. `None`: not answered."""
    lines = (
        line("Cylinder plated again", kind="machine_work", unit_price=Decimal(320)),
        line("Fit and measure", kind="labour", quantity=Decimal("1.5"), unit="h", unit_price=Decimal(110)),
    )
    fields: dict[str, Any] = {"words": "A bore is scored past its limit", "lines": lines}
    offered = offer_extra_work(build=of, by=desk(), now=NOW, **(fields | change))
    if accepted is None:
        return offered
    how = "By telephone, 000 555 0199"
    return answer_extra_work(
        extra=offered, accepted=accepted, name="Marel Otten", how=how, by=desk(), now=NOW
    )
