"""The facts from which a job's state is said, read for a whole list at once."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

from django.db.models import Case, Exists, F, IntegerField, OuterRef, Q, Subquery, Sum, Value, When
from django.db.models.functions import Coalesce, Greatest

from quotes.calc.bench.state import FACTS, RULES, STATES, Facts, job_state
from quotes.models import (
    ExtraWork,
    FindingsReport,
    Invoice,
    InvoiceKind,
    Job,
    JobStep,
    OpenItem,
    OrderEvent,
    OrderEventKind,
    OrderLine,
    Step,
    WorksOrder,
)
from quotes.models.bench.job import JobQuerySet

HERE = (OrderEventKind.RECEIVED, OrderEventKind.CANCELLED, OrderEventKind.RETURNED)
"""Pieces that are no longer waited for."""
A_TRACE = Decimal("0.0005")
"""SQLite adds decimals as floats: so little is nothing."""


def with_place(rows: JobQuerySet) -> JobQuerySet:
    """Each job with the facts of its state, and `place`: the state's number in the order of the work."""
    whens = [When(**dict(wanted), then=Value(STATES.index(word))) for word, wanted in RULES]
    return with_facts(rows).annotate(place=Case(*whens, output_field=IntegerField()))


def with_facts(rows: JobQuerySet) -> JobQuerySet:
    """Each job with the facts of its state."""
    build = OuterRef("quote__acceptance")
    found = rows.annotate(
        came_again=Exists(Job.objects.filter(engine=OuterRef("engine"), received_at__gt=OuterRef("left_at"))),
        held=Case(When(hold_because="", then=Value(False)), default=Value(True)),
        outcome=Coalesce("went_no_further__outcome", Value("")),
        said_no=_is(quote__declined_at__isnull=False, quote__accepted_at=None),
        approved=_is(quote__accepted_at__isnull=False),
        called_off=_is(quote__acceptance__called_off__isnull=False),
        extra_waiting=Exists(ExtraWork.objects.waiting().filter(build=build)),
        parts_waiting=Exists(_lines_waiting().filter(build=build)),
        work_out=Exists(WorksOrder.objects.out().filter(job=OuterRef("pk"))),
        asked=Exists(Invoice.objects.filter(build=build, kind=InvoiceKind.INVOICE)),
        owes=Exists(OpenItem.objects.owed_to_us().filter(invoice__build=build)),
    )
    since = Case(When(quoted_at__gte=F("found_at"), then=Value(True)), default=Value(False))
    return found.alias(quoted_at=_quoted_at(), found_at=_found_at()).annotate(quoted_since=since)


def _found_at() -> Coalesce:
    reports = FindingsReport.objects.filter(job=OuterRef("pk")).order_by("-index").values("issued_at")
    steps = JobStep.objects.filter(job=OuterRef("pk"), step=Step.FINDINGS).values("at")
    return Coalesce(Subquery(reports[:1]), Subquery(steps[:1]))


def _quoted_at() -> Greatest:
    """When it was issued, or said to stand as it is: one moment, so that it is compared but once."""
    issued, confirmed = F("quote__latest__issued_at"), F("quote__confirmed_at")
    return Greatest(Coalesce(issued, confirmed), Coalesce(confirmed, issued))


def _is(**wanted: Any) -> Case:
    return Case(When(Q(**wanted), then=Value(True)), default=Value(False))


def _lines_waiting() -> Any:
    """Order lines of which not every piece is here, or given up."""
    events = OrderEvent.objects.filter(line=OuterRef("pk"), kind__in=HERE).order_by().values("line")
    here = Coalesce(Subquery(events.annotate(sum=Sum("quantity")).values("sum")), Value(Decimal(0)))
    return OrderLine.objects.annotate(here=here).filter(here__lt=F("quantity") - Value(A_TRACE))


def facts_of(job: Job) -> Facts:
    """The facts of one job, read anew."""
    row = with_facts(Job.objects.filter(pk=job.pk)).values(*FACTS).get()
    return Facts(**row)


def state_by_facts(job: Job) -> str:
    """Where a job stands that was read with its facts."""
    return job_state(Facts(**{name: getattr(job, name) for name in FACTS}))


def state_of(job: Job) -> str:
    """Where the job stands, in words; one query."""
    return job_state(facts_of(job))
