"""What the job's page asks, area by area, in the order of work.

Kept apart from `job_lines`, which every area imports.
"""

from __future__ import annotations

from collections.abc import Callable
from datetime import date

from quotes.models import Job
from quotes.queries.bench import clock
from quotes.queries.bench.again import committed
from quotes.queries.bench.ages import lifed_parts
from quotes.queries.bench.assembly import record
from quotes.queries.bench.job_lines import JobLine
from quotes.queries.bench.leaving import way_out
from quotes.queries.bench.parts import orders, works_orders
from quotes.queries.bench.teardown import findings, money
from quotes.queries.bench.teardown import found as teardown

AREAS: tuple[Callable[[Job, date], JobLine | None], ...] = (
    money.job_line,
    teardown.job_line,
    findings.job_line,
    lifed_parts.job_line,
    committed.job_line,
    orders.job_line,
    works_orders.job_line,
    record.job_line,
    clock.job_line,
    way_out.tests_line,
    way_out.release_line,
)


def job_lines(job: Job, on: date) -> list[JobLine]:
    """The lines of the job's page, those left out that have nothing to say."""
    return [line for area in AREAS if (line := area(job, on)) is not None]
