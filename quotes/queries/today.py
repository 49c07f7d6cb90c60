"""What the day sheet is written from: each list with its joins, the most urgent first, and never long.

Every function takes one query, whatever it finds; the lists of quotes and enquiries hold the rest.
"""

from __future__ import annotations

from datetime import date, datetime, timedelta

from quotes.models import Acceptance, Booking, Enquiry, Quote, Reply
from quotes.models.answer import AcceptanceQuerySet
from quotes.models.quote import QuoteQuerySet

MOST = 25
"""So many lines of one sort: who has more goes to the list."""
LAPSING_DAYS = 3
"""In its last days a quote is rung about."""
LAPSED_DAYS = 30
"""Who has not answered by then is not rung again."""
COMING_DAYS = 7
LONGEST_VALIDITY = timedelta(days=366)
"""The settings allow no more."""
BOOKED_DAYS = 30
"""The books look back a month on what was said yes to."""


def questions() -> list[Reply]:
    """Questions without an answer, oldest first."""
    rows = Reply.objects.unanswered().select_related("revision__quote__customer", "revision__quote__engine")
    rows = rows.defer("revision__sheet", "revision__request", "revision__quote__request")
    rows = rows.filter(revision__quote__accepted_at=None, revision__quote__closed_at=None)
    return list(rows.order_by("at", "pk")[:MOST])


def lapsing(on: date) -> list[Quote]:
    """Quotes without an answer in their last days, the last day first."""
    return _by_last_day(_waiting(on).filter(latest__valid_until__lte=on + timedelta(days=LAPSING_DAYS)))


def lapsed(on: date) -> list[Quote]:
    """Quotes that went by without an answer in the last month, oldest first."""
    gone = Quote.objects.open().listed(on).filter(asked_at=None, latest__valid_until__lt=on)
    return _by_last_day(gone.filter(latest__valid_until__gte=on - timedelta(days=LAPSED_DAYS)))


def waiting(on: date) -> list[Quote]:
    """Quotes that stand and are not yet rung about."""
    return _by_last_day(_waiting(on).filter(latest__valid_until__gt=on + timedelta(days=LAPSING_DAYS)))


def _waiting(on: date) -> QuoteQuerySet:
    # No quote stands longer than that: an index is read between two ends.
    return Quote.objects.waiting(on).listed(on).filter(latest__valid_until__lte=on + LONGEST_VALIDITY)


def _by_last_day(rows: QuoteQuerySet) -> list[Quote]:
    return list(rows.order_by("latest__valid_until", "pk")[:MOST])


def unsent(on: date) -> list[Quote]:
    """Drafts that were never issued, and quotes changed since the customer was sent them."""
    # Each by itself, for each has an index of its own; together they would be looked for among all.
    kinds = Quote.objects.open().filter(latest=None), Quote.objects.changed_since_issue()
    found = [quote for rows in kinds for quote in rows.listed(on).order_by("edited_at", "pk")[:MOST]]
    return sorted(found, key=lambda quote: (quote.edited_at, quote.pk))[:MOST]


def to_ring_back() -> list[Enquiry]:
    """Enquiries that came to nothing yet, oldest first."""
    rows = Enquiry.objects.open().select_related("customer", "engine").defer("request")
    return list(rows.order_by("kept_at", "pk")[:MOST])


def coming_in(on: date) -> list[Booking]:
    """Engines that are to arrive within the week."""
    rows = Booking.objects.standing().joined().filter(job=None)
    rows = rows.filter(arrive_by__gte=on, arrive_by__lte=on + timedelta(days=COMING_DAYS))
    return list(rows.order_by("arrive_by", "pk")[:MOST])


def accepted_since(moment: datetime) -> list[Acceptance]:
    """What was said yes to, the newest first."""
    return list(_acceptances().filter(accepted_at__gte=moment).order_by("-accepted_at", "-pk")[:MOST])


def builds_in_hand() -> list[Acceptance]:
    """Accepted builds that are not done, in the order in which they were accepted."""
    return list(_acceptances().in_hand().order_by("accepted_at", "pk")[:MOST])


def _acceptances() -> AcceptanceQuerySet:
    rows = Acceptance.objects.select_related("quote__customer", "quote__engine", "revision")
    return rows.defer("revision__sheet", "revision__request", "quote__request")
