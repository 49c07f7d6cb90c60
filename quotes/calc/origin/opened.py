"""Opens one figure of a way of building by its key, and all of them in the order in which they are read."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from quotes.calc.origin import opening
from quotes.calc.origin.chance import chance, locks_in_service, of_service, wheel_lock
from quotes.calc.origin.dates import ready
from quotes.calc.origin.drawn import falls_due, life_used, others, stops
from quotes.calc.origin.hours import all_hours, of_kind, operation
from quotes.calc.origin.job import WorkedJob
from quotes.calc.origin.life import component, in_one
from quotes.calc.origin.margin import margin
from quotes.calc.origin.price import line, needed, price
from quotes.calc.origin.reach import good_for
from quotes.calc.origin.reckoned import reckoned, width
from quotes.calc.origin.step import in_step, step, step_chance
from quotes.calc.origin.step_price import job_of_step, more, step_gross
from quotes.calc.origin.sums import gross, net, section
from quotes.calc.origin.tax import tax
from quotes.calc.origin.total import adding, deposit, expected_loss, per_season, season_gross
from quotes.calc.origin.values import Origin
from quotes.calc.origin.worked import Explained, LeftAlone, Way, WorkedWay
from quotes.calc.tune.width import WAYS

_OF_ANY: dict[str, Callable[[WorkedWay], Origin | None]] = {
    "chance": chance,
    "wheel_lock": wheel_lock,
    "expected_loss": expected_loss,
}
_OF_OPTION: dict[str, Callable[[Explained], Origin | None]] = {
    "season": season_gross,
    "deposit": deposit,
    "per_season": per_season,
    "margin": margin,
    "reckoned": width,
}
_IN_OPTION: dict[str, Callable[[Explained, str], Origin]] = {"adding": adding, "reckoned": reckoned}
_OF_STEP: dict[str, Callable[[Explained, int], Origin]] = {
    "": step,
    "gross": step_gross,
    "more": more,
    "chance": step_chance,
}
_OF_LEAVING: dict[str, Callable[[LeftAlone], Origin | None]] = {"falls_due": falls_due}
_OF_JOB: dict[str, Callable[[WorkedJob], Origin]] = {
    "gross": gross,
    "net": net,
    "hours": all_hours,
    "ready": ready,
}
_IN_JOB: dict[str, Callable[[WorkedJob, str], Origin]] = {
    "line": line,
    "needed": needed,
    "price": price,
    "section": section,
    "tax": tax,
    "work": lambda job, code: of_kind(job, code),  # type: ignore[arg-type]
    "operation": lambda job, code: operation(job, job.catalogue.operations[code]),
}
_IN_ANY: dict[str, Callable[[WorkedWay, str], Origin]] = {
    "component": component,
    "life_used": life_used,
    "stops": stops,
    "others": others,
}
_OF_SERVICE: dict[str, Callable[[Explained, WorkedJob], Origin]] = {
    "": opening.service,
    "dates": opening.dates,
    "opened_on": opening.opened_on,
    "chance": of_service,
    "wheel_lock": locks_in_service,
    "good_for": good_for,
}


def opened(told: Way, key: str) -> Origin:
    """The figure of a key such as `chance`, `component:piston`, `line:part:piston` or `service:2:chance`.

    KeyError where the option has no such figure.
    """
    kind, _, code = key.partition(":")
    if kind in {"service", "step"}:
        return _of_service(told, code) if kind == "service" else _of_step(told, code)
    found = _named(told, kind, code) if code else _whole(told, kind)
    if found is None or (key == "ready" and isinstance(told, LeftAlone)):
        raise KeyError(key)
    return found


def _whole(told: Way, kind: str) -> Origin | None:
    if kind == "good_for":
        return good_for(told, told.first)
    if kind in _OF_JOB:
        return _OF_JOB[kind](told.first)
    if isinstance(told, Explained) and kind in _OF_OPTION:
        return _OF_OPTION[kind](told)
    if isinstance(told, LeftAlone) and kind in _OF_LEAVING:
        return _OF_LEAVING[kind](told)
    return _OF_ANY[kind](told)


def _named(told: Way, kind: str, code: str) -> Origin:
    if isinstance(told, Explained) and kind in _IN_OPTION:
        return _IN_OPTION[kind](told, code)
    return _IN_JOB[kind](told.first, code) if kind in _IN_JOB else _IN_ANY[kind](told, code)


def _of_service(told: Way, key: str) -> Origin:
    """A figure of one service of a season, by its number and its own key."""
    number, _, figure = key.partition(":")
    if not isinstance(told, Explained) or not number.isdigit() or not 1 <= int(number) <= len(told.jobs):
        raise KeyError(key)
    job = told.jobs[int(number) - 1]
    kind, _, code = figure.partition(":")
    if kind == "component" and code in told.hazards:
        return in_one(told, job, code)
    if code:
        return _IN_JOB[kind](job, code)
    return _OF_JOB[figure](job) if figure in _OF_JOB else _OF_SERVICE[figure](told, job)


def _of_step(told: Way, key: str) -> Origin:
    """A figure of one step of the ladder, by its number and its own key."""
    place, _, figure = key.partition(":")
    if not isinstance(told, Explained) or not place.isdigit():
        raise KeyError(key)
    kind, _, code = figure.partition(":")
    if not code:
        return _OF_STEP[figure](told, int(place)) if figure in _OF_STEP else _of_its_job(told, place, figure)
    if kind == "component":
        return in_step(told, int(place), code)
    return _IN_JOB[kind](job_of_step(told, int(place)), code)


def _of_its_job(told: Explained, place: str, figure: str) -> Origin:
    return _OF_JOB[figure](job_of_step(told, int(place)))


def every_figure(told: Way) -> tuple[Origin, ...]:
    """All that a sheet shows of a way of building, each opened once."""
    return tuple(_of_option(told) if isinstance(told, Explained) else _of_leaving(told))


def _of_option(told: Explained) -> Iterator[Origin]:
    job = told.first
    found = (
        chance(told),
        wheel_lock(told),
        good_for(told, job),
        gross(job).without_hours(),
        margin(told).without_hours(),
        season_gross(told),
        deposit(told),
        per_season(told),
        expected_loss(told),
        all_hours(job),
        ready(job),
    )
    yield from (figure for figure in found if figure is not None)
    yield from _components(told)
    yield from (needed(job, key) for key in job.needed)
    yield from (adding(told, code) for code in (*told.option.offered, *told.option.left))
    yield from _steps(told)
    if told.option.tune_figures is not None and told.option.tune_figures.width is not None:
        yield from (width(told), *(reckoned(told, way) for way in WAYS))
    if told.option.season is not None:
        yield from (figure for later in told.jobs for figure in _services(told, later))


def _steps(told: Explained) -> Iterator[Origin]:
    """The ladder: its first step whole, then what each adds."""
    for each in told.option.ladder:
        if each.number == 1:
            yield step_gross(told, each.number)
        yield more(told, each.number)
        yield step_chance(told, each.number)


def _services(told: Explained, job: WorkedJob) -> Iterator[Origin]:
    """A service of a season; what the option's own figures have said of its first one is not said again."""
    yield of_service(told, job)
    yield locks_in_service(told, job)
    if job.number > 1:
        yield good_for(told, job)
        yield all_hours(job)
        yield opening.dates(told, job)
        yield opening.renewed(told, job)
        yield from (needed(job, key) for key in job.needed)


def _of_leaving(told: LeftAlone) -> Iterator[Origin]:
    job, loss = told.first, expected_loss(told)
    yield from (chance(told), wheel_lock(told), good_for(told, job), falls_due(told))
    yield from (gross(job).without_hours(), *((loss,) if loss else ()), all_hours(job))
    yield from _components(told)


def _components(told: WorkedWay) -> Iterator[Origin]:
    """Every component that counts, the largest hazard first, with its life and the engines that it stops."""
    ranked = sorted(told.hazards, key=lambda code: (-told.hazards[code], code))
    yield from (component(told, code) for code in ranked)
