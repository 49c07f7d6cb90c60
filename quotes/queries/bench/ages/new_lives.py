"""What a job renewed: from its yes, its extras and the extra work agreed, for the final check to confirm."""

from __future__ import annotations

from dataclasses import dataclass

from catalogue.calc.engine import EngineCatalogue
from catalogue.calc.said import say
from quotes.calc.bench.again.adds import Working
from quotes.calc.bench.ages.new_lives import Level, planned_lives
from quotes.calc.invoice.draft import DraftLine
from quotes.calc.sheet.values import Option
from quotes.models import (
    Acceptance,
    CalledOff,
    ExtraWork,
    Job,
    OwnPart,
    Substitute,
    WorkedAgain,
)
from quotes.queries.accepted import accepted_option
from quotes.queries.bench.jobs import build_of
from quotes.queries.engines import known_catalogue


@dataclass(frozen=True, slots=True)
class NewLife:
    """One component that should be new or reconditioned. `doubt` says why it may not be, where it may not."""

    component: str
    name: str
    level: Level
    doubt: str = ""


def standing_option(build: Acceptance) -> Option:
    """The option as it was agreed last: worked out again and said yes to, else the one of the yes."""
    agreed = ExtraWork.objects.filter(build=build).agreed()
    last = WorkedAgain.objects.filter(build=build, extra_work__in=agreed).order_by("made_at", "pk").last()
    return Working.model_validate(last.option).new if last else accepted_option(build)


def new_lives_of(job: Job) -> tuple[NewLife, ...]:
    """Every component whose age should begin anew, in the order of the catalogue; none without a build."""
    build, catalogue = build_of(job), known_catalogue(job.engine.type_code)
    if build is None or catalogue is None:
        return ()
    agreed = list(ExtraWork.objects.filter(build=build).agreed().order_by("index"))
    lines = [DraftLine.model_validate(line) for row in agreed for line in row.lines]
    found = planned_lives(
        standing_option(build), build.extras, lines, catalogue, about=_about(agreed, catalogue)
    )
    doubts = _doubts(build)
    return tuple(
        NewLife(code, part.name, found[code], doubts.get(code, doubts.get("", "")))
        for code, part in catalogue.components.items()
        if code in found
    )


def _about(agreed: list[ExtraWork], catalogue: EngineCatalogue) -> set[str]:
    """Components of extra work that buys parts without saying on which line what for."""
    found: set[str] = set()
    for row in agreed:
        bought = [DraftLine.model_validate(line) for line in row.lines]
        parts = [line for line in bought if line.kind == "part" and line.quantity > 0]
        if parts and not any(line.component for line in bought):
            found.update(code for code in row.components if code in catalogue.components)
    return found


def _doubts(build: Acceptance) -> dict[str, str]:
    """Why a component may not be new after all; by "" for all of them."""
    doubts = {
        row.component: say("the customer's own part, {condition}", condition=row.condition)
        if row.condition
        else say("the customer's own part, nothing said of its condition")
        for row in OwnPart.objects.filter(build=build)
    }
    taken = Substitute.objects.filter(line__build=build, dropped_at=None).select_related("line")
    doubts |= {
        row.line.component: say(
            "{description} was fitted in its place: {life_note}",
            description=row.description,
            life_note=row.life_note,
        )
        for row in taken
        if row.life_note
    }
    if CalledOff.objects.filter(build=build).exists():
        doubts[""] = say("the build was called off")
    return doubts
