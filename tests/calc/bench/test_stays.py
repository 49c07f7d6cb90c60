"""Parts that move between engines: their age is what they ran, wherever that was."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from decimal import Decimal
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as some

from quotes.calc.ask.request import Carried, Request, Segment
from quotes.calc.bench.ages.part_age import age_in_words
from quotes.calc.bench.ages.reconditioned import counts_for, recondition
from quotes.calc.bench.ages.run_in_stays import history_of, ran_in, service_in
from quotes.calc.bench.ages.stays import CannotMove, InEngine, PartLife, Stay, fit, scrap, take_out
from quotes.calc.life.clock import used_shares
from tests.calc.asked import asked, ran
from tests.cast import shipped

DAY = date(2026, 3, 1)
MONTH = timedelta(days=30)
FOUR = shipped("four600")
NEW = PartLife(serial="K-117", type_code="four600")


def engine(key: int = 1, service: float = 4100, **change: str) -> InEngine:
    told = {"name": f"H4-{key}", "type_code": "four600", "unit": "mi", **change}
    return InEngine(key=key, service=Decimal(str(service)), **told)  # type: ignore[arg-type]


def age(life: PartLife, unit: str = "mi") -> Decimal:
    history = history_of(life, FOUR)
    assert history is not None
    return service_in(history, unit, FOUR)  # type: ignore[arg-type]


def stay(start: float, end: float | None, *history: Segment, **change: object) -> Stay:
    ended = None if end is None else Decimal(str(end))
    whole = Stay(1, "H4-1", "mi", Decimal(str(start)), DAY, ended, DAY + MONTH if ended else None)
    return replace(whole, history=history, **change)  # type: ignore[arg-type]


def test_a_part_counts_what_each_engine_ran_while_it_was_in_it() -> None:
    life = take_out(fit(NEW, engine(1, 4100), DAY), engine(1, 4600), DAY + MONTH)
    life = fit(life, engine(2, 9000), DAY + MONTH)
    assert life.stay is not None
    moved_on = replace(life, stays=(life.stays[0], replace(life.stays[1], now=Decimal(9300))))

    assert [one.ran for one in moved_on.stays] == [500, 300]


def test_a_part_is_taken_out_before_it_goes_elsewhere() -> None:
    with pytest.raises(CannotMove, match="K-117 is in engine H4-1: take it out there first"):
        fit(fit(NEW, engine(1), DAY), engine(2), DAY)


def test_a_part_goes_into_its_own_type_only() -> None:
    with pytest.raises(CannotMove, match="is of a four600, and engine H4-1 is a single450"):
        fit(NEW, engine(1, type_code="single450"), DAY)


def test_service_that_runs_backwards_is_refused_when_it_is_taken_out() -> None:
    with pytest.raises(CannotMove, match=r"4,000 miles is less than the 4,100 miles that engine H4-1"):
        take_out(fit(NEW, engine(1, 4100), DAY), engine(1, 4000), DAY)


def test_service_that_runs_backwards_is_refused_when_it_comes_back_into_an_engine() -> None:
    life = take_out(fit(NEW, engine(1, 4100), DAY), engine(1, 4600), DAY)
    with pytest.raises(CannotMove, match=r"4,500 miles is less than the 4,600 miles"):
        fit(life, engine(1, 4500), DAY)


def test_the_day_does_not_run_backwards_either() -> None:
    life = take_out(fit(NEW, engine(1), DAY), engine(1), DAY + MONTH)
    with pytest.raises(CannotMove, match="is before 2026-03-31, when K-117 was moved last"):
        fit(life, engine(2), DAY)


def test_what_is_scrapped_goes_nowhere() -> None:
    with pytest.raises(CannotMove, match="K-117 was scrapped on 2026-03-01"):
        fit(scrap(NEW, DAY), engine(1), DAY)


def test_a_part_is_not_scrapped_inside_an_engine() -> None:
    with pytest.raises(CannotMove, match="take it out there first"):
        scrap(fit(NEW, engine(1), DAY), DAY)


def test_kilometres_at_one_end_are_held_against_miles_at_the_other() -> None:
    life = take_out(fit(NEW, engine(1, 1000), DAY), engine(1, 3218.69, unit="km"), DAY)
    assert life.stays[0].ran == pytest.approx(Decimal(1000), abs=Decimal("0.01"))


def test_hours_are_not_held_against_miles() -> None:
    with pytest.raises(CannotMove, match="say the engine's service in miles"):
        take_out(fit(NEW, engine(1), DAY), engine(1, 12, unit="h"), DAY)


def test_a_stay_has_the_duty_and_tune_that_its_engine_ran_then() -> None:
    """From 900 to 1,600 miles: the end of the sprint stretch and the beginning of the endurance one."""
    cut = ran_in(stay(900, 1600, ran(1000), ran(2000, duty="endurance", tier="full")), FOUR)
    assert cut is not None
    assert [(one.amount, one.duty, one.tier) for one in cut] == [
        (Decimal(100), "sprint", "refresh"),
        (Decimal(600), "endurance", "full"),
    ]


def test_service_beyond_what_is_written_down_counts_as_the_last_stretch() -> None:
    cut = ran_in(stay(900, 1300, ran(1000, tier="mild")), FOUR)
    assert cut is not None
    assert [(one.amount, one.tier) for one in cut] == [(Decimal(100), "mild"), (Decimal(300), "mild")]


def test_an_engine_whose_service_is_not_known_leaves_the_part_unknown() -> None:
    assert history_of(replace(NEW, stays=(stay(900, None, now=None),)), FOUR) is None
    assert history_of(replace(NEW, before=None), FOUR) is None


def test_the_days_of_a_stretch_end_where_the_part_was_taken_out() -> None:
    dated = ran(1000).model_copy(update={"start": DAY - MONTH, "end": DAY + 12 * MONTH})
    cut = ran_in(stay(0, 1000, dated), FOUR)
    assert cut is not None
    assert (cut[0].start, cut[0].end) == (DAY, DAY + MONTH)


def test_an_age_is_said_in_one_unit_where_it_can_be() -> None:
    assert age_in_words([ran(1609.344, "km"), ran(400)], FOUR) == "1,400 miles"
    assert age_in_words([ran(12, "h", "motocross"), ran(400)], FOUR) == "12 hours and 400 miles"
    assert age_in_words([], FOUR) == "new"
    assert age_in_words(None, FOUR) == "not known"


AMOUNTS = some.decimals(min_value=0, max_value=5000, places=2)
MOVES = some.lists(some.tuples(some.sampled_from(["fit", "run", "take out"]), some.integers(0, 4), AMOUNTS))


@given(moves=MOVES, before=AMOUNTS)
def test_over_any_moves_an_age_never_falls_and_is_the_sum_of_its_stays(
    moves: list[tuple[str, int, Decimal]], before: Decimal
) -> None:
    """Five like engines and one crank, whatever is tried with it."""
    service = dict.fromkeys(range(5), Decimal(0))
    life = replace(NEW, before=(ran(float(before)),))
    last = age(life)
    for move, key, amount in moves:
        try:
            if move == "fit":
                life = fit(life, engine(key, float(service[key])), DAY)
            elif move == "take out":
                life = take_out(
                    life, engine(key, float(service[life.stay.engine if life.stay else key])), DAY
                )
            else:
                service[key] += amount
        except CannotMove:
            assert (life.stay is None) == (move == "take out")
        life = _seen_now(life, service)

        assert sum(one.end is None for one in life.stays) <= 1
        assert age(life) >= last
        last = age(life)
        assert last == before + sum((one.ran for one in life.stays if one.ran is not None), Decimal(0))


def _seen_now(life: PartLife, service: dict[int, Decimal]) -> PartLife:
    """The life as it is read again, with what each engine has run by now."""
    return replace(
        life,
        stays=tuple(
            replace(
                one,
                now=service[one.engine] if one.end is None else None,
                history=(ran(float(service[one.engine])),),
            )
            for one in life.stays
        ),
    )


@given(cuts=some.lists(AMOUNTS, min_size=1, max_size=4), stretches=some.lists(AMOUNTS, max_size=4))
def test_an_engine_run_by_one_part_after_another_is_run_once(
    cuts: list[Decimal], stretches: list[Decimal]
) -> None:
    """Parts that follow one another in one engine have run together what it ran."""
    history = [ran(float(amount), duty=duty) for amount, duty in zip(stretches, _duties(), strict=False)]
    ends = sorted([Decimal(0), *cuts])
    pieces = [ran_in(stay(float(a), float(b), *history, duty="sprint"), FOUR) for a, b in _pairs(ends)]
    amounts = [sum((one.amount for one in piece or ()), Decimal(0)) for piece in pieces]

    assert amounts == [b - a for a, b in _pairs(ends)]


def _duties() -> list[str]:
    return ["sprint", "endurance", "track_day", "sprint"]


def _pairs(ends: list[Decimal]) -> list[tuple[Decimal, Decimal]]:
    return list(pairwise(ends))


def test_a_reconditioned_crank_counts_for_what_is_left_of_its_age_wherever_it_goes() -> None:
    """Half of its life is given back: of 20,000 of 25,000 miles 12,500 count on."""
    old = replace(NEW, before=(ran(20_000),))
    inside = fit(old, engine(1, 4100), DAY)
    share = counts_for(history_of(inside, FOUR), "crankshaft", FOUR, DAY)
    assert share == Decimal("0.6250")
    mended = recondition(inside, share, engine(1, 4100), DAY)

    assert (age(mended), mended.cycles) == (Decimal(12_500), 1)
    assert mended.stay is not None
    elsewhere = fit(take_out(mended, engine(1, 4100), DAY), engine(2, 9000), DAY)
    assert age(elsewhere) == 12_500


def test_reconditioning_makes_nothing_older() -> None:
    assert counts_for((ran(2000),), "crankshaft", FOUR, DAY) == 1


def test_what_can_not_be_reconditioned_is_not() -> None:
    assert counts_for((ran(2000),), "rod_bearing", FOUR, DAY) is None


def test_nothing_is_reconditioned_twice_before_it_has_run() -> None:
    shelf = take_out(fit(NEW, engine(1), DAY), engine(1), DAY)
    with pytest.raises(CannotMove, match="has run nothing since it was reconditioned"):
        recondition(recondition(shelf, Decimal(1), None, DAY), Decimal(1), None, DAY)
    inside = recondition(fit(NEW, engine(1), DAY), Decimal(1), engine(1), DAY)
    with pytest.raises(CannotMove, match="has run nothing since it was reconditioned"):
        recondition(inside, Decimal(1), engine(1), DAY)


def test_reconditionings_are_counted_with_the_part_and_not_with_the_engine() -> None:
    request = holding("crankshaft", ran(12_500))
    often = {"build_cycles": {"crankshaft": 2, "con_rod": 1}}
    engine_too = request.engine.model_validate(request.engine.model_dump() | often)
    assert (engine_too.cycles_of("crankshaft"), engine_too.cycles_of("con_rod")) == (0, 1)


def holding(component: str, *history: Segment) -> Request:
    """An engine of 4,100 miles that holds a part with an age of its own."""
    carried = {component: Carried(serial="K-117", history=history)}
    return asked("four600", ran(4100), engine={"carried": carried, "renewed": {}})


def test_the_sums_take_the_parts_age_and_not_the_engines() -> None:
    used = used_shares(holding("crankshaft", ran(12_500)), FOUR)
    assert used["crankshaft"].share == pytest.approx(0.5)
    assert used["main_bearing"].share == pytest.approx(4100 / 7000)


def test_a_new_part_in_an_old_engine_is_new() -> None:
    assert used_shares(holding("crankshaft"), FOUR)["crankshaft"].share == 0.0


def test_a_part_whose_age_nobody_knows_is_unknown_in_an_engine_that_is_known() -> None:
    engine = {"carried": {"rod_bearing": Carried(serial="B-2", history=None)}}
    used = used_shares(asked("four600", ran(100), engine=engine), FOUR)
    assert (used["rod_bearing"].known, used["rod_bolt"].known) == (False, True)


def test_a_renewal_of_the_engine_resets_nothing_of_a_part_with_its_own_age() -> None:
    request = holding("crankshaft", ran(12_500))
    renewed = {"crankshaft": {"at": "4100", "unit": "mi"}}
    engine_too = request.engine.model_validate(request.engine.model_dump() | {"renewed": renewed})
    again = request.model_copy(update={"engine": engine_too})
    assert used_shares(again, FOUR)["crankshaft"].share == pytest.approx(0.5)


def test_a_request_without_such_parts_is_stored_as_it_always_was() -> None:
    """Stored quotes carry fingerprints: what was not there when they were made must not be there now."""
    assert "carried" not in asked("four600", ran(4100)).engine.model_dump(mode="json")


def test_a_request_with_such_parts_comes_back_as_it_was() -> None:
    request = holding("crankshaft", ran(12_500))
    assert Request.model_validate(request.model_dump(mode="json", by_alias=True)) == request
