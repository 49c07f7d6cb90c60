"""The part of the worksheet about issuing: what stands in the way, the revisions, the customer's links."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any

from django.http import HttpRequest
from django.utils import timezone

from quotes.calc.sheet.values import Comparison
from quotes.models import Quote, Revision, Workshop
from quotes.queries.set_up import issuing_gaps
from quotes.queries.sheets import sheet_of

SHOWN_ONCE = "new-link"
"""Where the session keeps a link between making it and showing it."""


def issue_context(request: HttpRequest, quote: Quote, comparison: Comparison | None) -> dict[str, Any]:
    """What stands in the part about issuing; a new link is taken out of the session as it is shown."""
    on = timezone.localdate()
    return {
        "gaps": issuing_gaps(),
        "breaks": _breaks(comparison),
        "something_new": _something_new(quote, on),
        "next_index": quote.latest.index + 1 if quote.latest else 1,
        "valid_until": on + timedelta(days=Workshop.objects.get_or_default().quote_validity_days),
        "revisions": [_revision(each, quote, on) for each in quote.revisions.order_by("-index")],
        "links": list(quote.links.all()) if quote.latest else [],
        "now": timezone.now(),
        "new_link": request.session.pop(f"{SHOWN_ONCE}-{quote.pk}", ""),
    }


def _something_new(quote: Quote, on: date) -> bool:
    """Whether the customer holds less than the draft: nothing issued, changed since, or lapsed."""
    latest = quote.latest
    return latest is None or quote.edited_at > latest.issued_at or latest.is_lapsed(on)


def _breaks(comparison: Comparison | None) -> list[tuple[str, tuple[str, ...]]]:
    """What each option changes that its class does not allow."""
    options = comparison.options if comparison else ()
    return [(option.name, option.breaks_class) for option in options if option.breaks_class]


def _revision(revision: Revision, quote: Quote, on: date) -> dict[str, Any]:
    return {
        "index": revision.index,
        "latest": revision.pk == quote.latest_id,
        "issued_on": timezone.localdate(revision.issued_at),
        "valid_until": revision.valid_until,
        "lapsed": revision.is_lapsed(on),
        "changes": sheet_of(revision).changes,
    }
