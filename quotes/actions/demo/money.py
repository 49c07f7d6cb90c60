"""What happens to the money of a build in a demo year, each through the action that people use."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import datetime
from decimal import Decimal

from django.contrib.auth.models import User
from django.utils import timezone

from catalogue.calc.money import ZERO, round_half_up
from quotes.actions.books.calling_off import call_off
from quotes.actions.books.drafts import save_invoice_draft, start_credit, start_deposit, start_invoice
from quotes.actions.books.issuing import issue_invoice
from quotes.actions.books.opening import enter_opening
from quotes.actions.books.paying_back import refund
from quotes.actions.books.payments import take_payment
from quotes.actions.books.reversing import reverse_payment
from quotes.actions.books.write_off import write_off
from quotes.actions.demo.bench import Day, answer_extra, bills, hours, offer_extra
from quotes.calc.books.values import Role
from quotes.calc.demo.year import Act, YearOpening
from quotes.calc.invoice.draft import Draft
from quotes.models import Customer, Invoice, InvoiceDraft, OpenItem, Payment
from quotes.queries.books.chart import books_settings
from quotes.queries.workshop import shop_rules


def open_the_books(opening: YearOpening, *, by: User, now: datetime) -> None:
    """What was in the bank and on the shelf when the year began."""
    amounts: dict[Role, Decimal] = {
        "bank": opening.bank,
        "stock": opening.stock,
        "opening": opening.bank + opening.stock,
    }
    enter_opening(on=timezone.localdate(now), amounts=amounts, by=by, now=now)


def _ask_deposit(day: Day) -> None:
    """A deposit invoice, where the workshop asks for deposits with one."""
    if books_settings().deposit_by == "invoice":
        issue_invoice(draft=start_deposit(build=day.build, by=day.desk, now=day.at), by=day.desk, now=day.at)


def _pay_deposit(day: Day) -> None:
    asked = OpenItem.objects.filter(invoice__build=day.build, invoice__kind="deposit_invoice").first()
    _take(day, asked.open_amount if asked else day.build.deposit, deposit=asked is None)


def _give_back_deposit(day: Day) -> None:
    """The customer has called the build off before the strip-down: everything is paid back."""
    said_by = day.build.quote.customer.name
    call_off(build=day.build, reason="Sold the machine", said_by=said_by, on=day.on, by=day.desk, now=day.at)
    asked = Invoice.objects.filter(build=day.build, kind="deposit_invoice").first()
    if asked is None:
        _pay_back(day, day.build.deposit)
        return
    _credit(day, asked, "The build was called off before the strip-down", part=False)
    _refund(day)


def _invoice(
    day: Day,
    *,
    payer: Customer | None = None,
    kinds: tuple[str, ...] | None = None,
    change: Callable[[Draft], Draft] = lambda draft: draft,
) -> None:
    draft = start_invoice(build=day.build, payer=payer, kinds=kinds, by=day.books, now=day.at)
    issue_invoice(draft=_changed(day, draft, change), by=day.books, now=day.at)


def _changed(day: Day, draft: InvoiceDraft, change: Callable[[Draft], Draft]) -> InvoiceDraft:
    content = Draft.model_validate(draft.content)
    wanted = change(content)
    if wanted == content:
        return draft
    return save_invoice_draft(
        draft=draft, content=wanted, expected_version=draft.version, by=day.books, now=day.at
    )


def _own_parts(draft: Draft) -> Draft:
    """The first part of the list was brought by the customer."""
    first = next(line for line in draft.lines if line.kind == "part")
    brought = first.model_copy(
        update={"own_part": True, "unit_price": ZERO, "note": "Brought by the customer, no warranty on it"}
    )
    return draft.model_copy(
        update={"lines": tuple(brought if line is first else line for line in draft.lines)}
    )


def _take(
    day: Day,
    amount: Decimal,
    *,
    method: str = "transfer",
    deposit: bool = False,
    item: OpenItem | None = None,
) -> None:
    take_payment(
        customer=item.customer if item else day.build.quote.customer,
        on=day.on,
        amount=amount,
        method=method,
        key=day.key(f"{item.number if item else 'deposit'}:{method}"),
        reference=item.number if item else str(day.build.quote.number),
        allocate={item.pk: min(amount, item.open_amount)} if item else None,
        build=day.build if deposit else None,
        deposit=deposit,
        by=day.desk,
        now=day.at,
    )


def _pay(day: Day, *, share: Decimal = Decimal(1), over: Decimal = ZERO, method: str = "transfer") -> None:
    """Everything that is open on the build, or a share of it."""
    decimals = shop_rules(day.on).decimals
    for item in OpenItem.objects.owed_to_us().filter(invoice__build=day.build):
        _take(day, round_half_up(item.open_amount * share, decimals) + over, method=method, item=item)


def _refund(day: Day) -> None:
    """What stands in the customer's favour."""
    item = OpenItem.objects.owed_by_us().filter(customer=day.build.quote.customer).first()
    assert item is not None
    _pay_back(day, -item.open_amount, item)


