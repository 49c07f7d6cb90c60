"""Whatever stands on an invoice, its entry balances, and says of each account what the invoice says."""

from __future__ import annotations

from decimal import Decimal
from typing import get_args

from hypothesis import given
from hypothesis import strategies as st

from catalogue.calc.money import ZERO
from quotes.calc.books.accounts import DEFAULT_ACCOUNTS, SALES
from quotes.calc.books.posting import invoice_entry
from quotes.calc.books.values import Entry
from quotes.calc.invoice.draft import Draft, DraftLine
from quotes.calc.invoice.values import Adjustment, InvoiceSheet, Kind, LineKind
from tests.calc.invoice.plain import CODES, draft_line, sheet

KINDS: tuple[LineKind, ...] = get_args(LineKind)
codes = st.sampled_from(sorted(CODES))
coins = st.decimals(min_value=0, max_value=99_999, places=2)
lines = st.builds(
    lambda kind, quantity, price, code: draft_line(f"{quantity:f}", f"{price:f}", code, kind=kind),
    st.sampled_from(KINDS),
    st.decimals(min_value=-50, max_value=50, places=3),
    st.decimals(min_value=0, max_value=9_999, places=4),
    codes,
)
parts = st.builds(
    lambda kind, amount, code: Adjustment(kind=kind, amount=amount, reason="Agreed", tax_code=code),
    st.sampled_from(("allowance", "charge")),
    coins,
    codes,
)
documents: st.SearchStrategy[InvoiceSheet] = st.builds(
    lambda kind, lines, parts, receipt, rounding, decimals: sheet(
        Draft(
            lines=tuple(lines),
            adjustments=tuple(parts),
            prepayments={"R-2026-0001": receipt},
            rounding=rounding,
        ),
        decimals=decimals,
        kind=kind,
    ),
    st.sampled_from(get_args(Kind)),
    st.lists(lines, max_size=12),
    st.lists(parts, max_size=3),
    st.integers(0, 5_000).map(Decimal),
    st.sampled_from((ZERO, Decimal("0.01"), Decimal("-0.02"))),
    st.sampled_from((2, 3)),
)


def balance(entry: Entry, *roles: str) -> Decimal:
    """Debits less credits of accounts."""
    return sum((line.debit - line.credit for line in entry.lines if line.account.role in roles), ZERO)


@given(documents)
def test_every_entry_balances_to_the_last_coin(document: InvoiceSheet) -> None:
    entry = invoice_entry(document, DEFAULT_ACCOUNTS)

    assert balance(entry, *DEFAULT_ACCOUNTS) == ZERO


@given(documents)
def test_the_customer_owes_what_is_due_and_the_state_what_is_taxed(document: InvoiceSheet) -> None:
    entry = invoice_entry(document, DEFAULT_ACCOUNTS)

    assert balance(entry, "receivables") == document.sign * document.sums.due
    assert -balance(entry, "tax_on_sales") == document.sign * document.sums.tax


@given(documents)
def test_sales_and_deposits_held_are_the_net_of_the_invoice(document: InvoiceSheet) -> None:
    entry = invoice_entry(document, DEFAULT_ACCOUNTS)

    net = -balance(entry, *set(SALES.values())) + document.sign * document.sums.prepaid
    assert net == document.sign * document.sums.net


@given(documents)
def test_tax_is_one_line_a_rate(document: InvoiceSheet) -> None:
    entry = invoice_entry(document, DEFAULT_ACCOUNTS)

    rates = [(line.tax_code, line.rate_pct) for line in entry.lines if line.account.role == "tax_on_sales"]
    assert len(rates) == len(set(rates))
    assert len(rates) == sum(1 for group in document.sums.tax_groups if group.tax)


@given(st.lists(lines, min_size=1, max_size=6))
def test_a_credit_note_undoes_its_original_account_by_account(given_lines: list[DraftLine]) -> None:
    original = sheet(Draft(lines=tuple(given_lines)))
    credit = original.model_copy(update={"kind": "credit_note"})

    asked, back = (invoice_entry(document, DEFAULT_ACCOUNTS) for document in (original, credit))

    for role in DEFAULT_ACCOUNTS:
        assert balance(asked, role) + balance(back, role) == ZERO
