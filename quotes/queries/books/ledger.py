"""Every read of the ledger, under one roof for the pages, papers and exports that ask."""

from quotes.queries.books.balances import AccountBalance, TrialBalance, trial_balance
from quotes.queries.books.chart import accounts_now, books_settings
from quotes.queries.books.costs import build_cost, work_in_progress
from quotes.queries.books.customer_account import ages, credits_of, open_items, overdue_items, statement_of
from quotes.queries.books.deposits import DepositHeld, deposits_held, held_by_receipt
from quotes.queries.books.ledger_faults import ledger_faults
from quotes.queries.books.margins import margins
from quotes.queries.books.proposed import Proposed, proposed_interest, proposed_lines, proposed_storage

__all__ = [
    "AccountBalance",
    "DepositHeld",
    "Proposed",
    "TrialBalance",
    "accounts_now",
    "ages",
    "books_settings",
    "build_cost",
    "credits_of",
    "deposits_held",
    "held_by_receipt",
    "ledger_faults",
    "margins",
    "open_items",
    "overdue_items",
    "proposed_interest",
    "proposed_lines",
    "proposed_storage",
    "statement_of",
    "trial_balance",
    "work_in_progress",
]
