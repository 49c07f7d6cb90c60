"""The findings report of a job as a value, worst first, and what it says on the job's page."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Literal, cast

from django.db.models import Prefetch
from django.utils import timezone

from catalogue.calc.engine import EngineCatalogue
from catalogue.calc.said import say, to_say
from catalogue.calc.typed_figure import as_entered
from quotes.calc.bench.again.adds import Working
from quotes.calc.bench.receipt import PhotoShown
from quotes.calc.bench.said import day
from quotes.calc.bench.teardown.findings_sheet import (
    PAST_FIRST,
    WORST_FIRST,
    FindingShown,
    FindingsSheet,
    Judgement,
    ReadingShown,
    cautions_of,
)
from quotes.calc.bench.teardown.places import place_in_words
from quotes.calc.bench.teardown.verdicts import VERDICT_WORDS, Verdict
from quotes.calc.scope.reason_chain import ReasonChain, possible_sources, reason_chains
from quotes.models import FindingSeen, FindingsReport, Job, Measured, Photo, StoredFile, Workshop
from quotes.queries.bench.again.worked_again import is_behind, proposal_of, request_behind
from quotes.queries.bench.job_lines import JobLine
from quotes.queries.bench.jobs import catalogue_of
from quotes.queries.bench.read_by import read_by_customer
from quotes.queries.bench.teardown.findings_words import (
    bare_figure,
    readings_told,
    span_in_words,
    until_in_words,
    with_unit,
)
from quotes.queries.bench.teardown.found import observed
from quotes.queries.sheets import customer_party, workshop_party
from quotes.queries.workshop import shop_rules

MOST_PHOTOS = 3
"""Of one finding; the rest stand on the teardown sheet."""


METAL = "metal_"
"""How the codes of metal in the oil begin: its look tells only roughly where it comes from."""


ACTED_ON = ("stop", "companions", "renew")
"""Judgements that ask for work; what serves on brings nothing."""


JUDGED_PLAINLY: Mapping[Judgement, str] = {
    "stop": to_say("Stop: we must speak with you"),
    "companions": to_say("Renew, and look at what ran with it"),
    "renew": to_say("Renew now"),
    "until": to_say("Serviceable for now"),
    "serviceable": to_say("Serviceable"),
}


def standing_findings(job: Job) -> list[FindingSeen]:
    """Findings that stand, the worst first, and of one kind as they were seen."""
    rows = FindingSeen.objects.standing().filter(job=job).order_by("seen_at", "pk")
    photos = Photo.objects.select_related("image").defer("image__held")
    rows = rows.prefetch_related(Prefetch("photos", photos))
    return sorted(rows, key=lambda row: WORST_FIRST.index(cast(Judgement, str(row.judged))))


def report_number(job: Job, index: int) -> str:
    return f"{job.number}/F{index}"


@read_by_customer
def findings_sheet(job: Job, index: int, on: date) -> FindingsSheet:
    """The report that would be issued on that day."""
    workshop, catalogue = Workshop.objects.get_or_default(), catalogue_of(job)
    rows = list(Measured.objects.standing().filter(job=job).order_by("measured_at", "pk"))
    rows.sort(key=lambda row: PAST_FIRST.index(cast(Verdict, str(row.verdict))))
    seen = standing_findings(job)
    sheet = _Sheet(catalogue, rows, _chains(job, seen, catalogue, on))
    return FindingsSheet(
        number=report_number(job, index),
        job_number=job.number,
        workshop=workshop_party(workshop),
        customer=customer_party(job.customer),
        engine_name=catalogue.engine_type.name,
        engine_number=job.engine.number,
        paper=cast(Literal["A4", "Letter"], str(workshop.paper)),
        language=job.customer.reads,
        on=on,
        findings=tuple(sheet.finding(row) for row in seen),
        readings=tuple(sheet.reading(row) for row in rows),
        cautions=cautions_of({row.limit_source for row in rows}),
    )


@dataclass(frozen=True, slots=True)
class _Sheet:
    """What rows are told with."""

    catalogue: EngineCatalogue
    rows: Sequence[Measured]
    chains: Mapping[int, ReasonChain]

    def finding(self, row: FindingSeen) -> FindingShown:
        known = self.catalogue.findings.get(row.finding_code)
        judged = cast(Judgement, str(row.judged))
        chain = self.chains.get(row.pk)
        name = known.name if known else row.words
        metal = known is not None and known.code.startswith(METAL)
        sources = possible_sources(known, self.catalogue) if known and metal else ()
        return FindingShown(
            judged=judged,
            judged_in_words=say(JUDGED_PLAINLY[judged]),
            component=self._name(row.component),
            seen=name if not known or not row.words else f"{name}. {row.words}",
            place=place_in_words(row.place),
            cause=say(row.cause),
            consequence=say(row.consequence),
            until=until_in_words(row),
            chain=chain.text if chain else "",
            besides=chain.also_text if chain else "",
            sources=tuple(source.name for source in sources),
            shown_by=tuple(dict.fromkeys(name for source in sources for name in source.looked_at_by)),
            read=readings_told([self.reading(one) for one in self.rows if _is_of(one, row)]),
            photos=_photos(row),
        )

    def reading(self, row: Measured) -> ReadingShown:
        verdict = cast(Verdict, str(row.verdict))
        return ReadingShown(
            component=self._name(row.component),
            name=say(row.name),
            place=place_in_words(row.place),
            read=with_unit(as_entered(row.entered), row.entered_unit),
            standard=span_in_words(row.standard_low, row.standard_high, row.unit),
            limit=with_unit(bare_figure(row.limit), row.unit) if row.limit is not None else "",
            source=say(row.limit_source) if row.limit is not None else "",
            verdict=verdict,
            verdict_in_words=say(VERDICT_WORDS[verdict]),
        )

    def _name(self, code: str) -> str:
        known = self.catalogue.components.get(code)
        return known.name if known else ""


def _chains(
    job: Job, rows: Sequence[FindingSeen], catalogue: EngineCatalogue, on: date
) -> dict[int, ReasonChain]:
    """What each finding brings along, by its key; nothing for one that the sums do not act on."""
    acted_on = [row for row in rows if row.finding_code in catalogue.findings and row.judged in ACTED_ON]
    request = request_behind(job)
    if request is None or not acted_on:
        return {}
    asked = request.model_copy(update={"findings": tuple(observed(row) for row in acted_on)})
    chains = reason_chains(asked, catalogue, policy_parts=shop_rules(on).renew_policy_parts)
    return {row.pk: chain for row, chain in zip(acted_on, chains, strict=True)}


def _is_of(one: Measured, row: FindingSeen) -> bool:
    return bool(row.component) and one.component == row.component and row.place in ("", one.place)


def _photos(row: FindingSeen) -> tuple[PhotoShown, ...]:
    return tuple(
        PhotoShown(sha256=photo.image.sha256, words=photo.words or place_in_words(photo.place))
        for photo in list(row.photos.all())[:MOST_PHOTOS]
    )


def pictures_of(job: Job, sheet: FindingsSheet) -> dict[str, bytes]:
    """The pictures that a report names, by fingerprint."""
    wanted = {photo.sha256 for one in sheet.findings for photo in one.photos}
    found = StoredFile.objects.filter(sha256__in=wanted, pk__in=job.photos.values("image"))
    return {file.sha256: bytes(file.content) for file in found}


def picture_of(job: Job, sheet: FindingsSheet, sha256: str) -> bytes | None:
    """One picture of a report; None where the report does not show it."""
    return pictures_of(job, sheet).get(sha256) if sha256 else None


def reports_of(job: Job) -> list[FindingsReport]:
    """Reports that were issued, the last first."""
    return list(FindingsReport.objects.filter(job=job).select_related("job", "issued_by").order_by("-index"))


def sheet_of_report(report: FindingsReport) -> FindingsSheet:
    return FindingsSheet.model_validate(report.sheet)


def job_line(job: Job, on: date) -> JobLine | None:
    """The findings on the job's page: what was reported, and whether the quote is behind the teardown."""
    if job.step in ("received", "leave_given"):
        return None
    last = FindingsReport.objects.filter(job=job).select_related("job").last()
    words = say("no report yet")
    if last:
        issued = day(timezone.localdate(last.issued_at))
        words = say("{number} issued on {day}", number=last.number, day=issued)
    proposal = proposal_of(job)
    behind = job.left_at is None and is_behind(job)
    if behind:
        words = say("{words}; the quote does not know all of the teardown yet", words=words)
    elif proposal is not None and Working.model_validate(proposal.option).differs:
        words = say("{words}; worked out again, extra work proposed and not offered yet", words=words)
        behind = job.left_at is None
    return JobLine(title=say("Findings"), words=words, url_name="findings", args=(job.pk,), waits=behind)
