"""A life that the owner approves, and takes back: what reads it, and what does not move."""

from __future__ import annotations

from typing import Any
from uuid import uuid4

import pytest
from django.core.exceptions import ValidationError
from django.db import DatabaseError, connection, transaction

from catalogue.actions.entries import count_up
from catalogue.actions.lives import take_back_change
from catalogue.models import ComponentLife, LifeChange
from catalogue.queries import engine_catalogue
from catalogue.queries.rows import version
from quotes.actions.learning.approving import EvidenceMoved, approve_life
from quotes.models import Revision
from tests.cast import owner
from tests.learning.cast import CLUTCH, approved, clutch, entered, proposed
from tests.quotes import cast
from tests.quotes.cast import NOW


def life() -> tuple[float, float, float]:
    """What the sums read of the 600's clutch."""
    part = engine_catalogue("four600").components[CLUTCH]
    return part.lives["miles"].typical, part.shape_on("miles"), part.evidence_on("miles")


def taken_back(change: LifeChange, reason: str = "The book was misread") -> LifeChange:
    return take_back_change(change=change, reason=reason, key=uuid4(), by=owner(), now=NOW)


def test_nothing_changes_until_the_owner_approves_and_then_every_sum_reads_it() -> None:
    entered()
    before, mark = life(), version()
    proposal = proposed()
    assert life() == before == (2500, 2, 2)

    approved()

    assert life()[0] == pytest.approx(proposal.after.life)
    assert life()[0] > 2500
    assert life()[1:] == (2, 2)
    assert version() != mark
    catalogue = engine_catalogue("four600")
    assert catalogue.teardowns_seen == 1
    assert "our own record, approved by" in catalogue.components[CLUTCH].source_on("miles")


def test_taken_back_it_is_as_if_it_had_never_been_and_both_are_kept() -> None:
    entered()
    before = life()
    change = approved()

    back = taken_back(change)

    assert life() == before
    assert engine_catalogue("four600").teardowns_seen == 0
    assert (back.takes_back, back.reason) == (change, "The book was misread")
    assert change.data["rows"][0]["recorded"] == "4,000 miles"
    assert clutch().proposal is not None


def test_evidence_that_a_change_counts_is_not_counted_again() -> None:
    entered()
    first = approved()
    assert clutch().proposal is None
    later = entered(engine="H4-21127", outcome="failed")
    assert [row.key for row in proposed().data] == [str(later.pk)]

    second = approved()

    assert second.rests_on == first
    assert len(second.counted) == len(second.teardowns) == 2
    assert life()[2] == 3
    with pytest.raises(ValidationError, match="take that one back first"):
        taken_back(first)
    taken_back(second)
    assert life()[0] == pytest.approx(first.typical)


def test_a_change_of_one_engine_type_leaves_the_others() -> None:
    entered()
    entered(engine="T9-1", type_code="four1000", outcome="failed")

    change = approved("four600")

    assert len(change.counted) == 1
    assert life()[0] > 2500
    assert engine_catalogue("four1000").components[CLUTCH].lives["miles"].typical == 2500
    assert len(proposed().data) == 2
    assert (clutch().replaces, clutch("four600").replaces) == (("600 inline four",), ())
    approved()
    assert clutch().replaces == ()
    assert life() == pytest.approx((clutch("four1000").before.life, 2, 3))


def test_a_catalogue_that_changes_later_does_not_fight_it() -> None:
    entered()
    change = approved()

    ComponentLife.objects.filter(component=CLUTCH, basis="miles").update(typical=2600)
    with transaction.atomic():
        count_up()

    assert life()[0] == pytest.approx(change.typical)
    assert clutch().catalogue.life == 2600


def test_issued_quotes_do_not_move() -> None:
    cast.workshop()
    revision = cast.issued(cast.draft(cast.engine(cast.customer())), papers=False)
    stored = Revision.objects.filter(pk=revision.pk).values_list("sheet", "sheet_sha256").get()
    entered()

    taken_back(approved())

    assert Revision.objects.filter(pk=revision.pk).values_list("sheet", "sheet_sha256").get() == stored


def test_what_is_approved_is_what_was_shown_and_twice_is_once() -> None:
    entered()
    shown = proposed()
    told: dict[str, Any] = {
        "about": shown.about,
        "rule": "learnt",
        "shown": shown.fingerprint,
        "reason": "Three seasons of clutches",
        "by": owner(),
        "now": NOW,
    }
    entered(engine="H4-21127")
    with pytest.raises(EvidenceMoved):
        approve_life(**told, key=uuid4())
    assert not LifeChange.objects.exists()

    key = uuid4()
    again = approved(key=key)
    assert approve_life(**told, key=key) == again


def test_without_a_reason_nothing_is_approved_or_taken_back() -> None:
    entered()
    shown = proposed()
    with pytest.raises(ValidationError, match="say why"):
        approve_life(
            about=shown.about,
            rule="learnt",
            shown=shown.fingerprint,
            reason=" ",
            key=uuid4(),
            by=owner(),
            now=NOW,
        )
    change = approved()
    with pytest.raises(ValidationError, match="say why"):
        taken_back(change, " ")
    assert LifeChange.objects.count() == 1


@pytest.mark.parametrize("statement", ["UPDATE {} SET reason = 'another'", "DELETE FROM {}"])
def test_the_database_lets_nobody_alter_a_decision(statement: str) -> None:
    entered()
    approved()

    with pytest.raises(DatabaseError, match="issued for good"), transaction.atomic():
        connection.cursor().execute(statement.format("catalogue_lifechange"))
