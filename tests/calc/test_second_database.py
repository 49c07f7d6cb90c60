"""Of the tests that go to both databases, those that are left out on the second show it nothing new."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from tests.second_database import Statement, needed

STATEMENTS = st.frozensets(
    st.tuples(st.sampled_from(("SELECT", "INSERT")), st.just(""), st.booleans(), st.integers(0, 2))
)
SHOWN = st.dictionaries(st.sampled_from("abcdefgh"), STATEMENTS)


@given(SHOWN, st.frozensets(st.sampled_from("abcdefgh")))
def test_every_statement_comes_still_and_who_commits_stays(
    shown: dict[str, frozenset[Statement]], commits: frozenset[str]
) -> None:
    kept = needed(shown, {}, commits)
    assert set().union(*shown.values()) == set().union(*(shown[name] for name in kept))
    assert commits & shown.keys() <= kept


def test_the_quicker_of_two_that_show_the_same_is_kept() -> None:
    one: Statement = ("SELECT", "", False, 1)
    assert needed({"slow": {one}, "quick": {one}}, {"slow": 2.0, "quick": 0.1}, ()) == {"quick"}


def test_the_same_with_a_fault_or_with_more_rows_is_something_else() -> None:
    shown: dict[str, set[Statement]] = {
        "plain": {("SELECT", "", False, 1)},
        "many": {("SELECT", "", False, 2)},
        "refused": {("SELECT", "IntegrityError", False, 0)},
    }
    assert needed(shown, {}, ()) == shown.keys()
