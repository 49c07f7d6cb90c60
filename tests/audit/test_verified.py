"""What is done to the record behind the site's back is named by `manage.py verify`, a line each."""

from __future__ import annotations

from collections.abc import Callable
from decimal import Decimal

import pytest

from quotes.actions.bench.outcomes import set_shop_factor
from quotes.models import AuditEntry, AuditHead, AuditWords, ShopFactorChange
from tests.audit.written import written
from tests.books.test_verify import change, run, unprotected, verified
from tests.cast import owner
from tests.quotes import cast

pytestmark = pytest.mark.django_db


@pytest.fixture(autouse=True)
def recorded() -> None:
    cast.workshop()
    set_shop_factor(factor=Decimal("1.2"), reason="Its record", expected=Decimal(1), by=owner(), now=cast.NOW)
    written()


def cut(table: str, where: str) -> None:
    with unprotected():
        run(f"DELETE FROM {table} WHERE {where}")


def cut_off_the_tail() -> None:
    last = AuditHead.objects.get().count
    cut("quotes_auditwords", f"entry_id = {last}")
    cut("quotes_auditentry", f"number = {last}")


def test_the_end_of_the_chain_is_said_so_that_it_can_be_noted_down() -> None:
    head = AuditHead.objects.get()
    found = verified()
    assert found.ended == 0, found.lines
    assert f"Note: the record of changes ends with entry {head.count:,}, hash {head.hash}" in found.ends


@pytest.mark.parametrize(
    ("harm", "line"),
    [
        (
            lambda: change(AuditEntry, of={"number": 1}, by_id="7"),
            "Change 1: its own hash: expected ",
        ),
        (
            lambda: change(AuditWords, of={"entry__number": 1}, told='{"name":[null,"Other","salt"]}'),
            "Change 1: digest of what it says: expected ",
        ),
        (cut_off_the_tail, "Record of changes: its last entry: expected number "),
        (
            lambda: change(ShopFactorChange, reason="Another"),
            ": reason as told by change ",
        ),
        (
            lambda: cut("quotes_shopfactorchange", "true"),
            ": its row: expected the one of change ",
        ),
    ],
)
def test_what_was_broken_is_named(harm: Callable[[], None], line: str) -> None:
    harm()
    found = verified()
    assert found.ended == 1
    assert [one for one in found.lines if line in one], found.lines
