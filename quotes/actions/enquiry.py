"""Writes on enquiries: keeping a call, filling in its card, saying it anew, and closing it."""

from __future__ import annotations

from dataclasses import asdict, dataclass, fields
from datetime import date, datetime
from decimal import Decimal

from django.contrib.auth.models import User
from django.core.exceptions import ValidationError
from django.db import transaction
from django.utils import timezone

from catalogue.calc.said import say, to_say
from quotes.actions.bench.jobs import tie_waiting
from quotes.actions.changing import set_fields
from quotes.actions.drafts import keep_quote, stored
from quotes.actions.engines import refuse_other_engine
from quotes.actions.numbers import next_number
from quotes.actions.refused import Refused, RequestFaults
from quotes.actions.saving import save_checked
from quotes.calc.ask.request import Request
from quotes.calc.sheet.values import Comparison
from quotes.models import Booking, Customer, Engine, Enquiry, Quote
from quotes.queries.comparison import comparison_for, faults_of
from quotes.queries.enquiry import asked_of, said_today

SERIES = "E"
CALLED = {
    "caller": to_say("caller"),
    "needed_on": to_say("needed on"),
    "budget": to_say("budget"),
    "who_pays": to_say("who pays"),
    "symptoms": to_say("symptoms"),
    "fuel": to_say("fuel"),
    "class_rules": to_say("class rules"),
    "note": to_say("note"),
}
"""What each field is called where somebody else has changed it."""


class EnquiryClosed(Refused):
    """The enquiry has been quoted, or dropped."""


@dataclass(frozen=True, slots=True)
class EnquiryDetails:
    """What a call tells besides the request. `budget` is with tax, in the workshop's currency."""

    caller: str = ""
    needed_on: date | None = None
    budget: Decimal | None = None
    who_pays: str = ""
    symptoms: str = ""
    fuel: str = ""
    class_rules: str = ""
    note: str = ""


def details_of(enquiry: Enquiry) -> EnquiryDetails:
    """What the call told, as it is kept."""
    return EnquiryDetails(**{field.name: getattr(enquiry, field.name) for field in fields(EnquiryDetails)})


def keep_enquiry(
    *,
    customer: Customer,
    engine: Engine | None,
    request: Request,
    needed_on: date | None,
    budget: Decimal | None,
    note: str,
    by: User,
    now: datetime,
) -> Enquiry:
    """Keep a call with what is said about it: bands with tax, and the earliest weeks.

    The same once more (a second press) gives the same enquiry. RequestFaults where the request can't be
    worked out; ValidationError by field where something can't be kept.
    """
    if found := faults_of(request):
        raise RequestFaults(found)
    details = EnquiryDetails(needed_on=needed_on, budget=budget, note=note)
    return write_down(customer, engine, request, details, comparison_for(request), by, now)


@transaction.atomic
def write_down(
    customer: Customer,
    engine: Engine | None,
    request: Request,
    details: EnquiryDetails,
    comparison: Comparison,
    by: User,
    now: datetime,
) -> Enquiry:
    """Freeze what is said about a comparison that was worked out; `keep_enquiry` comes first."""
    if engine is not None:
        refuse_other_engine(customer, engine, request)
    as_kept = stored(request)
    for enquiry in Enquiry.objects.open().filter(customer=customer, engine=engine, kept_by=by, version=1):
        if enquiry.request == as_kept and details_of(enquiry) == details:
            return enquiry
    on = timezone.localdate(now)
    said = said_today(comparison, on, needed_on=details.needed_on, budget=details.budget)
    enquiry = Enquiry(
        number=next_number(kind=SERIES, year=on.year),
        customer=customer,
        engine=engine,
        request=as_kept,
        said=said.model_dump(mode="json"),
        kept_by=by,
        kept_at=now,
        **asdict(details),
    )
    enquiry.search_key = enquiry.make_search_key()
    return save_checked(enquiry)


def locked_enquiry(enquiry: Enquiry) -> Enquiry:
    """The enquiry's row, locked until the transaction ends; EnquiryClosed where it has been dropped."""
    row = Enquiry.objects.select_for_update().get(pk=enquiry.pk)
    if row.dropped_at is not None:
        raise EnquiryClosed(
            say(
                "Enquiry {number} was dropped: {because}",
                number=row.number,
                because=row.dropped_because,
            )
        )
    return row


@transaction.atomic
def update_enquiry(*, enquiry: Enquiry, details: EnquiryDetails, expected_version: int) -> Enquiry:
    """Fill in the card; StaleDraft where somebody else has done so since `expected_version`."""
    row = locked_enquiry(enquiry)
    if set_fields(row, asdict(details), CALLED, expected_version=expected_version):
        row.search_key = row.make_search_key()
        save_checked(row)
    return row


def say_again(*, enquiry: Enquiry, now: datetime) -> Enquiry:
    """Put today's bands and weeks in the place of those that were said. RequestFaults as in keeping."""
    on = timezone.localdate(now)
    request = asked_of(enquiry).model_copy(update={"on": on})
    if found := faults_of(request):
        raise RequestFaults(found)
    comparison = comparison_for(request)
    with transaction.atomic():
        row = locked_enquiry(enquiry)
        said = said_today(comparison, on, needed_on=row.needed_on, budget=row.budget)
        row.request, row.said = stored(request), said.model_dump(mode="json")
        row.version += 1
        return save_checked(row)


@transaction.atomic
def quote_enquiry(*, enquiry: Enquiry, by: User, now: datetime) -> Quote:
    """Make a draft quote of the enquiry; a second press gives the same draft.

    ValidationError where the enquiry names no engine: a quote is for one.
    """
    row = locked_enquiry(enquiry)
    if row.quote is not None:
        return row.quote
    if row.engine is None:
        raise ValidationError(
            {
                "engine": say(
                    "A quote is for one engine, and this enquiry names none yet. Take the engine in, or make "
                    "a new quote with its number."
                )
            }
        )
    row.quote = keep_quote(customer=row.customer, engine=row.engine, request=asked_of(row), by=by, now=now)
    row.save(update_fields=["quote"])
    tie_waiting(quote=row.quote, by=by, now=now)
    return row.quote


@transaction.atomic
def drop_enquiry(*, enquiry: Enquiry, because: str, now: datetime) -> Enquiry:
    """Close an enquiry that leads to nothing; one with a standing booking must be unbooked first."""
    row = locked_enquiry(enquiry)
    if Booking.objects.standing().filter(enquiry=row).exists():
        raise EnquiryClosed(say("A week on the bench is booked for this enquiry: cancel the booking first."))
    if not because.strip():
        raise ValidationError({"because": say("Write why: it is read when they ring again.")})
    row.dropped_at, row.dropped_because = now, because.strip()
    return save_checked(row)
