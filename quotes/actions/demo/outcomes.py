"""How the services of the demo's builds went, told as a desk tells them."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime, time, timedelta
from uuid import NAMESPACE_URL, uuid5

from django.contrib.auth.models import User
from django.utils import timezone

from quotes.actions.bench.outcomes import ServiceTold, tell_outcome
from quotes.calc.demo.year import Year
from quotes.models import Acceptance, Quote


def tell_outcomes(*, year: Year, quotes: Mapping[str, Quote], by: User, now: datetime) -> None:
    """Every outcome of the year's file whose build was written, oldest first."""
    builds = {
        row.quote_id: row
        for row in Acceptance.objects.filter(quote__in=quotes.values(), done_at__isnull=False)
        .select_related("quote__engine", "quote__customer", "revision")
    }  # fmt: skip
    for each in sorted(year.told, key=lambda one: -one.days):
        quote = quotes.get(each.engine)
        build = builds.get(quote.pk) if quote else None
        if build is None:
            continue
        on = timezone.localdate(now) - timedelta(days=each.days)
        told = ServiceTold(
            end=each.end,
            on=on,
            ran=each.ran,
            stopped_by=each.by,
            told_by=build.quote.customer.name,
            note=each.note,
        )
        key = uuid5(NAMESPACE_URL, f"demo-told:{each.engine}")
        at = timezone.make_aware(datetime.combine(on, time(16)))
        tell_outcome(build=build, told=told, key=key, by=by, now=min(at, now))
