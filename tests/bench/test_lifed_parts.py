"""A team's five like engines and its pool of cranks: a crank's life goes where the crank goes."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta
from decimal import Decimal

import pytest
from django.core.exceptions import ValidationError

from quotes.actions.bench.lifed_parts import Before, register
from quotes.actions.bench.part_moves import (
    MovedWhen,
    NotMoved,
    fit,
    recondition,
    recondition_held,
    scrap,
    take_out,
)
from quotes.actions.engines import update_engine
from quotes.calc.ask.request import Renewal, Request
from quotes.models import Engine, LifedPart, PartStay, Quote
from quotes.queries.bench.ages.after import engine_now, with_after
from quotes.queries.bench.ages.lasted import lasted_of
from quotes.queries.bench.ages.lifed_parts import moved_since, part_seen, parts_in
from quotes.queries.engines import engine_asked
from quotes.queries.sheets import request_of
from tests.bench.cast import built_job
from tests.bench.cast import job as received
from tests.bench.teardown_rows import read
from tests.bench.way_out_cast import handed_over, ready_job
from tests.books.page_forms import typed
from tests.cast import builder
from tests.quotes import cast
from tests.quotes.card_payload import signed_in
from tests.quotes.cast import NOW, ON
from tests.shipped import load_shipped

NEW = Before(Decimal(0))
OLD = Before(Decimal(21_000), "mi", "sprint")
DAY = timedelta(days=1)


@dataclass(frozen=True)
class Pool:
    engines: list[Engine]
    old: LifedPart
    new: LifedPart


def crank(serial: str, before: Before = NEW) -> LifedPart:
    return register(component="crankshaft", type_code="four600", serial=serial, before=before)


def put(part: LifedPart, engine: Engine, days: int = -30, **told: object) -> PartStay:
    return fit(part=part, engine=engine, move=MovedWhen(ON + days * DAY, **told), by=builder(), now=NOW)  # type: ignore[arg-type]


def out(part: LifedPart, days: int = 0, **told: object) -> PartStay:
    return take_out(part=part, move=MovedWhen(ON + days * DAY, **told), by=builder(), now=NOW)  # type: ignore[arg-type]


def runs(engine: Engine, miles: int) -> None:
    """So much more in the engine's record, as the desk writes it down."""
    row = Engine.objects.get(pk=engine.pk)
    asked = engine_asked(row)
    assert asked.history
    more = asked.history[-1].model_copy(update={"amount": Decimal(miles), "start": None, "end": None})
    asked = asked.model_copy(update={"history": (*asked.history, more)})
    update_engine(engine=row, number=row.number, asked=asked, expected_version=row.version)


def reread(engine: Engine) -> Engine:
    return with_after(Engine.objects.filter(pk=engine.pk)).get()


def age(part: LifedPart) -> str:
    seen = part_seen(part.pk)
    assert seen is not None
    return seen.age


@pytest.fixture
def pool(db: None) -> Pool:
    """Five 600 fours of 4,100 miles; an old crank in the first, a new one in the second."""
    load_shipped()
    cast.workshop()
    team = cast.customer()
    engines = [cast.engine(team, f"H4-{number}") for number in range(1, 6)]
    old, new = crank("K-1", OLD), crank("K-2")
    put(old, engines[0])
    put(new, engines[1])
    return Pool(engines, old, new)


def test_two_cranks_are_swapped_and_each_quote_counts_the_one_that_is_in_the_engine(pool: Pool) -> None:
    first, second, *_ = pool.engines
    runs(first, 500)
    runs(second, 200)
    out(pool.old)
    out(pool.new)
    put(pool.old, second, 0)
    put(pool.new, first, 0)
    runs(first, 100)

    assert (age(pool.old), age(pool.new)) == ("21,500 miles", "300 miles")
    assert ran_by_the_crank_in(quoted(second)) == ("K-1", Decimal(21_500))
    assert ran_by_the_crank_in(quoted(first)) == ("K-2", Decimal(300))


def quoted(engine: Engine) -> Request:
    """What a quote is worked out from that the desk makes for a known engine."""
    client = signed_in()
    card = typed(client.get("/quotes/new/", {"engine": engine.pk}), do="keep", planned__duty="sprint")
    answer = client.post("/quotes/new/", card)
    return request_of(Quote.objects.get(pk=int(answer["Location"].strip("/").rsplit("/", 1)[1])))


