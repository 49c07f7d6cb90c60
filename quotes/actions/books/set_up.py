"""Keeping the settings of the books and the chart of accounts together: both or neither."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import datetime

from django.contrib.auth.models import User
from django.db import transaction

from quotes.actions.books.settings import save_accounts, save_books_settings
from quotes.calc.books.values import AccountCode
from quotes.queries.books.chart import accounts_now


@transaction.atomic
def keep_books(
    *,
    fields: Mapping[str, object],
    accounts: Sequence[AccountCode],
    expected_version: int,
    by: User,
    now: datetime,
) -> None:
    """Keep what one page holds. StaleDraft, ValidationError by field or by the account's part."""
    save_books_settings(fields=fields, expected_version=expected_version, by=by, now=now)
    standing = accounts_now()
    if any(standing[account.role] != account for account in accounts):
        save_accounts(accounts=accounts, by=by, now=now)
