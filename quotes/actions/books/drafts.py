"""Drafts of invoices, deposit invoices and credit notes: started from what was accepted, changed, dropped."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from datetime import date, datetime
from decimal import Decimal
from typing import Any

from django.contrib.auth.models import User
from django.core.exceptions import ValidationError
from django.db import transaction
from django.utils import timezone, translation

from catalogue.calc.money import ZERO
from catalogue.calc.said import say
from quotes.actions.books.calling_off import refuse_called_off
from quotes.actions.books.checks import refuse_line_faults
from quotes.actions.books.credit_checks import creditable
from quotes.actions.books.draft_words import deposit_words, nothing_left
from quotes.actions.books.refused import DepositByReceipt, DraftClosed, DraftFaults, NothingToInvoice
from quotes.actions.refused import StaleDraft
from quotes.calc.ask.fault import BadRequest
from quotes.calc.invoice.credit import credit_draft
from quotes.calc.invoice.deposits import deposit_draft
from quotes.calc.invoice.draft import Draft, DraftLine
from quotes.calc.invoice.draft_changes import draft_changes
from quotes.calc.invoice.sums import draft_sums
from quotes.calc.invoice.taking import part_of_build, with_deposits
from quotes.models import Acceptance, Customer, DepositBy, Invoice, InvoiceDraft, InvoiceKind
from quotes.queries.books.account import BuildAccount
from quotes.queries.books.build import build_account
from quotes.queries.books.chart import books_settings
from quotes.queries.books.credits import credit_content, credits_of, sheet_of_invoice
from quotes.queries.books.sheets import content_of
from quotes.queries.people import name_of


@transaction.atomic
def start_deposit(
    *, build: Acceptance, by: User, now: datetime, payer: Customer | None = None
) -> InvoiceDraft:
    """A deposit invoice for what of the agreed deposit has not been asked for yet.

    Started twice, it gives the draft that is open. DepositByReceipt, NothingToInvoice, CalledOffAlready.
    """
    if books_settings().deposit_by == DepositBy.RECEIPT:
        raise DepositByReceipt
    account = _account(build, now)
    refuse_called_off(build)
    if not account.deposit_agreed:
        raise NothingToInvoice(say("No deposit was agreed at the yes."))
    if not account.deposit_to_ask:
        numbers = ", ".join(one.number for one in account.deposits if one.asked)
        raise NothingToInvoice(
            say(
                "The deposit of {deposit_agreed} {currency} was asked for already: {numbers}.",
                deposit_agreed=f"{account.deposit_agreed:f}",
                currency=account.currency,
                numbers=numbers,
            )
        )
    lines = tuple(one.line for one in account.lines)
    content = deposit_draft(
        account.deposit_to_ask,
        draft_sums(Draft(lines=lines), account.tax_codes, account.decimals).tax_groups,
        account.tax_codes,
        decimals=account.decimals,
        words=deposit_words(account, payer or account.build.quote.customer),
    )
    return _started(InvoiceKind.DEPOSIT, payer or account.build.quote.customer, content, by, now, build=build)


@transaction.atomic
def start_invoice(
    *,
    build: Acceptance,
    by: User,
    now: datetime,
    payer: Customer | None = None,
    kinds: Collection[str] | None = None,
    share_pct: Decimal | None = None,
) -> InvoiceDraft:
    """An invoice of what is accepted and not asked for yet, with the payer's deposits taken off.

    Only lines of some `kinds`, or `share_pct` per cent of each line, where several pay. Started twice, it
    gives the draft that is open. NothingToInvoice; ValidationError for a share that is none.
    """
    if share_pct is not None and not ZERO < share_pct <= 100:
        raise ValidationError(
            {"share_pct": say("{share_pct} %: above 0 and at most 100.", share_pct=f"{share_pct:f}")}
        )
    account = _account(build, now)
    customer = payer or account.build.quote.customer
    accepted = tuple(one.line for one in account.lines)
    lines = part_of_build(accepted, account.to_invoice, kinds, share_pct, account.decimals)
    if not lines:
        raise NothingToInvoice(nothing_left(account, kinds))
    with translation.override(customer.reads):
        content = with_deposits(
            Draft(lines=lines, labour_by=account.labour_by),
            [one for one in account.deposits if one.customer_id == customer.pk],
            account.tax_codes,
            account.decimals,
            last=lines == account.to_invoice,
        )
    return _started(InvoiceKind.INVOICE, customer, content, by, now, build=build)


@transaction.atomic
def start_sale(*, customer: Customer, lines: Sequence[DraftLine], by: User, now: datetime) -> InvoiceDraft:
    """An invoice that rests on no build, such as parts over the counter. DraftFaults."""
    refuse_line_faults(lines, timezone.localdate(now))
    return _started(InvoiceKind.INVOICE, customer, Draft(lines=tuple(lines)), by, now)


@transaction.atomic
def start_teardown(*, customer: Customer, content: Draft, by: User, now: datetime) -> InvoiceDraft:
    """The invoice of a strip-down that nothing was built after, with its deposit taken off. DraftFaults."""
    refuse_line_faults(content.lines, timezone.localdate(now))
    return _started(InvoiceKind.INVOICE, customer, content, by, now)


@transaction.atomic
def start_credit(*, invoice: Invoice, by: User, now: datetime) -> InvoiceDraft:
    """A credit note of all that is left of a document, to be cut down to what is to be credited.

    Started twice, it gives the draft that is open. NotCreditable.
    """
    row = (
        Invoice.objects.select_for_update(of=("self",)).select_related("customer", "build").get(pk=invoice.pk)
    )
    left = creditable(row)
    standing = InvoiceDraft.objects.open().filter(original=row).first()
    if standing is not None:
        return standing
    with translation.override(row.customer.reads):
        content = credit_draft(sheet_of_invoice(row), left, credits_of(row))
    return _started(InvoiceKind.CREDIT, row.customer, content, by, now, build=row.build, original=row)


def _account(build: Acceptance, now: datetime) -> BuildAccount:
    """The build's account, its row locked so that two who start at once get one draft."""
    Acceptance.objects.select_for_update(of=("self",)).get(pk=build.pk)
    return build_account(build, timezone.localdate(now))