def test_a_quote_says_that_a_crank_was_swapped_since_until_its_card_is_kept_again(pool: Pool) -> None:
    engine = pool.engines[2]
    request = quoted(engine)
    assert moved_since(engine, request.engine) == ""
    out(pool.old)
    put(pool.old, engine, 0)
    assert moved_since(engine, request.engine) == "fitted crankshaft K-1"
    after = quoted(engine)
    out(pool.old)
    assert moved_since(engine, after.engine) == "taken out crankshaft K-1"


def ran_by_the_crank_in(request: Request) -> tuple[str, Decimal]:
    crank = request.engine.carried["crankshaft"]
    return crank.serial, sum((one.amount for one in crank.history or ()), Decimal(0))


def test_a_part_is_in_one_engine_at_a_time(pool: Pool) -> None:
    with pytest.raises(NotMoved, match="K-1 is in engine H4-1: take it out there first"):
        put(pool.old, pool.engines[2], 0)


def test_an_engine_holds_one_of_a_kind(pool: Pool) -> None:
    out(pool.new)
    with pytest.raises(NotMoved, match="Engine H4-1 holds K-1 in that place"):
        put(pool.new, pool.engines[0], 0)


def test_fitted_twice_by_two_presses_is_fitted_once(pool: Pool) -> None:
    assert put(pool.old, pool.engines[0]) == put(pool.old, pool.engines[0])


def test_an_engine_that_nobody_knows_takes_no_part(pool: Pool) -> None:
    Engine.objects.filter(pk=pool.engines[4].pk).update(history_known=False)
    with pytest.raises(NotMoved, match="Nobody knows how far engine H4-5 has run"):
        put(crank("K-3"), pool.engines[4])


def test_an_engine_that_only_its_owner_knows_takes_a_part_at_what_he_stated(pool: Pool) -> None:
    Engine.objects.filter(pk=pool.engines[4].pk).update(history_known=False)
    received(engine=pool.engines[4], service_amount=Decimal(3900))
    assert put(crank("K-3"), pool.engines[4], 0).from_amount == 3900


def test_it_was_swapped_at_the_track_before_the_engine_had_run_all_of_that(pool: Pool) -> None:
    runs(pool.engines[0], 500)
    out(pool.old, service=Decimal(4300))
    assert age(pool.old) == "21,200 miles"


@pytest.mark.parametrize(
    ("service", "said"), [(Decimal(5000), "at most 4,100 miles"), (Decimal(4000), "an engine does not run")]
)
def test_service_that_the_engine_has_not_run_is_refused(pool: Pool, service: Decimal, said: str) -> None:
    with pytest.raises((NotMoved, ValidationError), match=said):
        out(pool.old, service=service)


def test_renewing_pistons_resets_nothing_of_the_crank(pool: Pool) -> None:
    runs(pool.engines[0], 500)
    renew(pool.engines[0], "piston")
    assert engine_now(reread(pool.engines[0])).carried["crankshaft"].serial == "K-1"
    assert age(pool.old) == "21,500 miles"


def test_a_crank_that_was_renewed_since_is_not_the_one_that_was_fitted(pool: Pool) -> None:
    runs(pool.engines[0], 500)
    renew(pool.engines[0], "crankshaft")
    (seen,) = parts_in(pool.engines[0])

    assert not engine_now(reread(pool.engines[0])).carried
    assert seen.forgotten == (
        "The record of engine H4-1 has its crankshaft renewed at 4,600 miles: was this one taken out then?"
    )


def test_a_crank_that_was_fitted_at_a_visit_is_the_one_that_its_release_notes_as_renewed(pool: Pool) -> None:
    """The engine ran an hour on the dyno before it left, so the release notes a little more service."""
    received(engine=pool.engines[2])
    crank_3 = crank("K-3")
    put(crank_3, pool.engines[2], 0)
    renew(pool.engines[2], "crankshaft", on=ON + DAY)

    assert engine_now(reread(pool.engines[2])).carried["crankshaft"].serial == "K-3"


