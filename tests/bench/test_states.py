"""Where jobs stand, as the list reads it and as one job's page says it."""

from __future__ import annotations

from datetime import timedelta
from decimal import Decimal
from typing import Any
from uuid import uuid4

import pytest

from quotes.actions.bench.jobs import hold, move
from quotes.calc.bench.state import STATES
from quotes.models import Job, OrderEvent, OrderLine, PurchaseOrder, Quote, WorksOrder
from quotes.queries.bench.jobs import jobs_listed
from quotes.queries.bench.states import state_of
from tests.bench.cast import LATER, NOW, ON, job, leave, stripped_job
from tests.books.cast import comparison, extra_work, invoiced
from tests.cast import builder, desk
from tests.quotes import cast

pytestmark = pytest.mark.django_db


def state(row: Job) -> str:
    """As the list has it, which must be what the page says."""
    word = STATES[jobs_listed(ON).get(pk=row.pk).place]  # type: ignore[attr-defined]
    assert word == state_of(row)
    return word


def ordered(row: Job, quantity: str = "4") -> OrderLine:
    assert row.quote is not None
    order = PurchaseOrder.objects.create(
        number=f"P-{uuid4().hex[:8]}",
        supplier="fenwright",
        supplier_name="Fenwright Parts",
        sheet={},
        sheet_sha256="",
        ordered_on=ON,
        ordered_at=NOW,
        ordered_by=desk(),
    )
    return OrderLine.objects.create(
        order=order,
        position=1,
        build=row.quote.acceptance,
        part_number="S-VSP",
        description="Valve springs",
        unit="each",
        quantity=Decimal(quantity),
        unit_cost=Decimal(11),
    )


def came(line: OrderLine, kind: str, quantity: str) -> None:
    OrderEvent.objects.create(line=line, kind=kind, quantity=Decimal(quantity), on=ON, at=NOW, by=desk())


def sent_out(row: Job, **change: Any) -> WorksOrder:
    fields: dict[str, Any] = {
        "number": f"M-{uuid4().hex[:8]}",
        "machine_work": "seat_cut",
        "name": "Seats cut",
        "vendor": "Hollin Machine Works",
        "tag": row.tag,
        "quantity": 16,
        "expected_cost": 320,
        "sheet": {},
        "sheet_sha256": "",
        "sent_on": ON,
        "expected_on": ON,
        "slow_on": ON,
        "at": NOW,
        "by": desk(),
    }
    return WorksOrder.objects.create(job=row, **(fields | change))


def test_from_the_door_to_the_findings() -> None:
    row = job()
    assert state(row) == "received"
    leave(row)
    assert state(row) == "authorised for teardown"
    move(job=row, step="stripped", by=builder(), now=NOW)
    assert state(row) == "stripped and measured"
    move(job=row, step="findings", by=desk(), now=NOW)
    assert state(row) == "findings issued"


def test_a_quote_issued_before_the_findings_is_not_the_quote_of_them() -> None:
    row = job(quote=cast.draft(cast.engine(cast.customer())))
    quote = Quote.objects.get()
    cast.issued(quote, papers=False)
    leave(row)
    move(job=row, step="stripped", by=builder(), now=NOW)
    move(job=row, step="findings", by=desk(), now=NOW + timedelta(hours=2))
    assert state(row) == "findings issued"
    cast.issued(quote, now=LATER, comparison=comparison(), papers=False)
    assert state(row) == "quoted"


def test_a_quote_issued_again_unchanged_after_the_findings_is_the_quote_of_them() -> None:
    row = stripped_job(job(quote=cast.draft(cast.engine(cast.customer()))))
    quote = Quote.objects.get()
    kept = cast.issued(quote, papers=False)
    move(job=row, step="findings", by=desk(), now=NOW + timedelta(hours=2))
    assert cast.issued(quote, now=LATER, papers=False) == kept
    assert state(row) == "quoted"


def test_what_a_build_waits_for_and_that_it_goes_on_when_all_is_here() -> None:
    row = stripped_job()
    assert state(row) == "approved"
    line, out = ordered(row), sent_out(row)
    came(line, "received", "3")
    assert state(row) == "waiting for parts"
    came(line, "cancelled", "1")
    assert state(row) == "waiting for machine work"
    out.back_on, out.sound = ON, True
    out.save(update_fields=["back_on", "sound"])
    assert state(row) == "approved"
    move(job=row, step="assembling", by=builder(), now=NOW)
    assert state(row) == "assembling"


def test_extra_work_without_an_answer_and_a_hold_go_before_the_bench() -> None:
    row = stripped_job()
    assert row.quote is not None
    move(job=row, step="assembling", by=builder(), now=NOW)
    extra_work(row.quote.acceptance, accepted=None)
    assert state(row) == "extra work waiting"
    hold(job=row, because="The customer does not answer", by=desk(), now=NOW)
    assert state(row) == "on hold"


def test_ready_invoiced_and_in_service() -> None:
    row = stripped_job()
    assert row.quote is not None
    for step in ("assembling", "testing", "ready"):
        move(job=row, step=step, by=builder(), now=NOW)
        assert state(row) == step
    invoiced(row.quote.acceptance)
    assert state(row) == "invoiced"
    move(job=row, step="released", by=desk(), now=NOW)
    assert state(row) == "in service"
    job(engine=row.engine, now=LATER)
    assert state(row) == "back for the next"


def test_a_no_to_the_quote_asks_what_becomes_of_the_engine() -> None:
    row = job(quote=cast.draft(cast.engine(cast.customer())))
    leave(row)
    move(job=row, step="stripped", by=builder(), now=NOW)
    Quote.objects.update(declined_at=NOW)
    assert state(row) == "declined"
