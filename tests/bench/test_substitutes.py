"""Substitutes, own parts, cores, and the ready date that follows every event."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from decimal import Decimal
from uuid import uuid4

import pytest
from django.core.exceptions import ValidationError

from quotes.actions.bench.cores import CoreBrought, bring_own_part, open_core, send_core, settle_core
from quotes.actions.bench.order_again import order_again
from quotes.actions.bench.parts_refused import CoreNotThere, ReplacedAlready, WaitsForYes
from quotes.actions.bench.substitutes import Instead, drop_substitute, order_substitute, propose_substitute
from quotes.actions.books.extra_work import answer_extra_work
from quotes.calc.bench.ready import Outlook
from quotes.models import Acceptance, Core, ExtraWork, OrderLine, OwnPart, PurchaseOrder, Substitute
from quotes.queries.bench.ready import promised_and_now, ready_of
from quotes.queries.books.build import build_account
from tests.bench.parts_cast import LATER, NEXT_WEEK, ordered, parts, real_build, told
from tests.cast import desk
from tests.quotes.cast import NOW, ON
from tests.shipped import load_shipped

DUE = timedelta(days=7)


@pytest.fixture
def of(db: None) -> Acceptance:
    load_shipped()
    return real_build()


@pytest.fixture
def line(of: Acceptance) -> OrderLine:
    return ordered(of, "valve_spring").lines.get()


def instead(line: OrderLine, **change: object) -> Substitute:
    price = next(
        row for row in parts(build_of(line)).agreed.option.lines if row.component == line.component
    ).unit_price
    plain = Instead(
        part_number="X-77",
        description="Springs of another maker",
        supplier=line.order.supplier,
        unit_cost=Decimal(9),
        unit_price=price,
        why="None to be had before the season",
        grade="stock",
        expected_on=NEXT_WEEK,
    )
    asked = replace(plain, **change)  # type: ignore[arg-type]
    return propose_substitute(line=line, instead=asked, key=uuid4(), by=desk(), now=NOW)


def build_of(line: OrderLine) -> Acceptance:
    assert line.build is not None
    return line.build


def need_words(of: Acceptance, component: str = "valve_spring") -> list[str]:
    return [need.words() for need in parts(of).needs if need.pick.component == component]


def test_at_the_same_price_grade_and_life_nobody_is_asked(of: Acceptance, line: OrderLine) -> None:
    row = instead(line)

    order = order_substitute(substitute=row, by=desk(), now=NOW)

    made = order.lines.get()
    assert (made.replaces, made.part_number, made.line_key) == (line, "X-77", line.line_key)
    assert need_words(of) == ["16 ordered"]
    assert not ExtraWork.objects.exists()


@pytest.mark.parametrize(
    ("change", "touches"),
    [
        ({"unit_price": Decimal(5)}, ["sum"]),
        ({"unit_price": Decimal(50)}, ["sum"]),
        ({"grade": "performance"}, ["life"]),
        ({"life_note": "Half the life"}, ["life"]),
    ],
)
def test_cheaper_dearer_other_grade_and_other_life_all_ask(
    line: OrderLine, change: dict[str, object], touches: list[str]
) -> None:
    row = instead(line, **change)

    assert row.extra_work is not None
    assert set(touches) <= set(row.extra_work.touches)
    with pytest.raises(WaitsForYes):
        order_substitute(substitute=row, by=desk(), now=NOW)
    assert PurchaseOrder.objects.count() == 1


def test_after_the_yes_it_is_ordered_in_the_place_of_the_old_and_priced_as_agreed(
    of: Acceptance, line: OrderLine
) -> None:
    told(line, "received", 4)
    row = instead(line, unit_price=Decimal(50), unit_cost=Decimal(30))
    assert row.extra_work is not None
    answer_extra_work(
        extra=row.extra_work, accepted=True, name="Marel Otten", how="In writing", by=desk(), now=NOW
    )
    assert need_words(of) == ["4 here, 12 ordered", "12 to order"]

    order = order_substitute(substitute=row, by=desk(), now=LATER)

    made = order.lines.get()
    assert (int(made.quantity), made.unit_cost) == (12, Decimal(30))
    assert made.line_key == f"work:{row.extra_work.index}:2"
    assert need_words(of) == ["4 here", "12 ordered"]
    with pytest.raises(ReplacedAlready):
        order_substitute(substitute=row, by=desk(), now=LATER)


def test_a_no_to_the_substitute_orders_nothing(line: OrderLine) -> None:
    row = instead(line, unit_price=Decimal(50))
    assert row.extra_work is not None
    answer_extra_work(
        extra=row.extra_work, accepted=False, name="Marel Otten", how="In writing", by=desk(), now=NOW
    )

    with pytest.raises(WaitsForYes, match="declined"):
        order_substitute(substitute=row, by=desk(), now=NOW)


def test_one_that_was_dropped_is_not_ordered(line: OrderLine) -> None:
    row = drop_substitute(substitute=instead(line), now=NOW)

    with pytest.raises(ReplacedAlready):
        order_substitute(substitute=row, by=desk(), now=NOW)


def test_one_spoilt_here_is_ordered_again_and_no_customer_pays(of: Acceptance, line: OrderLine) -> None:
    told(line, "received", 16)
    key = uuid4()

    orders = {
        order_again(line=line, quantity=Decimal(1), why="Dropped", key=key, by=desk(), now=LATER)
        for _ in range(2)
    }

    (order,) = orders
    again = order.lines.get()
    assert again.quoted_unit_cost is None
    assert again.line_key.startswith("again:")
    assert need_words(of) == ["16 here"]
    with pytest.raises(ValidationError, match="as many as came"):
        order_again(line=line, quantity=Decimal(17), why="Dropped", key=uuid4(), by=desk(), now=LATER)


def test_what_the_customer_brought_is_not_charged(of: Acceptance) -> None:
    before = build_account(of, ON).accepted_gross
    brought = CoreBrought("valve_spring", "Springs of his own", Decimal(16), ON, "As new", fit_to_use=True)
    bring_own_part(build=of, brought=brought, key=uuid4(), by=desk(), now=NOW)

    account = build_account(of, ON)

    (springs,) = [row.line for row in account.lines if row.line.component == "valve_spring"]
    assert springs.own_part
    assert springs.unit_price == Decimal(0)
    assert account.accepted_gross < before


def test_a_part_that_is_not_fit_to_use_needs_words_and_is_ordered_as_before(of: Acceptance) -> None:
    brought = CoreBrought("valve_spring", "Springs of his own", Decimal(16), ON, "", fit_to_use=False)
    with pytest.raises(ValidationError, match="not fit to use"):
        bring_own_part(build=of, brought=brought, key=uuid4(), by=desk(), now=NOW)

    key = uuid4()
    for _ in range(2):
        bring_own_part(build=of, brought=replace(brought, condition="Rusty"), key=key, by=desk(), now=NOW)

    assert OwnPart.objects.count() == 1
    assert need_words(of) == ["16 to order"]


def core(of: Acceptance) -> Core:
    return open_core(
        build=of, description="Crankshaft", supplier="main", deposit=Decimal(150), on=ON, by=desk()
    )


def test_a_core_is_written_down_once_and_settled_only_after_it_was_sent(of: Acceptance) -> None:
    row = core(of)
    assert core(of) == row
    with pytest.raises(CoreNotThere):
        settle_core(core=row, outcome="refunded", on=ON, by=desk(), now=NOW)
    sent = send_core(core=row, on=ON, by=desk(), now=NOW)
    with pytest.raises(ValidationError, match="why it was refused"):
        settle_core(core=sent, outcome="refused", on=ON, by=desk(), now=NOW)

    done = settle_core(core=sent, outcome="refused", on=ON, by=desk(), now=NOW, note="Cracked")

    assert (done.state, done.note) == ("refused", "Cracked")


def outlook(of: Acceptance, on: date = NEXT_WEEK) -> Outlook:
    found = ready_of(Acceptance.objects.select_related("quote__engine", "revision").get(pk=of.pk), on)
    assert found is not None
    return found


def test_the_ready_date_follows_every_event(of: Acceptance) -> None:
    line = ordered(of, "gear_2").lines.get()
    awaited = outlook(of)

    told(line, "back_ordered", 1, promised_on=date(2027, 4, 30))
    later = outlook(of)
    told(line, "received", 1)
    here = outlook(of)

    assert later.ready.typical > awaited.ready.typical
    assert later.late
    assert "as things stand by" in promised_and_now(later)
    assert here.ready.p80 <= awaited.ready.p80
    assert (
        (here.chance_by_promised or 0) >= (awaited.chance_by_promised or 0) > (later.chance_by_promised or 0)
    )
    assert outlook(of) == here