def renew(engine: Engine, component: str, on: date = ON) -> None:
    row = Engine.objects.get(pk=engine.pk)
    renewed = {component: Renewal(at=Decimal(4600), unit="mi", on=on)}
    asked = engine_asked(row).model_copy(update={"renewed": renewed})
    update_engine(engine=row, number=row.number, asked=asked, expected_version=row.version)


def test_what_a_teardown_teaches_is_of_the_crank_that_came_in(pool: Pool) -> None:
    """It is changed on the bench before the evidence is gathered."""
    job = received(engine=pool.engines[0])
    read(job, "crankshaft", verdict="within")
    out(pool.old)
    out(pool.new)
    put(pool.new, pool.engines[0], 0)

    (lasted,) = (one for one in lasted_of(job, ON) if one.component == "crankshaft")
    assert (lasted.age.amount, lasted.entry) == (Decimal(21_000), Decimal(0))


def test_what_bears_the_same_mark_moves_with_it(pool: Pool) -> None:
    head, valves = (
        register(component=one, type_code="four600", serial="H-7", before=NEW)
        for one in ("cylinder_head", "valve_intake")
    )
    put(head, pool.engines[0], alike=True)
    assert [seen.row for seen in parts_in(pool.engines[0])] == [pool.old, head, valves]
    out(valves, alike=True)
    assert [seen.row for seen in parts_in(pool.engines[0])] == [pool.old]


def test_a_part_is_entered_once(pool: Pool) -> None:
    with pytest.raises(ValidationError, match="'K-1' is entered already as crankshaft of this type"):
        crank(" K-1 ")


def test_an_age_before_is_said_with_its_unit_and_use(pool: Pool) -> None:
    with pytest.raises(ValidationError) as wrong:
        crank("K-9", Before(Decimal(300), "mi"))
    assert set(wrong.value.message_dict) == {"ran_before_duty"}


def test_a_crank_that_was_reconditioned_in_a_job_goes_on_in_its_engine_with_half_its_life(pool: Pool) -> None:
    recondition(part=pool.old, on=ON, by=builder(), now=NOW)

    carried = engine_now(reread(pool.engines[0])).carried["crankshaft"]
    assert (age(pool.old), carried.cycles) == ("12,499 miles", 1)
    assert [stay.counts_for for stay in pool.old.stays.all()] == [Decimal("0.5952"), None]


def test_what_a_job_reconditioned_is_entered_once_for_the_part_that_the_engine_holds(pool: Pool) -> None:
    of = received(engine=pool.engines[0])
    for _ in range(2):
        recondition_held(job=of, components=["crankshaft", "cylinder_head"], by=builder(), now=NOW)
    assert engine_now(reread(pool.engines[0])).carried["crankshaft"].cycles == 1


def test_a_hand_over_leaves_each_part_with_the_age_that_the_work_left_it(db: None) -> None:
    """Springs new and seats cut, as agreed; the crank was not touched."""
    load_shipped()
    of = built_job()
    Engine.objects.filter(pk=of.engine_id).update(history_known=True)
    parts = {
        component: register(component=component, type_code="four600", serial="P-1", before=OLD)
        for component in ("crankshaft", "valve_seat", "valve_spring")
    }
    for part in parts.values():
        put(part, Engine.objects.get(pk=of.engine_id))

    handed_over(ready_job(of))

    assert {code: age(part) for code, part in parts.items()} == {
        "crankshaft": "21,000 miles",
        "valve_seat": "0 miles",
        "valve_spring": "21,000 miles",
    }
    held = engine_now(reread(of.engine)).carried
    assert {code: part.cycles for code, part in held.items()} == {"crankshaft": 0, "valve_seat": 1}


def test_what_the_books_know_no_cure_for_is_not_reconditioned(pool: Pool) -> None:
    bearings = register(component="rod_bearing", type_code="four600", serial="B-1", before=NEW)
    with pytest.raises(NotMoved, match="it is renewed or left"):
        recondition(part=bearings, on=ON, by=builder(), now=NOW)


def test_a_scrapped_crank_goes_nowhere(pool: Pool) -> None:
    out(pool.old)
    scrap(part=pool.old, on=ON, now=NOW)
    with pytest.raises(NotMoved, match="was scrapped"):
        put(pool.old, pool.engines[0], 0)
