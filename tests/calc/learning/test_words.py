"""What a proposal says."""

from __future__ import annotations

import pytest

from quotes.calc.learning.proposal import Proposal, propose, propose_by_likelihood
from quotes.calc.learning.seen import Counts, SetSeen
from quotes.calc.learning.words import HABITS, alone_in_words, counts_in_words, sentences, weight_in_words
from tests.calc.learning.cast import SPRINGS, failed, law, seen, sound

CATALOGUE = law()


def said(rows: list[SetSeen]) -> str:
    made = propose(SPRINGS, rows, catalogue=CATALOGUE, before=CATALOGUE)
    assert made is not None
    return plain(made)


def plain(made: Proposal) -> str:
    return " ".join(sentences(made)).replace("\N{NO-BREAK SPACE}", " ")


def test_survivors_alone_give_a_life_from_below_and_the_rule_is_named() -> None:
    """2 sets sound at 6,000: (2 x 6000^3 / -ln 0.1)^(1/3) is 5,725, and a tenth has failed by 2,704."""
    words = said(sound(6000, 6000))

    assert "2 still sound" in words
    assert "90 % sure that it is at least 2,704 miles (success-run rule)" in words
    assert HABITS in words


def test_a_mixed_record_says_counts_weights_and_why_the_shape_stays() -> None:
    """By hand: 2 x 9528^3 and 5000^3 + 6000^3 make 3 x 8838^3; of that 16 % is ours."""
    words = said([*failed(5000), *sound(6000)])

    assert "2 sets from 2 strip-downs or reports, watched for 11,000 miles" in words
    assert "1 failed and 1 still sound" in words
    assert "was 4,500 miles and becomes 4,174 miles" in words
    assert "The shape stays 3: below 10 failures of one kind" in words
    assert "Our own record has 16 % of the weight and the catalogue 84 %." in words
    assert "success-run" not in words


def test_a_group_by_itself_has_a_life_with_its_bounds_or_one_from_below() -> None:
    """None failed: as above. Two did: 6000 x 0.1054^(1/3) = 2,834, and by the tables of chi-square, 12.592 at
    6 degrees and 0.711 at 4, (4 x 6000^3 / 12.592)^(1/3) and (4 x 6000^3 / 0.711)^(1/3) times the same.
    """
    told = [alone_in_words(rows, CATALOGUE, "miles") for rows in (sound(6000, 6000), failed(6000, 6000))]

    assert [words.replace("\N{NO-BREAK SPACE}", " ") for words in told] == [
        "at least 2,704 miles",
        "2,834 miles (1,934 to 5,041 miles)",
    ]


def test_one_set_past_its_limit_that_nobody_saw_good_says_too_little_by_itself() -> None:
    """It may have passed it on its first mile."""
    assert alone_in_words([seen(6000, "past_limit")], CATALOGUE, "miles") == "too little to say"


def test_a_fit_says_its_bounds_and_that_the_catalogue_has_no_weight_left() -> None:
    rows = [*failed(54, 187, 216, 240, 244, 335, 361, 373, 375, 386), *sound(*[500] * 10)]
    made = propose_by_likelihood(SPRINGS, rows, catalogue=CATALOGUE, before=CATALOGUE)

    assert made is not None
    assert "shape 1.7 (90 % sure: 1.0 to 2.7) and characteristic life 607 miles" in plain(made)
    assert "The catalogue's shape of 3.0 lies outside them" in plain(made)
    assert "The catalogue has no weight left; the life would stand on 10 failures." in plain(made)


@pytest.mark.parametrize(
    ("counts", "words"),
    [
        (Counts(0, 0, 0), "nothing seen yet"),
        (Counts(0, 0, 3), "3 still sound"),
        (Counts(2, 1, 5), "2 failed, 1 found past its limit and 5 still sound"),
        (Counts(0, 4, 0), "4 found past their limit"),
    ],
)
def test_only_what_there_is_is_counted_in_words(counts: Counts, words: str) -> None:
    assert counts_in_words(counts) == words


@pytest.mark.parametrize(("share", "words"), [(0.0, "0 %"), (0.003, "1 %"), (0.997, "99 %"), (1.0, "100 %")])
def test_no_weight_is_said_to_be_all_where_the_other_has_some(share: float, words: str) -> None:
    assert weight_in_words(share).replace("\N{NO-BREAK SPACE}", " ") == words
