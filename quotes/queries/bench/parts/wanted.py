"""The parts of builds: what each takes, what was done about it, and when it must be ordered."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from typing import cast

from django.db.models import QuerySet, Sum

from catalogue.calc.engine import EngineCatalogue, LeadTime
from catalogue.calc.money import ZERO
from catalogue.calc.resolve_work import preferred_offer
from catalogue.queries import current_rows, engine_catalogues
from quotes.calc.bench.parts.measured_fit import StandingReading, Waits, When, chosen_by
from quotes.calc.bench.parts.needs import Held, LineOf, Need, needed_by, needs
from quotes.calc.bench.parts.packing import Offered, SoldAs
from quotes.calc.bench.parts.picking import AgreedWork, pick_list
from quotes.calc.bench.parts.pieces import EventKind, Standing, standing
from quotes.calc.dates.schedule import bench_hours
from quotes.calc.invoice.draft import DraftLine
from quotes.calc.invoice.from_yes import ExtraLines
from quotes.calc.sheet.values import Option
from quotes.calc.shop import Queue
from quotes.models import (
    Acceptance,
    ExtraWork,
    Measured,
    OrderEvent,
    OrderLine,
    OwnPart,
    StockUse,
    Workshop,
)
from quotes.queries.accepted import accepted_option
from quotes.queries.bench.again.committed import promised_by
from quotes.queries.bench.parts.listed import bought_lines, listed_articles, listed_offers
from quotes.queries.workshop import closed_days

OF_LINE = ("build", "line_key", "component", "quantity", "order__ordered_at")
"""What is read of an order line to say what is still to be ordered."""


@dataclass(frozen=True, slots=True)
class BuildParts:
    """Everything about the parts of one build."""

    build: Acceptance
    needs: tuple[Need, ...]
    agreed: AgreedWork
    catalogue: EngineCatalogue
    lines: tuple[tuple[OrderLine, Standing], ...]
    own_parts: tuple[OwnPart, ...]
    promised_on: date | None

    @property
    def complete(self) -> bool:
        """Whether the kit is complete: every article is here, or its owner brought it."""
        return all(need.complete for need in self.needs)

    @property
    def to_order(self) -> tuple[Need, ...]:
        return tuple(need for need in self.needs if need.to_order)

    @property
    def order_by(self) -> date | None:
        """The last day for the most urgent of what can be ordered."""
        days = [need.order_by for need in self.needs if need.orderable and need.order_by]
        return min(days, default=None)


def open_builds() -> QuerySet[Acceptance]:
    """Accepted builds whose bench work is not done, with what their parts are read from."""
    return with_sheet(Acceptance.objects.in_hand().order_by("accepted_at", "pk"))


def builds_to_order() -> QuerySet[Acceptance]:
    """The same builds with so much of each as says what is still to be ordered."""
    rows = Acceptance.objects.in_hand().select_related("quote__engine", "revision")
    read = ("tier", "extras", "ready_on", "sheet_sha256", "quote__engine__type_code", "revision__request")
    return rows.only(*read).order_by("accepted_at", "pk")


def with_sheet(rows: QuerySet[Acceptance]) -> QuerySet[Acceptance]:
    joined = ("quote__engine", "quote__customer", "revision", "quote__job", "called_off")
    return rows.select_related(*joined).defer("quote__request")


def build_parts(build: Acceptance, on: date) -> BuildParts | None:
    """The parts of one build; None where the catalogue has no such engine any more."""
    return parts_of([build], on).get(build.pk)


def parts_of(
    builds: Sequence[Acceptance], on: date, options: Mapping[int, Option] | None = None
) -> Mapping[int, BuildParts]:
    """The parts of builds, by their key; the same number of queries for one build and for many.

    A build whose engine type the catalogue no longer has is left out. `options` are those accepted, where the
    builds and, with that, their order lines are read with no more than says what is to be ordered.
    """
    known = engine_catalogues({build.quote.engine.type_code for build in builds})
    workshop = Workshop.objects.get_or_default()
    queue = Queue(workshop.bench_hours_a_day, ZERO, closed_days(workshop, on))
    read = _Read([build.pk for build in builds], workshop.renew_policy_parts, options or {})
    lines = [one for build in builds for _, one in bought_lines(build, read.extra[build.pk])]
    offers = listed_offers(lines) | offers_now() if known else {}
    return {
        build.pk: _parts(build, known[build.quote.engine.type_code], read, offers, queue)
        for build in builds
        if build.quote.engine.type_code in known
    }


def offers_now() -> dict[SoldAs, Offered]:
    """How each article is bought today: the preferred offer, else the cheapest."""
    rows = current_rows()
    names = {row.code: row.name for row in rows.suppliers}
    found = {}
    for part in rows.parts:
        offer = preferred_offer(part)
        lead = LeadTime(offer.lead_typical_days, offer.lead_slow_days)
        name = names[offer.supplier]
        found[name, part.number] = Offered(
            offer.supplier,
            name,
            offer.cost,
            offer.pack,
            offer.minimum_quantity,
            lead,
        )
    return found


class _Read:
    """The rows of builds, each sort read once."""

    def __init__(self, keys: Sequence[int], policy: bool, options: Mapping[int, Option]) -> None:
        self.policy, self.options = policy, options
        self.extra: dict[int, list[ExtraWork]] = defaultdict(list)
        for row in ExtraWork.objects.filter(build__in=keys).agreed().order_by("index"):
            self.extra[row.build_id].append(row)
        self.lines: dict[int | None, list[tuple[OrderLine, Standing]]] = defaultdict(list)
        ordered = OrderLine.objects.filter(build__in=keys)
        for line, stands in lines_of(ordered.only(*OF_LINE) if options else ordered):
            self.lines[line.build_id].append((line, stands))
        stock = StockUse.objects.filter(build__in=keys).order_by().values_list("build", "component")
        self.stock: dict[int, dict[str, Decimal]] = defaultdict(dict)
        for build, component, quantity in stock.annotate(Sum("quantity")):
            self.stock[build][component] = quantity
        self.own: dict[int, list[OwnPart]] = defaultdict(list)
        for own in OwnPart.objects.filter(build__in=keys):
            self.own[own.build_id].append(own)
        self.readings: dict[int, list[StandingReading]] = defaultdict(list)
        rows = Measured.objects.standing().filter(job__quote__acceptance__in=keys)
        for build, component, when, pk in rows.values_list(
            "job__quote__acceptance", "component", "when", "pk"
        ):
            self.readings[build].append(StandingReading(component, cast(When, when), pk))


def lines_of(rows: QuerySet[OrderLine]) -> list[tuple[OrderLine, Standing]]:
    """Order lines, each with where its pieces are; two queries."""
    lines = list(rows.select_related("order").defer("order__sheet").order_by("order", "position"))
    events: dict[int, list[tuple[EventKind, Decimal]]] = defaultdict(list)
    told = OrderEvent.objects.filter(line__in=[line.pk for line in lines]).order_by("at", "pk")
    for line, kind, quantity in told.values_list("line", "kind", "quantity"):
        events[line].append((cast(EventKind, kind), quantity))
    return [(line, standing(line.quantity, events[line.pk])) for line in lines]


def _parts(
    build: Acceptance,
    catalogue: EngineCatalogue,
    read: _Read,
    offers: Mapping[SoldAs, Offered],
    queue: Queue,
) -> BuildParts:
    agreed = _agreed(build, read)
    own = tuple(read.own[build.pk])
    picks = pick_list(agreed, catalogue, own_parts=brought_by_customer(own))
    held: dict[LineOf, tuple[Standing, ...]] = {}
    for line, stands in read.lines[build.pk]:
        where = (line.line_key, line.component)
        held[where] = (*held.get(where, ()), stands)
    promised = promised_by(build, read.extra[build.pk])
    hours = bench_hours(
        catalogue, [code for code in agreed.option.operations if code in catalogue.operations]
    )
    found = needs(
        picks,
        Held(held, read.stock[build.pk]),
        offers,
        _fits({pick.component for pick in picks}, agreed, catalogue, read.readings[build.pk]),
        needed_on=needed_by(promised, hours, queue) if promised else None,
        closed_days=queue.closed_days,
    )
    return BuildParts(build, found, agreed, catalogue, tuple(read.lines[build.pk]), own, promised)


def brought_by_customer(rows: Iterable[OwnPart]) -> dict[str, Decimal]:
    """Pieces that the customer brought and that are fit to use, by component."""
    found: dict[str, Decimal] = defaultdict(lambda: ZERO)
    for row in rows:
        if row.fit_to_use:
            found[row.component] += row.quantity
    return dict(found)


def _agreed(build: Acceptance, read: _Read) -> AgreedWork:
    option = read.options.get(build.pk)
    return agreed_of(build, read.extra[build.pk], policy_parts=read.policy, option=option)


def agreed_of(
    build: Acceptance, extra: Iterable[ExtraWork], *, policy_parts: bool, option: Option | None = None
) -> AgreedWork:
    """What was agreed of a build, with its extra work that was agreed to."""
    rows = list(extra)
    extra_work = tuple(
        ExtraLines(row.index, tuple(DraftLine.model_validate(line) for line in row.lines)) for row in rows
    )
    return AgreedWork(
        option=option or accepted_option(build),
        ticked=tuple(build.extras),
        extra_work=extra_work,
        in_chassis=build.revision.request.get("engine", {}).get("delivered") == "in_chassis",
        policy_parts=policy_parts,
        articles=listed_articles(build, rows),
    )


def machine_work_of(agreed: AgreedWork) -> frozenset[str]:
    """Machine work that the build sends out, by what was accepted."""
    return frozenset(line.code for line in agreed.option.lines if line.kind == "machine_work")


def _fits(
    components: Iterable[str],
    agreed: AgreedWork,
    catalogue: EngineCatalogue,
    readings: Sequence[StandingReading],
) -> dict[str, StandingReading | Waits | None]:
    plain = catalogue.engine_type.rod_type == "split_plain"
    work = machine_work_of(agreed)
    return {
        code: chosen_by(code, readings, plain_bearings=plain, machine_work=work)
        for code in components
        if code in catalogue.components
    }
