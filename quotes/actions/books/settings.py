"""Keeping the settings of the books and the shop's chart of accounts."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import datetime

from django.contrib.auth.models import User
from django.core.exceptions import ValidationError
from django.db import transaction
from stdnum import bic as bic_number
from stdnum import iban as iban_number
from stdnum.exceptions import ValidationError as NotSound

from catalogue.calc.said import say
from quotes.actions.refused import StaleDraft
from quotes.actions.saving import save_checked
from quotes.calc.books.accounts import DEFAULT_ACCOUNTS
from quotes.calc.books.values import AccountCode
from quotes.calc.sheet.issued_values import RevisionChange
from quotes.models import BooksAccount, BooksSettings
from quotes.queries.people import name_of

KEPT = frozenset(
    {
        "country",
        "account_name",
        "iban",
        "bic",
        "payment_days",
        "payment_words",
        "deposit_by",
        "series",
        "labour_by",
        "late_pct_a_year",
        "late_after_days",
        "labour_cost_an_hour",
        "years_kept",
    }
)
"""What people set; the rest says who did and when."""


@transaction.atomic
def save_books_settings(
    *, fields: Mapping[str, object], expected_version: int, by: User, now: datetime
) -> BooksSettings:
    """Keep these settings, by field name; those not given stay. No version is counted where nothing differs.

    StaleDraft where somebody has kept others since `expected_version`, ValidationError by field.
    """
    if unknown := fields.keys() - KEPT:
        raise KeyError(f"no setting {sorted(unknown)}")
    row = _locked()
    changes = [
        RevisionChange(what=name, before=str(getattr(row, name)), after=str(value))
        for name, value in fields.items()
        if getattr(row, name) != value
    ]
    if not changes:
        return row
    if row.version != expected_version:
        raise StaleDraft(changes, row.changed_by, row.version)
    for name, value in fields.items():
        setattr(row, name, value)
    _check_account(row)
    return _count_up(row, by, now)


@transaction.atomic
def save_accounts(*, accounts: Sequence[AccountCode], by: User, now: datetime) -> None:
    """Keep the shop's codes and names; entries already posted keep those that they were posted with.

    One code for two accounts, or a code that a spreadsheet would take for a formula, is a ValidationError.
    """
    _refuse_unfit(accounts)
    row = _locked()
    standing = {account.role: account for account in BooksAccount.objects.all()}
    for value in accounts:
        account = standing.get(value.role) or BooksAccount(role=value.role)
        account.code, account.name = value.code.strip(), value.name.strip()
        save_checked(account)
    _count_up(row, by, now)


def _refuse_unfit(accounts: Sequence[AccountCode]) -> None:
    codes: dict[str, str] = {}
    for value in accounts:
        if value.role not in DEFAULT_ACCOUNTS:
            raise ValidationError({value.role: say("There is no such account.")})
        code = value.code.strip()
        if code[:1] in tuple("=+-@"):
            raise ValidationError(
                {value.role: say("“{code}” would be a formula to a spreadsheet.", code=code)}
            )
        if other := codes.get(code):
            name = say(DEFAULT_ACCOUNTS[other].name)  # type: ignore[index]
            raise ValidationError({value.role: say("“{code}” is the code of {name}.", code=code, name=name)})
        codes[code] = value.role


def _locked() -> BooksSettings:
    BooksSettings.objects.get_or_create(pk=BooksSettings.ONLY_ID)
    return BooksSettings.objects.select_for_update().get(pk=BooksSettings.ONLY_ID)


def _count_up(row: BooksSettings, by: User, now: datetime) -> BooksSettings:
    row.version += 1
    row.changed_at, row.changed_by = now, name_of(by)
    return save_checked(row)


def _check_account(row: BooksSettings) -> None:
    """IBAN (ISO 13616) and BIC (ISO 9362), kept without blanks; a fault is said at its field."""
    faults = {}
    for name, kind in (("iban", iban_number), ("bic", bic_number)):
        typed = getattr(row, name)
        if not typed.strip():
            setattr(row, name, "")
            continue
        try:
            setattr(row, name, kind.validate(typed))
        except NotSound as wrong:
            faults[name] = say("“{typed}” can't be one: {wrong}", typed=typed, wrong=wrong)
    if faults:
        raise ValidationError(faults)
