"""What the owner sets: rates of other currencies, and how one supplier's lists are taken."""

from __future__ import annotations

from datetime import date, datetime
from decimal import Decimal

from django.contrib.auth.models import User
from django.db import transaction

from catalogue.actions.price_list.handing_in import locked_terms
from catalogue.models import ExchangeRate, ListTerms


@transaction.atomic
def set_rate(*, currency: str, day: date, rate: Decimal, by: User | None, now: datetime) -> ExchangeRate:
    """The rate from a day on; one that stands for that day is replaced. Lists in force keep theirs."""
    row = ExchangeRate.objects.select_for_update().filter(currency=currency, day=day).first()
    row = row or ExchangeRate(currency=currency, day=day)
    row.rate, row.by, row.at = rate, by, now
    row.full_clean(exclude=["by"])
    row.save()
    return row


@transaction.atomic
def drop_rate(*, pk: int) -> None:
    """Take a rate out again; lists that were checked with it keep it."""
    for row in ExchangeRate.objects.filter(pk=pk):
        row.delete()


@transaction.atomic
def set_terms(*, supplier: str, currency: str, jump_percent: Decimal) -> ListTerms:
    """In which currency a supplier lists, and by how much a price may move without a yes."""
    row = locked_terms(supplier)
    row.currency, row.jump_percent = currency, jump_percent
    row.full_clean(exclude=["supplier"])
    row.save()
    return row
