"""Issuing a quote: its number, a frozen revision, and the documents drawn from that afterwards."""

from __future__ import annotations

from datetime import datetime

from django.contrib.auth.models import User
from django.db import transaction
from django.urls import reverse
from django.utils import timezone

from catalogue.calc.said import say
from quotes.actions.background import run_later
from quotes.actions.drafts import locked, number_key, refuse_accepted
from quotes.actions.files import draw_quote_files
from quotes.actions.numbers import next_number
from quotes.actions.refused import ClassNotTicked, QuoteClosed, RequestFaults, SetUpMissing, StaleDraft
from quotes.calc.ask.fault import BadRequest
from quotes.calc.ask.fingerprint import fingerprint
from quotes.calc.ask.request import Request
from quotes.calc.sheet.issued_values import Sheet
from quotes.calc.sheet.values import Comparison
from quotes.models import Quote, Revision
from quotes.queries.comparison import faults_of
from quotes.queries.set_up import issuing_gaps
from quotes.queries.sheets import comparison_in, request_of, sheet_from, sheet_of

SERIES = "Q"


def issue(
    *, quote: Quote, by: User, now: datetime, class_tick: bool = False, papers: bool = True
) -> Revision:
    """Freeze the draft as the quote's next revision and have its documents drawn after that.

    Without `papers`, and until they are, they are drawn when somebody asks for them. Pressed twice, or
    with nothing changed while the last revision stands, it gives that and keeps when it was meant to stand.
    Raises SetUpMissing, RequestFaults (also for a must line left without a refusal), ClassNotTicked,
    AlreadyAccepted, QuoteClosed, or StaleDraft where the draft was changed while it was worked out.
    """
    on = timezone.localdate(now)
    if gaps := issuing_gaps():
        raise SetUpMissing([gap.sentence for gap in gaps])
    quote = Quote.objects.joined().get(pk=quote.pk)
    request = request_of(quote).model_copy(update={"on": on})
    try:
        comparison = comparison_in(quote.customer.reads, request)
    except BadRequest:
        raise RequestFaults(faults_of(request)) from None  # in the words of the desk
    broken = [(option.name, option.breaks_class) for option in comparison.options if option.breaks_class]
    if broken and not class_tick:
        raise ClassNotTicked(broken)
    return freeze(quote, request, comparison, by, now, class_tick and bool(broken), papers)


@transaction.atomic
def freeze(
    quote: Quote,
    request: Request,
    comparison: Comparison,
    by: User,
    now: datetime,
    class_tick: bool,
    papers: bool = True,
) -> Revision:
    """Freeze a comparison that was worked out for the quote as it was read; `issue` comes first."""
    row = locked(quote)
    refuse_accepted(row)
    if row.closed_at is not None:
        raise QuoteClosed
    if row.version != quote.version:
        raise StaleDraft((), row.edited_by, row.version)
    sheet = sheet_from(row, request, comparison, timezone.localdate(now))
    if row.latest and _says_the_same(row.latest, sheet):
        row.confirmed_at = now
        row.save(update_fields=["confirmed_at"])
        return row.latest
    if row.number is None:
        row.number = next_number(kind=SERIES, year=timezone.localdate(now).year)
        row.search_key = number_key(row.number)
        sheet = sheet.model_copy(update={"heading": sheet.heading.model_copy(update={"number": row.number})})
    revision = _revision(row, sheet, request, by, now, class_tick)
    row.latest, row.stands_until = revision, revision.valid_until
    row.asked_at, row.declined_at = None, None
    row.save(update_fields=["number", "search_key", "latest", "stands_until", "asked_at", "declined_at"])
    if papers:
        transaction.on_commit(lambda: _have_drawn(revision, by), robust=True)
    return revision


def _have_drawn(revision: Revision, by: User) -> None:
    """A dozen pages take seconds to draw, and whoever issued them is on the telephone."""
    told = {"number": revision.quote.number, "revision": revision.index}
    run_later(
        draw_quote_files,
        {"revision_id": revision.pk},
        key=f"papers of revision {revision.pk}",
        about=say("Papers of {number}, revision {revision}", **told),
        page=reverse("quote", args=[revision.quote_id]),
        by=by,
    )


def _says_the_same(latest: Revision, sheet: Sheet) -> bool:
    """Whether the customer already holds this, and may still accept it."""
    return not (
        latest.is_lapsed(sheet.heading.issued_on)
        or sheet.changes
        or sheet_of(latest).comparison != sheet.comparison
    )


def _revision(
    row: Quote, sheet: Sheet, request: Request, by: User, now: datetime, class_tick: bool
) -> Revision:
    sums = [option.gross.typical for option in sheet.comparison.options]
    revision = Revision(
        quote=row,
        index=sheet.heading.revision,
        request=request.model_dump(mode="json", by_alias=True),
        sheet=sheet.model_dump(mode="json", by_alias=True),
        sheet_sha256=fingerprint(sheet),
        issued_at=now,
        issued_by=by,
        valid_until=sheet.heading.valid_until,
        class_tick=class_tick,
        gross_from=min(sums),
        gross_to=max(sums),
    )
    revision.save(force_insert=True)
    return revision
