"""What evidence makes of a life: smoothly, in any order, and no more than it can say."""

from __future__ import annotations

import random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from quotes.calc.ask.fault import BadRequest
from quotes.calc.learning.law import catalogue_weight
from quotes.calc.learning.proposal import Proposal, propose, propose_by_likelihood
from quotes.calc.learning.seen import SetSeen, life_data
from quotes.calc.life.one_parameter import fit_eta
from tests.calc.learning.cast import SPRINGS, failed, law, seen, sound

few = settings(max_examples=25, deadline=None)
CATALOGUE = law()
AGES = st.floats(100, 20_000)
ROWS = st.lists(st.tuples(AGES, st.sampled_from(["failed", "sound", "past_limit"])), min_size=1, max_size=12)


def proposed(rows: list[SetSeen]) -> Proposal:
    made = propose(SPRINGS, rows, catalogue=CATALOGUE, before=CATALOGUE)
    assert made is not None
    return made


def some(rows: list[tuple[float, str]]) -> list[SetSeen]:
    return [seen(age, outcome, key=str(place)) for place, (age, outcome) in enumerate(rows)]


@few
@given(ROWS, AGES)
def test_one_more_survivor_never_shortens_a_life(rows: list[tuple[float, str]], age: float) -> None:
    before, after = proposed(some(rows)), proposed([*some(rows), seen(age, key="one more")])

    assert after.after.life >= before.after.life
    assert after.after.evidence == before.after.evidence


@few
@given(ROWS, st.randoms(use_true_random=False))
def test_the_order_of_evidence_does_not_matter(rows: list[tuple[float, str]], chance: random.Random) -> None:
    shuffled = some(rows)
    chance.shuffle(shuffled)

    assert proposed(shuffled) == proposed(some(rows))


@few
@given(ROWS)
def test_evidence_in_two_lots_comes_to_the_same_as_in_one(rows: list[tuple[float, str]]) -> None:
    whole = proposed(some(rows))
    first, rest = some(rows)[:1], some(rows)[1:]
    then = propose(SPRINGS, rest, catalogue=CATALOGUE, before=proposed(first).after)

    life = then.after.life if then else proposed(first).after.life
    assert life == pytest.approx(whole.after.life, rel=1e-9)
    weight = then.catalogue_weight if then else proposed(first).catalogue_weight
    assert weight == pytest.approx(whole.catalogue_weight, rel=1e-9)


@few
@given(ROWS)
def test_catalogue_and_shop_weigh_one_together(rows: list[tuple[float, str]]) -> None:
    made = proposed(some(rows))

    assert made.catalogue_weight + made.shop_weight == pytest.approx(1)
    assert 0 < made.catalogue_weight < 1


def test_without_evidence_there_is_nothing_to_propose_and_the_catalogue_has_all_the_weight() -> None:
    put_aside = seen(4000, put_aside="still runs in H4-20417")

    assert propose(SPRINGS, [], catalogue=CATALOGUE, before=CATALOGUE) is None
    assert propose(SPRINGS, [put_aside], catalogue=CATALOGUE, before=CATALOGUE) is None
    assert catalogue_weight(CATALOGUE, CATALOGUE) == 1


def test_much_evidence_comes_to_the_plain_estimate_of_the_shop() -> None:
    many = failed(*range(5000, 15_000, 10))
    made = proposed(many)
    plain = fit_eta(life_data(many), CATALOGUE.shape, 0.9).eta

    assert made.after.eta == pytest.approx(plain, rel=0.002)
    assert made.shop_weight > 0.99


def test_a_set_found_past_its_limit_counts_as_failed_half_way_since_it_was_last_good() -> None:
    past = seen(5000, "past_limit", entry=2000.0, seen_good=2000.0)
    half_way = seen(3500, "failed", entry=2000.0)

    assert proposed([past]).after.life == pytest.approx(proposed([half_way]).after.life)


def test_what_a_set_ran_before_anybody_watched_it_is_no_evidence() -> None:
    late = propose(SPRINGS, [seen(5000, entry=4000.0)], catalogue=CATALOGUE, before=CATALOGUE)
    whole = proposed([seen(5000)])

    assert late is not None
    assert CATALOGUE.life < late.after.life < whole.after.life


@pytest.mark.parametrize("count", [9, 10])
def test_shape_and_life_are_fitted_from_ten_failures_of_one_mode_on(count: int) -> None:
    rows = [*failed(*(4000 + 300 * place for place in range(count))), *sound(9000, 9000)]
    made = propose_by_likelihood(SPRINGS, rows, catalogue=CATALOGUE, before=CATALOGUE)

    assert (made is None) == (count < 10)
    assert proposed(rows).after.shape == CATALOGUE.shape


def test_six_broken_and_six_worn_are_not_ten_of_one_mode() -> None:
    worn = [seen(5000 + 100 * n, "past_limit", seen_good=4000.0, key=f"worn {n}") for n in range(6)]
    rows = [*failed(*range(4000, 4600, 100)), *worn, *sound(9000)]

    assert propose_by_likelihood(SPRINGS, rows, catalogue=CATALOGUE, before=CATALOGUE) is None


def test_a_fit_gives_the_life_that_goes_with_it_and_stands_on_its_own_failures() -> None:
    rows = [*failed(54, 187, 216, 240, 244, 335, 361, 373, 375, 386), *sound(*[500] * 10)]
    made = propose_by_likelihood(SPRINGS, rows, catalogue=CATALOGUE, before=CATALOGUE)

    assert made is not None
    assert made.after.shape == pytest.approx(1.7208, abs=1e-4)
    assert made.after.eta == pytest.approx(606.5, abs=0.1)
    assert made.after.life == pytest.approx(606.5 * 0.105360516 ** (1 / 1.7208), rel=1e-3)
    assert (made.after.evidence, made.shop_weight) == (10, 1)
    assert made.after.low < made.after.life < made.after.high


def test_a_wear_sharper_than_any_is_refused() -> None:
    rows = [*failed(*(4000 + place for place in range(10))), *sound(4020)]

    with pytest.raises(BadRequest, match="no wear is sharper"):
        propose_by_likelihood(SPRINGS, rows, catalogue=CATALOGUE, before=CATALOGUE)


def test_other_evidence_gives_another_fingerprint_and_the_same_the_same() -> None:
    one, again = proposed(sound(4000)), proposed(sound(4000))

    assert one.fingerprint == again.fingerprint
    assert one.fingerprint != proposed(sound(4001)).fingerprint
