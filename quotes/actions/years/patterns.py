"""One quote of each kind with all that comes of it, written by the actions that people use."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import datetime, timedelta
from uuid import uuid4

from django.contrib.auth.models import User
from django.utils import timezone

from quotes.actions.accepting import accept, mark_done
from quotes.actions.answers import ask, decline
from quotes.actions.bench.jobs import Intake, receive
from quotes.actions.bench.orders import Asked, send_order
from quotes.actions.bench.receipts import take_in_all
from quotes.actions.books.drafts import start_invoice
from quotes.actions.books.issuing import issue_invoice
from quotes.actions.books.payments import take_payment
from quotes.actions.drafts import keep_quote
from quotes.actions.issuing import freeze
from quotes.calc.ask.request import Request
from quotes.calc.sheet.values import Comparison
from quotes.calc.years.plan import (
    ACCEPTED_AFTER,
    DONE_AFTER,
    INVOICED_AFTER,
    ORDERED_AFTER,
    PAID_AFTER,
    PARTS_AFTER,
    RECEIVED_AFTER,
    Kind,
)
from quotes.models import (
    Acceptance,
    Engine,
    Job,
    JobStep,
    PurchaseOrder,
    Quote,
    Revision,
    Step,
)
from quotes.queries.bench.parts.drafts import drafts
from quotes.queries.bench.parts.wanted import parts_of, with_sheet

INVOICED = frozenset({"paid", "unpaid"})
BUILT: frozenset[Kind] = frozenset({"paid", "unpaid", "in_hand"})
TEXT = "Is the head done in the same week?"


@dataclass(frozen=True, slots=True)
class QuoteCourse:
    """What a quote is written from. `at` is when it was asked for."""

    engine: Engine
    request: Request
    comparison: Comparison
    by: User
    at: datetime

    def after(self, days: int) -> datetime:
        return self.at + timedelta(days=days)


def written(kind: Kind, course: QuoteCourse) -> Quote:
    """The quote of that kind, with all that became of it."""
    quote = keep_quote(
        customer=course.engine.customer,
        engine=course.engine,
        request=course.request,
        by=course.by,
        now=course.at,
    )
    if kind == "draft":
        return quote
    _issue(quote, course, course.at)
    if kind in BUILT:
        _build(kind, quote, course)
    elif kind in LATER:
        LATER[kind](quote, course)
    return quote


def _issue(quote: Quote, course: QuoteCourse, at: datetime) -> None:
    row = Quote.objects.joined().get(pk=quote.pk)
    freeze(row, course.request, course.comparison, course.by, at, class_tick=False, papers=False)


def _latest(quote: Quote) -> Revision:
    found = Quote.objects.select_related("latest__quote").get(pk=quote.pk).latest
    assert found is not None
    return found


def _revised(quote: Quote, course: QuoteCourse) -> None:
    """Issued once more after a week, with other words round it."""
    options = tuple(
        option.model_copy(update={"notes": ("Worked out once more.",)})
        for option in course.comparison.options
    )
    again = QuoteCourse(
        course.engine,
        course.request,
        course.comparison.model_copy(update={"options": options}),
        course.by,
        course.at,
    )
    _issue(quote, again, course.after(7))


def _asked(quote: Quote, course: QuoteCourse) -> None:
    ask(revision=_latest(quote), text=TEXT, name=course.engine.customer.name, now=course.after(1))


def _declined(quote: Quote, course: QuoteCourse) -> None:
    decline(
        revision=_latest(quote),
        text="Not this season.",
        name=course.engine.customer.name,
        now=course.after(3),
    )


LATER: Mapping[Kind, Callable[[Quote, QuoteCourse], None]] = {
    "revised": _revised,
    "asked": _asked,
    "declined": _declined,
}


def _build(kind: Kind, quote: Quote, course: QuoteCourse) -> None:
    customer = course.engine.customer
    build = accept(
        revision=_latest(quote),
        tier=course.comparison.options[0].tier,
        extras=(),
        name=customer.name,
        right="owner",
        telephone=customer.telephone,
        limit_sum=course.comparison.options[0].deposit,
        agreed_terms=True,
        rider_safety_read=True,
        papers=False,
        now=course.after(ACCEPTED_AFTER),
    )
    job = receive(
        engine=course.engine,
        customer=customer,
        given=Intake(brought_by=customer.name),
        key=uuid4(),
        by=course.by,
        now=course.after(RECEIVED_AFTER),
        quote=Quote.objects.get(pk=quote.pk),
    )
    orders = _order(build, course)
    if kind in INVOICED:
        for order in orders:
            _take_in(order, course)
        mark_done(acceptance=build, by=course.by, now=course.after(DONE_AFTER))
        _leave(job, course)
        _invoice(kind, build, course)


def _order(build: Acceptance, course: QuoteCourse) -> list[PurchaseOrder]:
    """All its parts that can be had, of each supplier by an order of its own."""
    at = course.after(ORDERED_AFTER)
    on = timezone.localdate(at)
    found = parts_of(list(with_sheet(Acceptance.objects.filter(pk=build.pk))), on)
    return [
        send_order(
            asked=[
                Asked(build.pk, need.pick.key, need.pick.component)
                for row in draft.rows
                for _, need in row.needs
            ],
            by=course.by,
            now=at,
        )
        for draft in drafts(on, found.values())
    ]


def _take_in(order: PurchaseOrder, course: QuoteCourse) -> None:
    at = course.after(PARTS_AFTER)
    take_in_all(order=order, on=timezone.localdate(at), key=uuid4(), by=course.by, now=at)


def _leave(job: Job, course: QuoteCourse) -> None:
    """Out of the door, without the papers of a hand-over: for those another engine has to be built."""
    at = course.after(INVOICED_AFTER)
    JobStep(job=job, step=Step.RELEASED, at=at, by=course.by).save()
    job.step, job.left_at = Step.RELEASED, at
    job.save(update_fields=["step", "left_at"])


def _invoice(kind: Kind, build: Acceptance, course: QuoteCourse) -> None:
    build = Acceptance.objects.select_related("quote__customer").get(pk=build.pk)
    at = course.after(INVOICED_AFTER)
    draft = start_invoice(build=build, by=course.by, now=at)
    invoice = issue_invoice(draft=draft, by=course.by, now=at, earlier_because="invented years of trading")
    if kind == "paid":
        paid = course.after(PAID_AFTER)
        take_payment(
            customer=course.engine.customer,
            on=timezone.localdate(paid),
            amount=invoice.due,
            method="transfer",
            key=f"years {invoice.pk}",
            reference=invoice.number,
            by=course.by,
            now=paid,
        )
