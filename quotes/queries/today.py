"""What the day sheet is written from: each list with its joins, the most urgent first, and never long.

Every function takes as many queries whatever it finds; the lists of quotes and enquiries hold the rest.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime, timedelta
from decimal import Decimal

from django.db.models import Count, Sum

from quotes.models import Acceptance, Booking, Enquiry, Quote, Reply
from quotes.models.answer import AcceptanceQuerySet
from quotes.models.quote import QuoteQuerySet
from quotes.queries.books.exact import exact

MOST = 10
"""So many lines of one sort: who has more goes to the list."""
MOST_BUILDS = 25
SHOWN = ("number", "edited_at", "customer__name", "engine__type_code", "engine__number")
SHOWN_OF_LATEST = ("index", "gross_from", "issued_at", "valid_until")
"""What a line says of a quote, and of its latest revision: the rest is not read."""
LAPSING_DAYS = 3
"""In its last days a quote is rung about."""
LAPSED_DAYS = 30
"""Who has not answered by then is not rung again."""
COMING_DAYS = 7
BOOKED_DAYS = 30
"""The books look back a month on what was said yes to."""


def questions() -> list[Reply]:
    """Questions without an answer, oldest first."""
    rows = Reply.objects.unanswered().select_related("revision__quote__customer", "revision__quote__engine")
    quote = (f"revision__quote__{name}" for name in SHOWN)
    rows = rows.only("text", "name", "at", "revision__gross_from", *quote)
    rows = rows.filter(revision__quote__accepted_at=None, revision__quote__closed_at=None)
    return list(rows.order_by("at", "pk")[:MOST])


def lapsing(on: date) -> list[Quote]:
    """Quotes without an answer in their last days, the last day first."""
    return _by_last_day(Quote.objects.waiting(on).filter(stands_until__lte=on + timedelta(days=LAPSING_DAYS)))


def lapsed(on: date) -> list[Quote]:
    """Quotes that went by without an answer in the last month, oldest first."""
    gone = Quote.objects.open().filter(asked_at=None, stands_until__lt=on)
    return _by_last_day(gone.filter(stands_until__gte=on - timedelta(days=LAPSED_DAYS)))


def waiting(on: date) -> list[Quote]:
    """Quotes that stand and are not yet rung about."""
    return _by_last_day(Quote.objects.waiting(on).filter(stands_until__gt=on + timedelta(days=LAPSING_DAYS)))


def _by_last_day(rows: QuoteQuerySet) -> list[Quote]:
    return list(_shown(rows).order_by("stands_until", "pk")[:MOST])


def _shown(rows: QuoteQuerySet) -> QuoteQuerySet:
    latest = (f"latest__{name}" for name in SHOWN_OF_LATEST)
    return rows.select_related("customer", "engine", "latest").only(*SHOWN, *latest)


def unsent() -> list[Quote]:
    """Drafts that were never issued, and quotes changed since the customer was sent them."""
    # Each by itself, for each has an index of its own; together they would be looked for among all.
    kinds = Quote.objects.open().filter(latest=None), Quote.objects.changed_since_issue()
    found = [quote for rows in kinds for quote in _oldest(rows)]
    return sorted(found, key=lambda quote: (quote.edited_at, quote.pk))[:MOST]


def _oldest(rows: QuoteQuerySet) -> QuoteQuerySet:
    """The first are picked before they are joined: PostgreSQL would read every customer and engine."""
    first = rows.order_by("edited_at", "pk").values("pk")[:MOST]
    return _shown(Quote.objects.filter(pk__in=first)).order_by("edited_at", "pk")


def to_ring_back() -> list[Enquiry]:
    """Enquiries that came to nothing yet, oldest first."""
    rows = Enquiry.objects.open().select_related("customer", "engine").defer("request")
    return list(rows.order_by("kept_at", "pk")[:MOST])


def coming_in(on: date) -> list[Booking]:
    """Engines that are to arrive within the week."""
    rows = Booking.objects.standing().joined().filter(job=None)
    rows = rows.filter(arrive_by__gte=on, arrive_by__lte=on + timedelta(days=COMING_DAYS))
    return list(rows.order_by("arrive_by", "pk")[:MOST])


@dataclass(frozen=True, slots=True)
class SaidYes:
    """What was said yes to since a moment and stands: the newest, how many there are, what all come to."""

    newest: list[Acceptance]
    count: int
    gross: Decimal
    deposit: Decimal


def said_yes_since(moment: datetime) -> SaidYes:
    """What was said yes to and stands; two queries."""
    since = Acceptance.objects.filter(accepted_at__gte=moment, called_off=None)
    sums = since.aggregate(count=Count("pk"), gross=Sum("gross"), deposit=Sum("deposit"))
    return SaidYes(accepted_since(moment), sums["count"], exact(sums["gross"]), exact(sums["deposit"]))


def accepted_since(moment: datetime) -> list[Acceptance]:
    """The newest of what was said yes to and stands."""
    standing = _acceptances().filter(accepted_at__gte=moment, called_off=None)
    return list(standing.order_by("-accepted_at", "-pk")[:MOST])


def builds_in_hand() -> list[Acceptance]:
    """Accepted builds that are not done, in the order in which they were accepted."""
    return list(_acceptances().in_hand().order_by("accepted_at", "pk")[:MOST_BUILDS])


def _acceptances() -> AcceptanceQuerySet:
    quote = (f"quote__{name}" for name in SHOWN)
    own = ("name", "tier_name", "hours", "ready_on", "gross", "deposit", "accepted_at")
    return Acceptance.objects.select_related("quote__customer", "quote__engine").only(*own, *quote)
