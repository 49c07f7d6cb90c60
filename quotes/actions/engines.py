"""Writes on engines: the engine with its stretches of service and its renewed parts, always as a whole."""

from __future__ import annotations

from django.core.exceptions import ValidationError
from django.db import transaction

from catalogue.calc.said import say
from quotes.actions.refused import StaleDraft
from quotes.actions.saving import save_checked
from quotes.calc.ask.request import EngineAsked, Request
from quotes.calc.ask.request_changes import engine_changes
from quotes.calc.sheet.issued_values import RevisionChange
from quotes.models import Customer, Engine, RenewedPart, Segment
from quotes.queries.engines import engine_asked
from quotes.queries.last_change import last_changed_by


@transaction.atomic
def create_engine(*, customer: Customer, number: str, asked: EngineAsked, note: str = "") -> Engine:
    """A new engine of a customer with its history; ValidationError by field where it can't be kept."""
    engine = Engine(customer=customer)
    _write(engine, number=number, asked=asked, note=note)
    return engine


@transaction.atomic
def update_engine(
    *, engine: Engine, number: str, asked: EngineAsked, expected_version: int, note: str | None = None
) -> Engine:
    """Change an engine and replace its history; StaleDraft where it was changed since `expected_version`."""
    row = Engine.objects.select_for_update().get(pk=engine.pk)
    # the parts have those ages, the tests that power
    asked = asked.model_copy(update={"carried": {}, "measured_power": None})
    note = row.note if note is None else note
    stored = engine_asked(row)
    if stored == asked and row.number == number and row.note == note:
        return row
    if row.version != expected_version:
        renumbered = [RevisionChange(what=say("engine number"), before=row.number, after=number)]
        changes = [*(renumbered if row.number != number else ()), *engine_changes(stored, asked)]
        raise StaleDraft(changes, last_changed_by(row), row.version)
    row.version += 1
    row.segments.all().delete()
    row.renewed_parts.all().delete()
    _write(row, number=number, asked=asked, note=note)
    return row


def _write(engine: Engine, *, number: str, asked: EngineAsked, note: str) -> None:
    engine.type_code, engine.number, engine.note = asked.type, number.strip(), note
    engine.delivered, engine.fitted = asked.delivered, asked.fitted or ""
    engine.history_known = asked.history is not None
    engine.build_cycles = dict(asked.build_cycles)
    engine.search_key = engine.make_search_key()
    save_checked(engine)
    for order, stretch in enumerate(asked.history or ()):
        save_checked(Segment(engine=engine, order=order, **stretch.model_dump()))
    for component, renewal in asked.renewed.items():
        save_checked(RenewedPart(engine=engine, component=component, **renewal.model_dump()))


def refuse_other_engine(customer: Customer, engine: Engine, request: Request) -> None:
    """ValidationError where the engine is another customer's or of another type than the request says."""
    said = ""
    if engine.customer_id != customer.pk:
        said = say(
            "Engine {engine} belongs to another customer than {customer}.", engine=engine, customer=customer
        )
    elif engine.type_code != request.engine.type:
        said = say(
            "Engine {engine} is a {type}, not a {asked}.",
            engine=engine,
            type=engine.type_code,
            asked=request.engine.type,
        )
    if said:
        raise ValidationError({"engine": said})
