"""The judge finds what was lost, doubled or half kept; else the zeros of the report would say nothing."""

from __future__ import annotations

from tests.faults.told import Sent, Standing, judged

RECORD = {"Lind": Standing(1), "Otten": Standing(2), "Quist": Standing(1, whole=False)}


def verdict_on(*sent: Sent) -> tuple[str, ...]:
    return judged(sent, lambda what, mark: RECORD.get(mark, Standing(0))).faults


def test_what_was_told_and_stands_once_is_sound() -> None:
    assert verdict_on(Sent("customer", "Lind", told=True)) == ()


def test_what_was_told_and_is_not_there_is_lost() -> None:
    assert verdict_on(Sent("customer", "Marel", told=True)) == ("customer Marel: lost",)


def test_what_nobody_was_told_of_may_be_there_or_not() -> None:
    assert verdict_on(Sent("customer", "Lind", told=False), Sent("customer", "Marel", told=False)) == ()


def test_what_stands_twice_is_doubled_whether_or_not_anybody_was_told() -> None:
    assert verdict_on(Sent("customer", "Otten", told=False)) == ("customer Otten: doubled",)


def test_what_stands_in_part_is_half_kept() -> None:
    assert verdict_on(Sent("quote", "Quist", told=False)) == ("quote Quist: half kept",)


def test_a_form_sent_again_counts_once_and_as_told_if_either_was() -> None:
    verdict = judged(
        [Sent("customer", "Lind", told=False), Sent("customer", "Lind", told=True)],
        lambda what, mark: Standing(1),
    )

    assert (verdict.told, verdict.untold) == (1, 0)
