"""What of a build that was called off is owed: its strip-down, parts bought, machine work sent, hours."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from decimal import Decimal

from django.utils import translation

from catalogue.calc.money import ZERO
from catalogue.calc.said import say
from quotes.calc.bench.teardown.price import net_of
from quotes.calc.invoice.clocked import ClockRates, with_clocked_hours
from quotes.calc.invoice.draft import DraftLine
from quotes.calc.invoice.so_far import bought_so_far, discount_so_far
from quotes.models import Acceptance, JobStep, OrderLine, Step, StockUse, TeardownLeave, Workshop, WorksOrder
from quotes.queries.bench.clock import BEFORE_THE_YES
from quotes.queries.bench.parts.wanted import lines_of
from quotes.queries.bench.teardown.leave import labour_tax
from quotes.queries.books.day import MoneyOfDay

STRIP_DOWN_KEY = "strip-down:1"


def bought_lines(build: Acceptance, accepted: Sequence[DraftLine], decimals: int) -> tuple[DraftLine, ...]:
    """Bench work as it was accepted, and of the rest what was bought or sent out."""
    return bought_so_far(accepted, _pieces(build, accepted), decimals)


def extras_bought(bought: Iterable[DraftLine]) -> frozenset[str]:
    """Components of the extras that stay at their one price, with their work."""
    return frozenset(line.component for line in bought if line.component and line.key.startswith("extra:"))


def work_so_far(
    build: Acceptance,
    accepted: Sequence[DraftLine],
    bought: Sequence[DraftLine],
    clocked: Mapping[str, Decimal],
    rates: ClockRates,
    money: MoneyOfDay,
    workshop: Workshop,
) -> tuple[DraftLine, ...]:
    """The accepted lines cut down to what was done. Opening and measuring is at the price agreed for it."""
    strip_down = _strip_down(build, money, workshop)
    kinds = {step.code: step.kind for step in (*rates.quoted, *rates.others.values())}
    if strip_down:
        clocked = {code: hours for code, hours in clocked.items() if kinds.get(code) not in BEFORE_THE_YES}
    done = (*strip_down, *with_clocked_hours(bought, clocked, replace(rates, only_clocked=True)))
    return (*done, *discount_so_far(accepted, done[len(strip_down) :], money.decimals))


def _strip_down(build: Acceptance, money: MoneyOfDay, workshop: Workshop) -> tuple[DraftLine, ...]:
    """The strip-down at the price that its leave names, with tax, once it was done."""
    leave = TeardownLeave.objects.filter(job__quote=build.quote_id).select_related("job").first()
    if leave is None or not leave.price:
        return ()
    if not JobStep.objects.filter(job=leave.job_id, step=Step.STRIPPED).exists():
        return ()
    tax = labour_tax(money, workshop)
    line = DraftLine(
        key=STRIP_DOWN_KEY,
        kind="labour",
        description=_named(build, leave.job.number),
        quantity=Decimal(1),
        unit="job",
        unit_price=net_of(leave.price, tax.rate_pct, money.decimals),
        tax_code=tax.code,
    )
    return (line,)


def _named(build: Acceptance, job: str) -> str:
    """In the language of whose invoice it stands on."""
    with translation.override(build.quote.customer.reads):
        return say("Strip-down, job {number}", number=job)


def _pieces(build: Acceptance, accepted: Sequence[DraftLine]) -> dict[str, Decimal]:
    """By key of the accepted line: pieces ordered and still ours, from the shelf, and sent to be machined."""
    found: dict[str, Decimal] = defaultdict(lambda: ZERO)
    for line, stands in lines_of(OrderLine.objects.filter(build=build)):
        found[line.line_key] += stands.ordered - stands.of("cancelled") - stands.of("returned")
    for component, quantity in StockUse.objects.filter(build=build).values_list("component", "quantity"):
        found[_key(accepted, "part", component)] += quantity
    sent = WorksOrder.objects.filter(job__quote=build.quote_id)
    for work, component, quantity in sent.values_list("machine_work", "component", "quantity"):
        quoted = f"option:machine_work:{work}"
        known = any(line.key == quoted for line in accepted)
        found[quoted if known else _key(accepted, "machine_work", component)] += quantity
    return found


def _key(accepted: Iterable[DraftLine], kind: str, component: str) -> str:
    """The accepted line of that kind for a component; empty where there is none."""
    named = f"option:{kind}:{component}"
    rows = [line for line in accepted if component and line.kind == kind]
    return next((line.key for line in rows if line.component == component or line.key == named), "")
