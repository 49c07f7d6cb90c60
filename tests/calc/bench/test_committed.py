"""What a build is committed to never passes what was agreed and the limit that was signed."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quotes.calc.bench.again.committed import Committed, Touches

ACCEPTED, LIMIT = Decimal("3186.48"), Decimal(200)
FRESH = Committed(accepted=ACCEPTED, extra_accepted=Decimal(0), within=(), limit=LIMIT)


@pytest.mark.parametrize(
    ("within", "gross", "touches", "asked_because"),
    [
        ((), "200", (), ()),
        ((), "200.01", (), ("sum",)),
        (("80", "90"), "30", (), ()),
        (("80", "90"), "30.01", (), ("sum",)),
        ((), "10", ("safety",), ("safety",)),
        ((), "500", ("date", "life"), ("sum", "life", "date")),
        ((), "-50", (), ()),
    ],
)
def test_the_customer_is_asked_where_the_sum_or_what_it_touches_says_so(
    within: tuple[str, ...], gross: str, touches: tuple[Touches, ...], asked_because: tuple[str, ...]
) -> None:
    build = replace(FRESH, within=tuple(map(Decimal, within)))

    assert build.must_ask(Decimal(gross), touches) == asked_because


def test_what_was_saved_does_not_widen_the_limit() -> None:
    assert replace(FRESH, within=(Decimal(-500), Decimal(150))).left == Decimal(50)


sums = st.decimals(min_value=-2000, max_value=2000, places=2)


@given(
    limit=st.decimals(min_value=0, max_value=1000, places=2), found=st.lists(st.tuples(sums, st.booleans()))
)
def test_committed_never_exceeds_what_was_accepted_and_the_limit(
    limit: Decimal, found: list[tuple[Decimal, bool]]
) -> None:
    """Whatever turns up: done within the limit where nobody need be asked, else done only after a yes."""
    build = replace(FRESH, limit=limit)
    for gross, says_yes in found:
        if not build.must_ask(gross):
            build = replace(build, within=(*build.within, gross))
        elif says_yes:
            build = replace(build, extra_accepted=build.extra_accepted + gross)

        assert build.total <= build.up_to
