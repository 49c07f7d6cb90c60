"""Takes a checked file of customers and engines into the records, all of it or nothing."""

from __future__ import annotations

from collections.abc import Collection, Iterable
from datetime import datetime

from django.db import transaction

from catalogue.calc.said import say
from quotes.actions.refused import Refused
from quotes.calc.intake.customer_plan import CustomersPlan, EnginePlan
from quotes.calc.intake.given_customers import CustomerGiven, EngineGiven, SegmentGiven
from quotes.models import Counter, Customer, CustomerFile, Engine, Segment
from quotes.queries.import_customers import plan_against_records

AT_ONCE = 500


class FileMismatch(Refused):
    """The records have changed since the file was checked, so that it would do something else now."""


def add_customers(
    *, given: Collection[CustomerGiven], expected: CustomersPlan, now: datetime
) -> CustomersPlan:
    """Add what a file adds to the records as they are now; returns what was done.

    FileMismatch where that is not what `expected` said, or where the file contradicts the records.
    """
    with transaction.atomic():
        _one_at_a_time()
        plan = plan_against_records(given)
        if plan != expected or plan.contradictions:
            raise FileMismatch(
                say(
                    "The records have changed since this file was checked. Nothing was taken in: look at "
                    "what it would add now."
                )
            )
        _write(plan, now)
    return plan


@transaction.atomic
def take_in_file(
    *, kept: CustomerFile, given: Collection[CustomerGiven], expected: CustomersPlan, now: datetime
) -> CustomerFile:
    """Take in a kept file and note what it added; a second press changes nothing."""
    row = CustomerFile.objects.select_for_update().get(pk=kept.pk)
    if row.applied_at is not None:
        return row
    plan = add_customers(given=given, expected=expected, now=now)
    row.applied_at = now
    row.added_customers, row.added_engines = plan.new_customers, plan.new_engines
    row.added_segments = plan.new_segments
    row.save()
    return row


def _one_at_a_time() -> None:
    """Two files at once could both find a customer missing: the second waits until the first is in."""
    Counter.objects.get_or_create(kind="customer-file", year=0)
    Counter.objects.select_for_update().get(kind="customer-file", year=0)


def _write(plan: CustomersPlan, now: datetime) -> None:
    new = [one for one in plan.customers if one.kept is None]
    rows = [_customer(one.given, now) for one in new]
    Customer.objects.bulk_create(rows, batch_size=AT_ONCE)
    owner = {id(one): row.pk for one, row in zip(new, rows, strict=True)}
    owner |= {id(one): one.kept.pk for one in plan.customers if one.kept is not None}
    pairs = [(owner[id(one)], engine) for one in plan.customers for engine in one.engines]
    added = [(engine, _engine(engine.given, customer)) for customer, engine in pairs if engine.kept is None]
    Engine.objects.bulk_create([row for _, row in added], batch_size=AT_ONCE)
    segments = [segment for engine, row in added for segment in _segments(row.pk, 0, engine.new_segments)]
    segments += _service_of_known(engine for _, engine in pairs if engine.kept and engine.new_segments)
    Segment.objects.bulk_create(segments, batch_size=AT_ONCE)


def _customer(given: CustomerGiven, now: datetime) -> Customer:
    row = Customer(
        name=given.name,
        address=given.address,
        telephone=given.telephone,
        email=given.email,
        tax_registration=given.tax_registration,
        country=given.country,
        created_at=now,
    )
    row.search_key = row.make_search_key()
    row.clean_fields()
    return row


def _engine(given: EngineGiven, customer_pk: int) -> Engine:
    row = Engine(
        customer_id=customer_pk,
        type_code=given.type_code,
        number=given.number,
        delivered=given.delivered,
        fitted=given.fitted,
        history_known=given.history_known,
        note=given.note,
    )
    row.search_key = row.make_search_key()
    row.clean_fields(exclude={"customer"})
    return row


def _segments(engine_pk: int, first: int, given: Iterable[SegmentGiven]) -> list[Segment]:
    rows = []
    for order, one in enumerate(given, start=first):
        row = Segment(
            engine_id=engine_pk,
            order=order,
            amount=one.amount,
            unit=one.unit,
            duty=one.duty,
            tier=one.tier,
            start=one.start,
            end=one.end,
        )
        row.clean_fields(exclude={"engine"})
        rows.append(row)
    return rows


def _service_of_known(engines: Iterable[EnginePlan]) -> list[Segment]:
    """Stretches that go after those in the records. An engine without any past has a known one from now."""
    rows: list[Segment] = []
    for engine in engines:
        assert engine.kept is not None
        row = Engine.objects.select_for_update().get(pk=engine.kept.pk)
        last = row.segments.order_by("order").last()
        rows += _segments(row.pk, last.order + 1 if last else 0, engine.new_segments)
        row.history_known = row.history_known or last is None
        row.version += 1
        row.save(update_fields=["history_known", "version"])
    return rows
