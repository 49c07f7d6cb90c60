"""What suppliers list, beside the years of trading: a list in force for each of some, with its history."""

from __future__ import annotations

from datetime import datetime

from django.contrib.auth.models import User
from django.db import transaction
from django.utils import timezone

from catalogue.actions.price_list.rows import keep_history, write_listed
from catalogue.calc.price_list.standing import as_listed
from catalogue.models import ListState, PriceList, Supplier
from catalogue.queries.price_lists import own_currency
from quotes.calc.years.articles import SUPPLIERS, article


@transaction.atomic
def list_parts(*, parts: int, seed: int, by: User, now: datetime) -> None:
    """So many articles in all, shared out between the first suppliers of the catalogue."""
    suppliers = list(Supplier.objects.order_by("place", "pk")[:SUPPLIERS])
    for place, supplier in enumerate(suppliers):
        held = PriceList.objects.create(
            supplier=supplier,
            name=f"invented {supplier.pk}.csv",
            sha256="0" * 64,
            state=ListState.IN_FORCE,
            currency=own_currency(),
            in_force_from=timezone.localdate(now),
            handed_in_by=by,
            handed_in_at=now,
            checked_at=now,
            applied_by=by,
            applied_at=now,
        )
        own = (article(seed, index) for index in range(place, parts, len(suppliers)))
        rows = [(held.pk, as_listed(one, one.key, held.currency, None)) for one in own]
        write_listed(supplier.pk, rows, lambda done, of: None)
        keep_history(held.pk)
