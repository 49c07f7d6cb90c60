"""Orders and cores for lists, pages, the job's page and the day sheet."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass
from datetime import date, timedelta

from django.db.models import Exists, F, OuterRef, Q, QuerySet, Subquery, Sum, Value
from django.db.models.functions import Coalesce

from catalogue.calc.money import ZERO
from catalogue.calc.said import say, say_count
from quotes.calc.bench.parts.needs import Difference
from quotes.calc.bench.parts.pieces import Standing
from quotes.calc.bench.said import day
from quotes.models import (
    Acceptance,
    Core,
    CoreState,
    Job,
    OrderEvent,
    OrderEventKind,
    OrderLine,
    PurchaseOrder,
)
from quotes.queries.bench.job_lines import JobLine
from quotes.queries.bench.parts.wanted import (
    BuildParts,
    build_parts,
    lines_of,
)
from quotes.queries.bench.ready import outlook_of, promised_and_now
from quotes.queries.bench.states import A_TRACE

RECENT_DAYS = 60
"""Orders of which nothing is awaited stay on the list for two months."""


@dataclass(frozen=True, slots=True)
class Listed:
    """An order with its lines and where their pieces are."""

    order: PurchaseOrder
    lines: tuple[tuple[OrderLine, Standing], ...]

    @property
    def open(self) -> bool:
        return any(not stands.done for _, stands in self.lines)

    @property
    def awaited(self) -> bool:
        return any(stands.to_come for _, stands in self.lines)

    @property
    def expected_on(self) -> date | None:
        days = [line.expected_on for line, stands in self.lines if stands.to_come and line.expected_on]
        return max(days, default=None)

    def late(self, on: date) -> bool:
        return any(
            stands.to_come and line.expected_on and line.expected_on < on for line, stands in self.lines
        )

    def words(self, on: date) -> str:
        """How the order stands, in a word or two."""
        bad = sum((stands.to_settle for _, stands in self.lines), ZERO)
        if bad:
            return say("to be sent back")
        if self.late(on):
            return say("late")
        if any(stands.of("back_ordered") for _, stands in self.lines):
            return say("on back-order")
        return say("awaited") if self.open else say("done")


def orders_listed(on: date) -> list[Listed]:
    """Orders of which something is awaited, and those of the last two months; the latest first.

    Two queries however many there are.
    """
    since = on - timedelta(days=RECENT_DAYS)
    listed = _by_order(OrderLine.objects.filter(Q(order__done_at=None) | Q(order__ordered_on__gte=since)))
    return sorted(listed, key=lambda one: (not one.open, -one.order.pk))


def orders_late(on: date, most: int) -> list[PurchaseOrder]:
    """The oldest orders with what of them is to come and was expected before that day; one query."""
    moved = OrderEvent.objects.filter(line=OuterRef("pk")).exclude(kind=OrderEventKind.BACK_ORDERED)
    gone = Subquery(moved.order_by().values("line").annotate(sum=Sum("quantity")).values("sum"))
    due = OrderLine.objects.filter(order=OuterRef("pk"), expected_on__lt=on)
    due = due.annotate(gone=Coalesce(gone, Value(ZERO))).filter(gone__lt=F("quantity") - Value(A_TRACE))
    late = PurchaseOrder.objects.filter(Exists(due), done_at=None)
    return list(late.only("number", "supplier_name", "ordered_at").order_by("ordered_at", "pk")[:most])


def _by_order(rows: QuerySet[OrderLine]) -> list[Listed]:
    by_order: dict[int, list[tuple[OrderLine, Standing]]] = defaultdict(list)
    for line, stands in lines_of(rows):
        by_order[line.order_id].append((line, stands))
    return [Listed(pairs[0][0].order, tuple(pairs)) for pairs in by_order.values()]


def order_with_lines(order: PurchaseOrder) -> Listed:
    rows = OrderLine.objects.filter(order=order).select_related("build__quote__job", "build__quote")
    return Listed(order, tuple(lines_of(rows)))


def differences(parts: BuildParts) -> tuple[Difference, ...]:
    """Articles of a build that cost something else than they were quoted at; those quoted at nothing too."""
    keys = [line.pk for line, _ in parts.lines]
    dearer = OrderEvent.objects.filter(line__in=keys, unit_cost__isnull=False, quantity__gt=0)
    paid = dict(dearer.order_by("at", "pk").values_list("line", "unit_cost"))
    found = []
    for line, stands in parts.lines:
        quantity = stands.ordered - stands.of("cancelled") - stands.of("returned")
        cost = paid.get(line.pk) or line.unit_cost
        again = line.line_key.startswith("again:")
        if quantity and (again or (line.quoted_unit_cost is not None and cost != line.quoted_unit_cost)):
            why = say("a second one, at our own cost") if again else ""
            found.append(Difference(line.description, quantity, line.quoted_unit_cost, cost, why))
    return tuple(found)


def cores_open() -> list[Core]:
    """Cores that are with us or on their way back, those due first."""
    rows = Core.objects.filter(state__in=(CoreState.HERE, CoreState.SENT)).select_related("build__quote")
    return list(rows.order_by("due_back_on", "pk"))


def days_left(core: Core, on: date) -> str:
    """How long a core may still lie with us, in words."""
    left = (core.due_back_on - on).days
    if core.state != CoreState.HERE:
        return core.get_state_display()
    if left < 0:
        return say_count("{count} day too late", "{count} days too late", -left)
    return say_count("{count} day left", "{count} days left", left) if left else say("today")


def job_line(job: Job, on: date) -> JobLine | None:
    """Parts on the job's page: whether the kit is complete, what is to order, and when it is ready."""
    build = _build(job)
    parts = build_parts(build, on) if build else None
    if build is None or parts is None:
        return None
    words, off = kit_words(parts), build.is_called_off
    if off:
        words = say("called off, nothing is to order")
    elif build.done_at is None:
        words = f"{words}; {promised_and_now(outlook_of(parts, on))}"
    return JobLine(
        title=say("Parts and ready date"),
        words=words,
        url_name="pick-list",
        args=(build.pk,),
        waits=not off and any(need.orderable for need in parts.needs),
    )


def _build(job: Job) -> Acceptance | None:
    if job.quote_id is None:
        return None
    rows = Acceptance.objects.select_related("quote__engine", "quote__job", "revision", "called_off")
    return rows.filter(quote=job.quote_id).first()


def kit_words(parts: BuildParts) -> str:
    """Whether the kit is complete, and what is to order."""
    if parts.complete:
        return say("kit complete")
    here = sum(need.complete for need in parts.needs)
    count = sum(need.orderable for need in parts.needs)
    places = {"here": here, "all": len(parts.needs), "count": count}
    if not count:
        return say("kit not complete: {here} of {all} articles here", **places)
    if not parts.order_by:
        return say("kit not complete: {here} of {all} articles here, {count} to order", **places)
    return say(
        "kit not complete: {here} of {all} articles here, {count} to order, the first by {day}",
        day=day(parts.order_by),
        **places,
    )