def _pay_back(day: Day, amount: Decimal, item: OpenItem | None = None) -> None:
    """So much of an open item, or of the deposit held for the build."""
    refund(
        customer=day.build.quote.customer,
        on=day.on,
        amount=amount,
        method="transfer",
        key=day.key("back"),
        from_item=item,
        deposit_of=None if item else day.build,
        by=day.books,
        now=day.at,
    )


def _bounce(day: Day) -> None:
    cheque = Payment.objects.get(item__settles__debit__invoice__build=day.build, method="cheque")
    reverse_payment(payment=cheque, on=day.on, by=day.books, now=day.at, note="The bank sent it back")


def _latest_invoice(day: Day) -> Invoice:
    found = Invoice.objects.filter(build=day.build, kind="invoice").order_by("pk").last()
    assert found is not None
    return found


def _credit(day: Day, invoice: Invoice, reason: str, *, part: bool) -> None:
    """Take back the whole document, or half an hour of its first line of work."""

    def change(draft: Draft) -> Draft:
        lines = draft.lines
        if part:
            work = next(line for line in lines if line.kind == "labour")
            lines = (work.model_copy(update={"quantity": min(work.quantity, Decimal("0.5"))}),)
        return draft.model_copy(update={"lines": lines, "reason": reason})

    draft = start_credit(invoice=invoice, by=day.books, now=day.at)
    issue_invoice(draft=_changed(day, draft, change), by=day.books, now=day.at)


def _write_off(day: Day) -> None:
    for item in OpenItem.objects.owed_to_us().filter(invoice__build=day.build):
        reason = "Moved away, letters come back"
        write_off(item=item, amount=item.open_amount, reason=reason, on=day.on, by=day.owner, now=day.at)


MONEY: Mapping[Act, Callable[[Day], None]] = {
    "ask_deposit": _ask_deposit,
    "pay_deposit": _pay_deposit,
    "give_back_deposit": _give_back_deposit,
    "bills": bills,
    "hours": hours,
    "offer_extra": offer_extra,
    "accept_extra": lambda day: answer_extra(day, accepted=True),
    "decline_extra": lambda day: answer_extra(day, accepted=False),
    "take_own_parts": lambda day: _invoice(day, change=_own_parts),
    "invoice": _invoice,
    "invoice_labour": lambda day: _invoice(day, kinds=("labour", "consumables")),
    "invoice_rest": _invoice,
    "invoice_second": lambda day: _invoice(day, payer=day.second),
    "pay": _pay,
    "pay_cheque": lambda day: _pay(day, method="cheque"),
    "pay_half": lambda day: _pay(day, share=Decimal("0.5")),
    "pay_over": lambda day: _pay(day, over=Decimal(20)),
    "refund": _refund,
    "bounce": _bounce,
    "credit_part": lambda day: _credit(
        day, _latest_invoice(day), "Half an hour was asked for twice", part=True
    ),
    "credit_whole": lambda day: _credit(
        day, _latest_invoice(day), "Made out before the last hours were in", part=False
    ),
    "write_off": _write_off,
}
