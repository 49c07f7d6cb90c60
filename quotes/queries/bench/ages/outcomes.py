"""What became of builds: what each was promised, whose service nobody has told yet, and what was seen."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from django.db.models import Exists, OuterRef, QuerySet

from catalogue.calc.money import ZERO, round_half_up
from catalogue.queries import EmptyCatalogueError, current_rows
from quotes.calc.bench.stated import in_unit, total_of
from quotes.calc.life.calibration import Watched
from quotes.calc.sheet.values import Option
from quotes.models import Acceptance, Engine, Job, ServiceEnd, ServiceOutcome, ServiceReport
from quotes.queries.sheets import request_of, sheet_of

MOST = 25
"""So many builds that nobody has told of are named."""


@dataclass(frozen=True, slots=True)
class PromisedService:
    """The service that a build was sold for, as its accepted sheet has it."""

    option: Option
    duty: str
    planned: Decimal
    unit: str
    in_words: str
    """The planned service as the sheet says it."""


def promised_service(build: Acceptance) -> PromisedService:
    """What was promised with the option that was accepted."""
    comparison = sheet_of(build.revision).comparison
    return PromisedService(
        option=comparison.option(build.tier),
        duty=comparison.duty,
        planned=round_half_up(Decimal(str(comparison.planned.amount)), 2),
        unit=comparison.planned.unit,
        in_words=comparison.planned_in_words,
    )


def outcome_of(build: Acceptance) -> ServiceOutcome | None:
    """What was told of it and stands."""
    return ServiceOutcome.objects.standing().filter(build=build).select_related("by").first()


def untold() -> QuerySet[Acceptance]:
    """Builds that were finished and of whose service nothing is told, the longest finished first."""
    told = ServiceOutcome.objects.standing().filter(build=OuterRef("pk"))
    rows = Acceptance.objects.filter(done_at__isnull=False, called_off=None).exclude(Exists(told))
    return rows.select_related("quote__engine", "quote__customer").defer("quote__request").order_by("done_at")


def builds_of(engine: Engine) -> list[tuple[Acceptance, ServiceOutcome | None]]:
    """The finished builds of an engine, the latest first, each with what was told of it."""
    rows = Acceptance.objects.filter(quote__engine=engine, done_at__isnull=False, called_off=None)
    told = {
        row.build_id: row for row in ServiceOutcome.objects.standing().filter(build__quote__engine=engine)
    }
    rows = rows.select_related("quote").defer("quote__request").order_by("-done_at")
    return [(row, told.get(row.pk)) for row in rows]


def last_untold(engine: Engine) -> Acceptance | None:
    """The build that an engine runs on now, where nobody has told how it goes."""
    return untold().filter(quote__engine=engine).order_by("-done_at").first()


def build_to_tell(job: Job) -> Acceptance | None:
    """The build that this engine came in with, where nobody has told yet how it went."""
    rows = untold().filter(quote__engine=job.engine_id, done_at__lte=job.received_at)
    return rows.exclude(quote=job.quote_id).select_related("revision").order_by("-done_at").first()


@dataclass(frozen=True, slots=True)
class ServiceToTell:
    """The build that an engine came in with, what was promised of it, and what it has run since."""

    build: Acceptance
    service: PromisedService
    ran: Decimal | None


def service_to_tell(job: Job) -> ServiceToTell | None:
    """What the job's page asks about the last build, where nobody has answered yet."""
    build = build_to_tell(job)
    if build is None:
        return None
    service = promised_service(build)
    return ServiceToTell(build, service, ran_since(build, job, service.unit))


def ran_since(build: Acceptance, job: Job, unit: str) -> Decimal | None:
    """What the engine has run since that build, in this unit: by intake's readings, else as reported."""
    earlier = Job.objects.filter(quote=build.quote_id).first()
    then = _run_before(build, earlier, unit)
    now = None if job.service_amount is None else in_unit(job.service_amount, job.service_unit, unit)
    if then is not None and now is not None and now >= then:
        return now - then
    reports = ServiceReport.objects.standing().filter(engine=job.engine_id, job=earlier)
    last = reports.filter(at__lte=job.received_at).order_by("on", "pk").last() if earlier else None
    return in_unit(last.amount, last.unit, unit) if last else None


def _run_before(build: Acceptance, earlier: Job | None, unit: str) -> Decimal | None:
    """What the engine had run when it was built: as read at the door, else as the quote was asked for."""
    if earlier is not None and earlier.service_amount is not None:
        return in_unit(earlier.service_amount, earlier.service_unit, unit)
    history = request_of(build.revision).engine.history
    return None if history is None else total_of(history, unit)


def watched() -> list[Watched]:
    """Every service that was told, as the sums know it; what nobody knows is left out."""
    rows = ServiceOutcome.objects.standing().exclude(end=ServiceEnd.UNKNOWN).order_by("tier", "duty", "pk")
    return [watched_of(row) for row in rows]


def watched_of(row: ServiceOutcome) -> Watched:
    """A stop counts where it came inside the planned service; what no estimate counts is no stop of ours."""
    inside = (row.ran or ZERO) <= row.planned
    return Watched(
        tier=row.tier,
        duty=row.duty,
        wear=row.wear_hazard,
        hands=row.hands_hazard,
        factor=row.shop_factor,
        stopped=row.end == ServiceEnd.STOPPED and inside,
    )


def component_names() -> dict[str, str]:
    """Names of components, whichever engine type has them."""
    try:
        return {row.code: row.name for row in current_rows().components}
    except EmptyCatalogueError:
        return {}
