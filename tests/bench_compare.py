"""Times three options with their bands and ladders on the whole shipped catalogue: `make bench`.

Every engine type, every duty that suits it and an engine of known and of unknown history. Beside the time
stands that of the bare solver on the same programmes, and how many times that the whole answer takes. Then
the same on catalogues five times as large. Times are the processor's, so that what else runs counts less.
"""

from __future__ import annotations

import resource
import sys
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, replace
from datetime import date
from decimal import Decimal
from pathlib import Path
from statistics import median
from time import process_time
from typing import Any
from unittest.mock import patch

from scipy.optimize import milp

from catalogue.calc.engine import Duty, EngineCatalogue
from catalogue.calc.resolve import resolve
from catalogue.imports.read import read_catalogue
from quotes.calc.ask.faults import faults
from quotes.calc.ask.request import EngineAsked, Planned, Request, Segment
from quotes.calc.compare import compare
from quotes.calc.life.units import UNITS_OF_BASIS, season
from quotes.calc.shop import Shop
from quotes.management.stray_output import stray_output_to_stderr
from tests.calc.small import SHOP
from tests.many_times import many_times

CATALOGUE = Path(__file__).resolve().parent.parent / "fixtures" / "catalogue"
ON = date(2027, 2, 1)
PROMISED_S = 0.4
"""All three options of any request, on this catalogue."""
PROMISED_LARGE_S = 2.0
"""The same on a catalogue so many times as large:"""
TIMES = 5
RUNS = 3
CAREFUL = replace(SHOP, assembly_fault_chance=SHOP.assembly_fault_chance / TIMES)
"""As many faults of its own in so many times the work."""
Asked = tuple[EngineCatalogue, Request, str]
Programme = tuple[tuple[Any, ...], dict[str, Any]]


@dataclass(frozen=True)
class Timed:
    """One request: the median time of its answer and of its bare programmes, in seconds."""

    engine_type: str
    duty: str
    history: str
    answer: float
    solver: float
    programmes: int

    @property
    def ratio(self) -> float:
        return self.answer / self.solver


def main() -> int:
    """Prints a line for each engine type and size; 1 where an answer takes longer than promised."""
    with stray_output_to_stderr():
        asked = list(_requests())
        timed = [_time(each, RUNS) for each in asked]
        memory = _most_memory_mb()
        large = [_time((many_times(c, TIMES), r, h), 1, CAREFUL) for c, r, h in asked if _is_hard(r)]
    print(f"{'':24}{'requests':>9}{'median':>10}{'worst':>10}{'bare solver':>13}{'ratio':>8}   slowest")
    for engine_type in dict.fromkeys(each.engine_type for each in timed):
        _print(engine_type, [each for each in timed if each.engine_type == engine_type])
    _print("all", timed)
    _print(f"{TIMES} times the catalogue", large)
    print(f"most memory of the whole process: {memory} MB, {_most_memory_mb()} MB with the large catalogues")
    late = _worst(timed) > PROMISED_S or _worst(large) > PROMISED_LARGE_S
    return int(late)


def _worst(timed: Iterable[Timed]) -> float:
    return max(each.answer for each in timed)


def _print(name: str, timed: list[Timed]) -> None:
    slowest = max(timed, key=lambda each: each.answer)
    answers, solvers = [each.answer for each in timed], [each.solver for each in timed]
    print(
        f"{name:24}{len(timed):9}{_ms(median(answers)):>10}{_ms(slowest.answer):>10}{_ms(median(solvers)):>13}"
        f"{median(each.ratio for each in timed):8.2f}   {slowest.engine_type}, {slowest.duty}, "
        f"{slowest.history} history, {slowest.programmes} programmes"
    )


def _ms(seconds: float) -> str:
    return f"{seconds * 1000:.0f} ms"


def _most_memory_mb() -> int:
    """Linux counts it in KiB."""
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss // 1024


def _requests() -> Iterator[Asked]:
    rows = read_catalogue(CATALOGUE)
    for engine_type in rows.engine_types:
        catalogue = resolve(rows, engine_type.code)
        for duty in catalogue.duties.values():
            for history, segments in (("known", _two_seasons(duty)), ("unknown", None)):
                engine = EngineAsked(type=engine_type.code, history=segments)
                request = Request(on=ON, engine=engine, planned=Planned(duty=duty.code))
                if not faults(request, catalogue, SHOP):
                    yield catalogue, request, history


def _is_hard(request: Request) -> bool:
    """Of the duties that suit every engine type the one that takes longest."""
    return request.planned.duty == "sprint"


def _two_seasons(duty: Duty) -> tuple[Segment, ...]:
    amount, unit = Decimal(str(2 * season(duty))), UNITS_OF_BASIS[duty.basis]
    return (Segment(amount=amount, unit=unit, duty=duty.code, end=date(2026, 10, 10)),)


def _time(asked: Asked, runs: int, shop: Shop = SHOP) -> Timed:
    catalogue, request, history = asked
    with _recorded() as programmes:
        compare(request, catalogue, shop)
    answer = _median_time(lambda: compare(request, catalogue, shop), runs)
    solver = _median_time(lambda: [milp(*positional, **named) for positional, named in programmes], runs)
    duty = request.planned.duty
    return Timed(catalogue.engine_type.code, duty, history, answer, solver, len(programmes))


@contextmanager
def _recorded() -> Iterator[list[Programme]]:
    """Every programme that is handed to the solver meanwhile."""
    programmes: list[Programme] = []

    def record(*positional: Any, **named: Any) -> Any:
        programmes.append((positional, named))
        return milp(*positional, **named)

    with patch("scipy.optimize.milp", record):
        yield programmes


def _median_time(work: Callable[[], object], runs: int) -> float:
    times = []
    for _ in range(runs):
        began = process_time()
        work()
        times.append(process_time() - began)
    return median(times)


if __name__ == "__main__":
    sys.exit(main())
