"""An engine of the demo year followed over the bench, each step through the action that people use."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from datetime import timedelta
from decimal import Decimal

from quotes.actions.bench.findings import FindingTold, keep_finding
from quotes.actions.bench.findings_report import issue_findings
from quotes.actions.bench.intake import take_in
from quotes.actions.bench.jobs import Intake, move
from quotes.actions.bench.leave import LeaveGiven, give_leave
from quotes.actions.bench.orders import Asked, send_order
from quotes.actions.bench.readings import Read, keep_reading
from quotes.actions.bench.receipts import take_in_all
from quotes.actions.bench.work_out_again import Offer, offer_worked_again, work_out_again
from quotes.actions.bench.works_orders import CameBack, SentOut, send_out, take_back
from quotes.actions.demo.bench_day import BenchDay
from quotes.actions.issuing import issue
from quotes.calc.bench.parts.target_sizes import CheckedSize
from quotes.calc.demo.job import DemoFinding, DemoReading
from quotes.calc.demo.year import Act
from quotes.models import FindingSeen, PurchaseOrder, WorksOrder
from quotes.queries.bench.parts.wanted import build_parts
from quotes.queries.bench.teardown.sheet import job_sheet


def _receive(day: BenchDay) -> None:
    told = day.told
    amount, unit, duty = day.given.used.split()
    given = Intake(
        brought_by=told.brought_by,
        right_to_hand_over="owner of the engine",
        shelf=told.shelf,
        marks=tuple(told.marks.items()),
        came_with=told.came_with,
        missing=told.missing,
        oil_seen=told.oil_seen,
        symptoms=told.symptoms,
        duty=duty,
        service_amount=Decimal(amount),
        service_unit=unit,
        service_known="logbook",
    )
    take_in(
        customer=day.quote.customer,
        engine=day.quote.engine,
        given=given,
        key=day.key("receive"),
        by=day.desk,
        now=day.at,
        quote=day.quote,
    )
    _read(day, (each for each in told.readings if each.when == "as_received"))


def _leave(day: BenchDay) -> None:
    given = LeaveGiven(
        price=Decimal(940),
        put_back_price=Decimal(1570),
        deposit=Decimal(0),
        if_not="in_boxes",
        name=day.given.customer,
        right="owner of the engine",
        how="signature",
    )
    give_leave(job=day.job, given=given, by=day.desk, now=day.at)


def _strip(day: BenchDay) -> None:
    move(job=day.job, step="stripped", by=day.builder, now=day.at)


def _measure(day: BenchDay) -> None:
    _read(day, (each for each in day.told.readings if each.when == "stripped"))
    for number, finding in enumerate(day.told.findings):
        _find(day, finding, number)


def _read(day: BenchDay, readings: Iterable[DemoReading]) -> None:
    """Each row of the sheet, its values in the order of the places that the sheet gives it."""
    job = day.job
    places = {row.code: row.places for group in job_sheet(job).groups for row in group.rows}
    for row in readings:
        for place, value in zip(places[row.code], row.values, strict=True):
            read = Read(entered=value, unit=row.unit, code=row.code, place=place, when=row.when)
            key = day.key("reading", row.code, place, row.when)
            keep_reading(job=job, read=read, key=key, by=day.builder, now=day.at)


def _find(day: BenchDay, finding: DemoFinding, number: int) -> FindingSeen:
    seen = FindingTold(
        judged=finding.judged,
        code=finding.code,
        component=finding.component,
        place=finding.place,
        words=finding.words,
        cause=finding.cause,
        until_amount=finding.until_amount,
        until_unit=finding.until_unit,
    )
    return keep_finding(job=day.job, seen=seen, key=day.key("finding", number), by=day.builder, now=day.at)


def _order(day: BenchDay) -> None:
    """One order to each supplier of what can be ordered today; sizes are what was measured for."""
    found = build_parts(day.build, day.on)
    assert found is not None
    by_supplier: dict[str, list[Asked]] = {}
    for need in found.needs:
        if need.orderable and need.offer is not None:
            size = "as measured" if need.sized_by is not None else ""
            asked = Asked(day.build.pk, need.pick.key, need.pick.component, size)
            by_supplier.setdefault(need.offer.supplier, []).append(asked)
    for asked_of_one in by_supplier.values():
        send_order(asked=asked_of_one, by=day.desk, now=day.at)


def _take_in(day: BenchDay) -> None:
    orders = PurchaseOrder.objects.filter(lines__build=day.build).distinct().order_by("pk")
    for order in orders:
        take_in_all(order=order, on=day.on, key=day.key("here", order.pk, day.on), by=day.builder, now=day.at)


def _send_out(day: BenchDay) -> None:
    sent = day.told.sent
    if sent is None:
        return
    out = SentOut(
        machine_work=sent.machine_work,
        vendor=sent.vendor,
        tag=sent.tag,
        quantity=Decimal(1),
        sent_on=day.on,
        expected_on=day.on + timedelta(days=15),
        slow_on=day.on + timedelta(days=35),
        component=sent.component,
        targets=sent.targets,
        words=sent.words,
    )
    send_out(job=day.job, sent=out, key=day.key("out"), by=day.builder, now=day.at)


def _take_back(day: BenchDay) -> None:
    sent = day.told.sent
    if sent is None:
        return
    back = CameBack(
        on=day.on,
        tag=sent.tag,
        checked=tuple(CheckedSize(name=name, value=value) for name, value in sent.checked.items()),
        sound=True,
    )
    order = WorksOrder.objects.get(job=day.job)
    take_back(order=order, back=back, by=day.builder, now=day.at)
    _read(day, sent.read_back)


def _work_again(day: BenchDay) -> None:
    """The options worked out again from what was measured, and issued as the next version of the quote."""
    again = work_out_again(job=day.job, by=day.builder, now=day.at)
    issue(quote=again.quote, by=day.desk, now=day.at, class_tick=True, papers=False)


def _report_findings(day: BenchDay) -> None:
    issue_findings(job=day.job, by=day.desk, now=day.at)


def _find_extra(day: BenchDay) -> None:
    """What came to light after the yes: worked out with its companions, and offered to the customer."""
    extra = day.told.extra
    if extra is None:
        return
    _find(day, extra.finding, 100)
    again = work_out_again(job=day.job, by=day.builder, now=day.at)
    assert again.proposal is not None, "the finding asks for something that was not accepted"
    offer = Offer(words=extra.words, risk=extra.risk)
    offer_worked_again(again=again.proposal, offer=offer, by=day.builder, now=day.at)


BENCH: Mapping[Act, Callable[[BenchDay], None]] = {
    "receive": _receive,
    "leave": _leave,
    "strip": _strip,
    "measure": _measure,
    "work_again": _work_again,
    "report_findings": _report_findings,
    "order": _order,
    "take_in": _take_in,
    "send_out": _send_out,
    "take_back": _take_back,
    "find_extra": _find_extra,
}
