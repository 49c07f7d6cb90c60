"""A job's quote against its teardown: whether it is behind it, and what working it out again came to."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from quotes.calc.ask.request import Request
from quotes.calc.bench.again.adds import Adds, Working, what_it_adds
from quotes.calc.bench.again.line_changes import LineChanges, line_changes, within_limits
from quotes.calc.bench.teardown.into_request import Shown, after_the_yes, as_accepted, taken_in, with_teardown
from quotes.calc.sheet.values import Comparison
from quotes.models import Acceptance, ExtraWorkState, Job, Quote, WorkedAgain
from quotes.queries.accepted import accepted_option
from quotes.queries.bench.again.committed import promised_on
from quotes.queries.bench.jobs import catalogue_of
from quotes.queries.bench.teardown.found import shown_by
from quotes.queries.comparison import comparison_for
from quotes.queries.sheets import request_of, sheet_of

STANDS_WITH = (ExtraWorkState.OFFERED, ExtraWorkState.ACCEPTED, ExtraWorkState.WITHIN)
"""An offer that waits or is agreed: what was worked out for it counts as had."""


def request_behind(job: Job) -> Request | None:
    """What the job's work is worked out from now: the draft, or after the yes what was agreed last."""
    build = _build_of(job)
    if build is not None:
        return base_request(build)
    return request_of(job.quote) if job.quote else None


def _build_of(job: Job) -> Acceptance | None:
    return Acceptance.objects.select_related("revision").filter(quote=job.quote_id).first()


def base_request(build: Acceptance) -> Request:
    """The request of the working that was offered last and not refused; else of the yes with its extras."""
    last = WorkedAgain.objects.filter(build=build, extra_work__state__in=STANDS_WITH).last()
    if last is not None:
        return Request.model_validate(last.request)
    taken = (*taken_in(accepted_option(build)), *build.extras)
    return as_accepted(request_of(build.revision), build.tier, taken)


def request_now(build: Acceptance, shown: Shown) -> Request:
    """The request of the yes with all that the teardown shows."""
    return after_the_yes(request_of(build.revision), accepted_option(build), build.extras, shown)


def last_of(job: Job) -> WorkedAgain | None:
    """The last working of the job, whatever came of it; an offer that was taken back leaves none behind."""
    rows = WorkedAgain.objects.filter(job=job).select_related("build", "by", "extra_work")
    return rows.exclude(extra_work__state=ExtraWorkState.WITHDRAWN).last()


def proposal_of(job: Job) -> WorkedAgain | None:
    """The last working of the job, where nobody has made an offer of it yet."""
    last = last_of(job)
    return last if last is not None and last.extra_work is None else None


def known_of(build: Acceptance, last: WorkedAgain | None) -> Request:
    """What is worked out already, also where the customer said no to it; else what stands agreed."""
    return Request.model_validate(last.request) if last else base_request(build)


def is_behind(job: Job) -> bool:
    """Whether the teardown shows something that the job's quote, or what is proposed, does not know yet."""
    build, shown = _build_of(job), shown_by(job)
    if build is not None:
        return request_now(build, shown) != known_of(build, last_of(job))
    request = request_behind(job)
    return request is not None and with_teardown(request, shown) != request


def worked_out(build: Acceptance, request: Request, on: date) -> Working:
    """What stands agreed and the request, both worked out on that day. BadRequest where that can't be."""
    base, new = (comparison_for(one.model_copy(update={"on": on})) for one in (base_request(build), request))
    return Working(base=base.option(build.tier), new=new.option(build.tier))


@dataclass(frozen=True, slots=True)
class ProposedAnew:
    """What a working adds to the yes, and every line that changed."""

    adds: Adds
    changes: LineChanges


def proposed(again: WorkedAgain) -> ProposedAnew:
    """What an offer of this working would hold."""
    build, working = again.build, Working.model_validate(again.option)
    sheet = sheet_of(build.revision)
    within = within_limits(Request.model_validate(again.request).readings)
    adds = what_it_adds(
        working,
        catalogue_of(again.job),
        prices={line.key: line.unit_price for line in sheet.comparison.option(build.tier).lines},
        promised_on=promised_on(build),
        within=within,
        decimals=sheet.comparison.decimals,
    )
    return ProposedAnew(adds, line_changes(working.base, working.new, within))


@dataclass(frozen=True, slots=True)
class SinceFirst:
    """What changed against the quote that was issued before the strip-down, option by option."""

    number: int
    options: tuple[LineChanges, ...]


def since_first(quote: Quote, comparison: Comparison, request: Request) -> SinceFirst | None:
    """The changes against the last revision from before the strip-down; None where there is none to show."""
    if not comparison.firm or quote.latest_id is None:
        return None
    first = quote.revisions.filter(sheet__comparison__firm=False).order_by("-index").first()
    if first is None:
        return None
    before = {option.tier: option for option in sheet_of(first).comparison.options}
    within = within_limits(request.readings)
    found = tuple(
        line_changes(before[option.tier], option, within)
        for option in comparison.options
        if option.tier in before
    )
    return SinceFirst(first.index, found) if found else None
