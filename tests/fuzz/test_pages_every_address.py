"""A slice of the fuzz: every address with wild arguments, parameters and fields, and never an error."""

from __future__ import annotations

from collections.abc import Callable
from itertools import count
from typing import Any

import pytest
from hypothesis import HealthCheck, Phase, given, seed, settings
from hypothesis import strategies as st

from tests.bench.cast import stripped_job
from tests.cast import books, desk, owner
from tests.fuzz.asking import Found, ask
from tests.fuzz.inputs import of_address
from tests.fuzz.site import PAPERS, Site, addresses, asked_names, sessions
from tests.fuzz.watch import Watch
from tests.shipped import load_shipped

EACH = 1
"""Inputs for each address; `make fuzz` gives some thirty times as many, and forms, files and commands."""


@pytest.fixture
def site(db: None) -> Site:
    """A job on the bench with its accepted quote; its number stands for every other. No paper is drawn."""
    load_shipped()
    job = stripped_job()
    standing = Site(sessions(owner(), desk(), books()), addresses=addresses(), names=asked_names())
    for address in standing.addresses:
        keys = [str(job.pk) if sort == "int" else "four600" for sort, _ in address.arguments]
        if not address.route.endswith(PAPERS):
            standing.real[address.route] = [address.path(keys)]
    return standing


def test_no_address_answers_wild_input_with_an_error_or_half_a_write(site: Site) -> None:
    watch, found = Watch(), Found()

    for address in site.addresses:
        _each(of_address(site, address), lambda asked: ask(asked, watch, found))

    assert found.inputs.total() >= EACH * len(site.addresses) > 200
    assert not found.errors, "\n".join(found.errors.values())
    assert not found.half_writes, "\n".join(found.half_writes.values())


def _each(inputs: st.SearchStrategy[Any], work: Callable[[Any], None]) -> None:
    given_so_far = count()

    @seed(7)
    @settings(
        max_examples=EACH + 1,
        deadline=None,
        database=None,
        phases=[Phase.generate],
        suppress_health_check=list(HealthCheck),
    )
    @given(inputs)
    def one(asked: Any) -> None:
        # The first is always the simplest that there is.
        if next(given_so_far):
            work(asked)

    one()
