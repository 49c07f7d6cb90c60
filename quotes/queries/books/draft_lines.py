"""What a draft document could take in: its own lines, what is accepted and not asked for, deposits held."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal

from catalogue.calc.money import ZERO
from quotes.calc.invoice.allowed import Beyond, beyond_the_yes
from quotes.calc.invoice.credit import credit_draft, left_to_credit
from quotes.calc.invoice.draft import Draft, DraftLine
from quotes.calc.invoice.values import InvoiceSheet
from quotes.models import Invoice, InvoiceDraft
from quotes.queries.books.account import BuildAccount
from quotes.queries.books.credits import credits_of, sheet_of_invoice
from quotes.queries.books.deposits import strip_down_deposits


@dataclass(frozen=True, slots=True)
class Offered:
    """A line that the draft holds, or, not `inside`, one that it could."""

    line: DraftLine
    inside: bool


def offered_lines(draft: InvoiceDraft, stored: Draft, account: BuildAccount | None) -> tuple[Offered, ...]:
    """The draft's lines, then those that it could take in."""
    inside = tuple(Offered(line, True) for line in stored.lines)
    if draft.original is not None:
        return _creditable(draft.original, stored)
    if account is None or draft.kind != "invoice":
        return inside
    held = {line.key for line in stored.lines if line.key}
    mine = (deposit for deposit in account.deposits if deposit.customer_id == draft.customer_id)
    deposits = (line for deposit in mine for line in deposit.lines)
    more = (line for line in (*account.to_invoice, *deposits) if line.key not in held)
    return (*inside, *(Offered(line, False) for line in more))


def _creditable(original: Invoice, stored: Draft) -> tuple[Offered, ...]:
    """Every line of the original with something left, in its order; the draft's own as it holds them."""
    sheet, earlier = sheet_of_invoice(original), credits_of(original)
    whole = credit_draft(sheet, left_to_credit(sheet, earlier), earlier)
    held = {line.of_line: line for line in stored.lines}
    return tuple(Offered(held.get(line.of_line, line), line.of_line in held) for line in whole.lines)


def receipts_left(draft: InvoiceDraft, account: BuildAccount | None) -> Mapping[str, Decimal]:
    """The payer's deposits by receipt that an invoice may take off: number to what is left of it."""
    if draft.kind != "invoice":
        return {}
    if account is None:
        return strip_down_deposits(draft.customer_id)
    mine = (row for row in account.deposits if row.customer_id == draft.customer_id)
    return {row.number: row.left for row in mine if row.by == "receipt" and row.left > ZERO}


def by_labour(stored: Draft, accounts: Mapping[str, BuildAccount], labour_by: str) -> Draft:
    """The draft with its accepted bench work at the hours quoted or clocked; other lines stay as they are."""
    wanted = {line.key: line for line in accounts[labour_by].to_invoice if line.kind == "labour"}
    lines = [
        wanted.pop(line.key, line) if line.kind == "labour" and line.key else line
        for line in stored.lines
        if not line.key.startswith("clock:") or line.key in wanted
    ]
    lines += [line for key, line in wanted.items() if key.startswith("clock:")]
    return stored.model_copy(update={"lines": tuple(lines), "labour_by": labour_by})


def beyond_of(sheet: InvoiceSheet, account: BuildAccount | None) -> Sequence[Beyond]:
    """What of an invoice no acceptance covers."""
    if account is None or sheet.kind != "invoice":
        return ()
    return beyond_the_yes(
        sheet.lines,
        sheet.sums,
        account.agreed,
        account.asked_gross,
        accepted=[one.left for one in account.lines if one.left],
        decimals=account.decimals,
    )