def _started(
    kind: InvoiceKind, customer: Customer, content: Draft, by: User, now: datetime, **of: Any
) -> InvoiceDraft:
    """The draft, or the one that is open and holds the same."""
    as_kept = content.model_dump(mode="json")
    for row in InvoiceDraft.objects.open().filter(kind=kind, customer=customer, **(of or {"build": None})):
        if row.content == as_kept:
            return row
    return InvoiceDraft.objects.create(
        kind=kind,
        customer=customer,
        content=as_kept,
        started_by=by,
        started_at=now,
        edited_by=name_of(by),
        edited_at=now,
        **of,
    )


@transaction.atomic
def save_invoice_draft(
    *,
    draft: InvoiceDraft,
    content: Draft,
    expected_version: int,
    by: User,
    now: datetime,
    supplied_on: date | None = None,
    customer: Customer | None = None,
) -> InvoiceDraft:
    """Put other content in the draft's place; None leaves day of supply and payer as they are.

    What is the same as stored is no change. StaleDraft where somebody has kept another change since
    `expected_version`, DraftClosed, DraftFaults; ValidationError for a credit note to another customer.
    """
    row = _open(draft)
    content = _fit(row, content, now)
    day, payer = supplied_on or row.supplied_on, customer or row.customer
    if (content_of(row), row.supplied_on, row.customer) == (content, day, payer):
        return row
    if row.version != expected_version:
        raise StaleDraft(draft_changes(content_of(row), content), row.edited_by, row.version)
    if row.original is not None and payer != row.original.customer:
        raise ValidationError(
            {
                "customer": say(
                    "{payer}: a credit note goes to {customer}, who was asked.",
                    payer=payer,
                    customer=row.original.customer,
                )
            }
        )
    row.content, row.supplied_on, row.customer = content.model_dump(mode="json"), day, payer
    row.version += 1
    row.edited_at, row.edited_by = now, name_of(by)
    row.save(update_fields=["content", "supplied_on", "customer", "version", "edited_at", "edited_by"])
    return row


def _fit(row: InvoiceDraft, content: Draft, now: datetime) -> Draft:
    """The content as it may be kept; of a credit note prices, taxes and rounding are its original's."""
    if row.original is None:
        refuse_line_faults(content.lines, row.supplied_on or timezone.localdate(now))
        return content
    try:
        return credit_content(row.original, content)
    except BadRequest as bad:
        raise DraftFaults(bad.faults) from None


@transaction.atomic
def drop_invoice_draft(*, draft: InvoiceDraft, by: User, now: datetime) -> InvoiceDraft:
    """Give a draft up; it never had a number, so it leaves no gap. DraftClosed where it was issued."""
    row = InvoiceDraft.objects.select_for_update(of=("self",)).get(pk=draft.pk)
    if row.dropped_at is None:
        row = _open(row)
        row.dropped_at, row.edited_by = now, name_of(by)
        row.save(update_fields=["dropped_at", "edited_by"])
    return row


def _open(draft: InvoiceDraft) -> InvoiceDraft:
    """The draft's row, locked. DraftClosed where it was issued or dropped."""
    row = (
        InvoiceDraft.objects.select_for_update(of=("self",))
        .select_related("customer", "build", "original__customer")
        .get(pk=draft.pk)
    )
    issued = Invoice.objects.filter(draft=row).first()
    if issued is not None or row.dropped_at is not None:
        raise DraftClosed(issued.number if issued else "")
    return row
