"""The money of a strip-down: its deposit, and its invoice where nothing is built after it."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

from django.utils import timezone

from catalogue.calc.money import ZERO
from catalogue.calc.said import say, say_figure
from quotes.calc.bench.said import day
from quotes.calc.bench.teardown.price import TeardownSums, net_of
from quotes.calc.invoice.draft import Draft, DraftLine
from quotes.calc.invoice.sums import draft_sums
from quotes.models import Job, Payment, Step, TeardownLeave, Workshop
from quotes.queries.bench.job_lines import JobLine
from quotes.queries.bench.teardown.leave import labour_tax
from quotes.queries.books.day import money_of
from quotes.queries.books.deposits import left_of_receipt, strip_down_deposits


def deposits_paid(job: Job) -> list[tuple[Payment, Decimal]]:
    """Deposits of the strip-down, each with what is left of it."""
    rows = Payment.objects.filter(job=job, kind="received", deposit=True, reversed_by=None)
    return [(row, left_of_receipt(row)) for row in rows.select_related("job", "build").order_by("on", "pk")]


def job_line(job: Job, on: date) -> JobLine | None:
    """The leave to strip on the job's page, and what of its deposit is open while nothing is undone."""
    given = TeardownLeave.objects.filter(job=job).first()
    if given is None:
        return None
    words = say("{name} on {day}", name=given.name, day=day(timezone.localdate(given.given_at)))
    paid = sum((one.amount for one, _ in deposits_paid(job)), ZERO)
    short = max(given.deposit - paid, ZERO)
    waits = bool(short) and job.step == Step.LEAVE_GIVEN
    if waits:
        words = say("{words}; {sum} to pay before anything is undone", words=words, sum=say_figure(short, 2))
    return JobLine(
        title=say("Leave to strip"), words=words, url_name="job-leave", args=(job.pk,), waits=waits
    )


def teardown_content(job: Job, sums: TeardownSums, *, put_back: bool, on: date) -> Draft:
    """What is owed for a strip-down at the price agreed with tax, its deposit taken off.

    Not every sum with tax can be had of a net: what is missing then is the document's rounding.
    """
    workshop = Workshop.objects.get_or_default()
    money = money_of(on, workshop)
    tax = labour_tax(money, workshop)
    asked = [(say("Strip-down, job {number}", number=job.number), sums.price)]
    if put_back:
        asked.append((say("Put back as it was"), sums.put_back))
    lines = tuple(
        DraftLine(
            kind="labour",
            description=words,
            quantity=Decimal(1),
            unit="job",
            unit_price=net_of(gross, tax.rate_pct, money.decimals),
            tax_code=tax.code,
        )
        for words, gross in asked
        if gross
    )
    whole = sum((gross for _, gross in asked), ZERO)
    content = Draft(
        lines=lines,
        prepayments=_taken_off(job),
        note=say("Engine {number}, tag {tag}.", number=job.engine.number, tag=job.tag),
    )
    gross = draft_sums(content, money.tax_codes, money.decimals).gross
    return content.model_copy(update={"rounding": whole - gross})


def _taken_off(job: Job) -> dict[str, Decimal]:
    """The job's own deposits; those of the customer's other strip-downs stay held."""
    mine = set(Payment.objects.filter(job=job).values_list("number", flat=True))
    return {number: left for number, left in strip_down_deposits(job.customer_id).items() if number in mine}
