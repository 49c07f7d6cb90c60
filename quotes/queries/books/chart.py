"""How the books are kept: the settings of the books and the shop's chart of accounts."""

from __future__ import annotations

from typing import cast

from quotes.calc.books.accounts import DEFAULT_ACCOUNTS, Accounts
from quotes.calc.books.values import AccountCode, Role
from quotes.models import BooksAccount, BooksSettings


def books_settings() -> BooksSettings:
    """The one row, or the defaults where nobody has kept any; one query."""
    # There is one row at most, so it is not put in order: that would take half of the time.
    found = next(iter(BooksSettings.objects.filter(pk=BooksSettings.ONLY_ID)), None)
    return found or BooksSettings(pk=BooksSettings.ONLY_ID)


def accounts_now() -> Accounts:
    """Every account by what it is for, with the shop's own code and name where it has set them; one query."""
    own = {
        cast(Role, row.role): AccountCode(role=cast(Role, row.role), code=row.code, name=row.name)
        for row in BooksAccount.objects.all()
        if row.role in DEFAULT_ACCOUNTS
    }
    return {**DEFAULT_ACCOUNTS, **own}
