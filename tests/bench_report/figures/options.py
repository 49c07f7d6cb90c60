"""Three options with their bands and ladders on the whole shipped catalogue, beside the bare solver.

Every engine type, every duty that suits it and an engine of known and of unknown history; then the hardest
duty on catalogues five times as large. Beside the time stands that of the solver on the same programmes.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, replace
from datetime import date
from decimal import Decimal
from pathlib import Path
from statistics import median
from time import process_time
from typing import Any
from unittest.mock import patch

from catalogue.calc.engine import Duty, EngineCatalogue
from catalogue.calc.resolve import resolve
from catalogue.imports.read import read_catalogue
from quotes.calc.ask.faults import faults
from quotes.calc.ask.request import EngineAsked, Planned, Request, Segment
from quotes.calc.compare import compare
from quotes.calc.life.units import UNITS_OF_BASIS, season
from quotes.calc.shop import Shop
from tests.bench_report.figure import Extra, Figure
from tests.calc.small import SHOP
from tests.many_times import many_times

CATALOGUE = Path(__file__).resolve().parent.parent.parent.parent / "fixtures" / "catalogue"
ON = date(2027, 2, 1)
PROMISED_S = 0.4
"""All three options of any request, on this catalogue."""
PROMISED_LARGE_S = 2.0
"""The same on a catalogue so many times as large:"""
TIMES = 5
CAREFUL = replace(SHOP, assembly_fault_chance=SHOP.assembly_fault_chance / TIMES)
"""As many faults of its own in so many times the work."""
Programme = tuple[tuple[Any, ...], dict[str, Any]]


@dataclass(slots=True)
class Asked:
    """One request, the programmes that it hands to the solver, and how long its answers took."""

    catalogue: EngineCatalogue
    request: Request
    shop: Shop
    programmes: list[Programme]
    took: list[float]


def prepare(times: int) -> list[Asked]:
    """Every request, or the hard ones on a catalogue so many times as large."""
    if times == 1:
        return [_asked(catalogue, request, SHOP) for catalogue, request in _requests()]
    hard = [(catalogue, request) for catalogue, request in _requests() if _is_hard(request)]
    return [_asked(many_times(catalogue, times), request, CAREFUL) for catalogue, request in hard]


def ours(asked: list[Asked]) -> None:
    for one in asked:
        began = process_time()
        compare(one.request, one.catalogue, one.shop)
        one.took.append(process_time() - began)


def bare(asked: list[Asked]) -> None:
    from scipy.optimize import milp

    for one in asked:
        for positional, named in one.programmes:
            milp(*positional, **named)


def worst(asked: list[Asked], promised: float) -> tuple[Extra, ...]:
    """The middle request and the slowest, each by the middle one of its runs."""
    took = {median(one.took): one for one in asked}
    slowest = took[max(took)]
    which = f"at worst ({slowest.catalogue.engine_type.code}, {slowest.request.planned.duty})"
    return (Extra("in the middle", median(took), "s"), Extra(which, max(took), "s", promised))


def _asked(catalogue: EngineCatalogue, request: Request, shop: Shop) -> Asked:
    with _recorded() as programmes:
        compare(request, catalogue, shop)
    return Asked(catalogue, request, shop, programmes, [])


def _requests() -> Iterator[tuple[EngineCatalogue, Request]]:
    rows = read_catalogue(CATALOGUE)
    for engine_type in rows.engine_types:
        catalogue = resolve(rows, engine_type.code)
        for duty in catalogue.duties.values():
            for segments in (_two_seasons(duty), None):
                engine = EngineAsked(type=engine_type.code, history=segments)
                request = Request(on=ON, engine=engine, planned=Planned(duty=duty.code))
                if not faults(request, catalogue, SHOP):
                    yield catalogue, request


def _is_hard(request: Request) -> bool:
    """Of the duties that suit every engine type the one that takes longest."""
    return request.planned.duty == "sprint"


def _two_seasons(duty: Duty) -> tuple[Segment, ...]:
    amount, unit = Decimal(str(2 * season(duty))), UNITS_OF_BASIS[duty.basis]
    return (Segment(amount=amount, unit=unit, duty=duty.code, end=date(2026, 10, 10)),)


@contextmanager
def _recorded() -> Iterator[list[Programme]]:
    """Every programme that is handed to the solver meanwhile."""
    from scipy.optimize import milp

    programmes: list[Programme] = []

    def record(*positional: Any, **named: Any) -> Any:
        programmes.append((positional, named))
        return milp(*positional, **named)

    with patch("scipy.optimize.milp", record):
        yield programmes


def programmes_of(work: Iterable[Programme]) -> None:
    """The solver's part alone."""
    from scipy.optimize import milp

    for positional, named in work:
        milp(*positional, **named)


recorded = _recorded
OPTIONS = Figure(
    name="options",
    what="three options with bands, ladder and season, 42 requests",
    bare_is="scipy's milp on the same programmes",
    unit="times the catalogue",
    sizes=(1,),
    prepare=prepare,
    ours=ours,
    bare=bare,
    more=lambda asked: worst(asked, PROMISED_S),
    runs=2,
    warmed=True,
    by_processor=True,
)
OPTIONS_LARGE = replace(
    OPTIONS,
    name="options-large",
    what="the same in a sprint season",
    sizes=(TIMES,),
    more=lambda asked: worst(asked, PROMISED_LARGE_S),
    runs=1,
)
