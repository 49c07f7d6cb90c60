"""How far a job is good for, opened to the three bounds of which the least holds."""

from __future__ import annotations

from catalogue.calc.said import say
from quotes.calc.life.horizon import GoodFor, ceiling_bound, chance_bound, first_life
from quotes.calc.origin.job import WorkedJob
from quotes.calc.origin.values import Origin
from quotes.calc.origin.worked import WorkedWay
from quotes.calc.sheet.measures import in_planned_unit
from quotes.calc.sheet.words import estimate_in_words


def good_for(told: WorkedWay, job: WorkedJob) -> Origin:
    """Use until the engine must be opened: the least of three bounds."""
    wears, whole = job.wears, told.case.use
    bounds = (
        first_life(wears, job.catalogue, whole),
        chance_bound(wears, job.shop, whole, fault_hazard=job.faults * job.shop.assembly_fault_chance),
        ceiling_bound(wears, job.catalogue, job.shop, whole),
    )
    titles = (
        say("First life inside the engine"),
        say("Floor of the chance"),
        say("Ceiling for rider safety"),
    )
    use = min(bound.use for bound in bounds)
    return Origin(
        say("Good for"),
        _said(job, use),
        say("The least of three bounds; then the engine is opened."),
        say("floor and ceiling: the workshop's settings"),
        parts=tuple(_bound(job, title, bound) for title, bound in zip(titles, bounds, strict=True)),
        adds="least",
        exact=use,
        key=job.key("good_for"),
    )


def _bound(job: WorkedJob, title: str, bound: GoodFor) -> Origin:
    key = job.key(f"component:{bound.component}") if bound.component else ""
    return Origin(title, _said(job, bound.use), f"{bound.reason}.", exact=bound.use, key=key)


def _said(job: WorkedJob, use: float) -> str:
    return estimate_in_words(in_planned_unit(job.case, use), job.unit)
