"""The bench as it is promised today: what slots and bands are worked out against."""

from __future__ import annotations

from datetime import date

from quotes.calc.intake.enquiry_card import Diary
from quotes.models import Workshop
from quotes.queries.slots import JobInHand, bench_of, jobs_in_hand
from quotes.queries.workshop import shop_rules


def diary(on: date, jobs: tuple[JobInHand, ...] | None = None) -> Diary:
    """The bench from a day on with every job in hand laid into it. `jobs`: where they have been read."""
    jobs = jobs_in_hand() if jobs is None else jobs
    queue = shop_rules(on, jobs).queue
    bench = bench_of(on, Workshop.objects.get_or_default(), queue.closed_days, jobs)
    return Diary(bench, queue, tuple(job.promise for job in jobs))
