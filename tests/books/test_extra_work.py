"""Extra work: numbered in its build, offered, answered once by somebody, never changed afterwards."""

from __future__ import annotations

from decimal import Decimal

import pytest
from django.core.exceptions import ValidationError
from django.db import IntegrityError, connection, transaction

from quotes.actions.books.extra_work import answer_extra_work, offer_extra_work
from quotes.actions.books.refused import AlreadyAnswered, DraftFaults
from quotes.models import Acceptance, ExtraWork, IssuedForGood
from tests.books import cast
from tests.books.cast import LATER, NOW
from tests.cast import builder, desk


def answer(extra: ExtraWork, **change: object) -> ExtraWork:
    fields: dict[str, object] = {
        "accepted": True,
        "name": "Marel Otten",
        "how": "By telephone, 000 555 0199",
        "by": desk(),
        "now": LATER,
    }
    return answer_extra_work(extra=extra, **(fields | change))  # type: ignore[arg-type]


def test_extra_work_is_numbered_within_its_build(build: Acceptance) -> None:
    offered = [cast.extra_work(build, accepted=None, words=words) for words in ("One", "Another")]

    assert [extra.number for extra in offered] == ["Q-2026-0001/1", "Q-2026-0001/2"]


def test_extra_work_is_priced_with_its_tax_when_it_is_offered(build: Acceptance) -> None:
    extra = cast.extra_work(build, accepted=None)

    assert (extra.net, extra.tax, extra.gross) == (Decimal(485), Decimal(97), Decimal(582))
    assert [line["key"] for line in extra.lines] == ["work:1:1", "work:1:2"]


def test_an_answer_says_who_when_and_how_and_who_wrote_it_down(build: Acceptance) -> None:
    extra = answer(cast.extra_work(build, accepted=None), note="Wants the old sleeve back")

    extra = ExtraWork.objects.get(pk=extra.pk)
    assert (extra.state, extra.answered_by, extra.answered_at) == ("accepted", "Marel Otten", LATER)
    assert extra.answered_how == "By telephone, 000 555 0199; written down by Dessa Quill"
    assert extra.answer_note == "Wants the old sleeve back"


def test_a_call_without_the_number_called_is_no_answer(build: Acceptance) -> None:
    extra = cast.extra_work(build, accepted=None)

    with pytest.raises(ValidationError, match="says a call but no number"):
        answer(extra, how="Rang him up on Friday")

    assert ExtraWork.objects.get().state == "offered"


@pytest.mark.parametrize("field", ["name", "how"])
def test_an_answer_by_nobody_or_in_no_way_is_refused_at_its_field(build: Acceptance, field: str) -> None:
    extra = cast.extra_work(build, accepted=None)

    with pytest.raises(ValidationError) as told:
        answer(extra, **{field: "  "})

    assert list(told.value.message_dict) == [field]


def test_a_written_answer_needs_no_number(build: Acceptance) -> None:
    extra = answer(cast.extra_work(build, accepted=None), accepted=False, how="In writing")

    assert (extra.state, extra.answered_how) == ("declined", "In writing; written down by Dessa Quill")


def test_the_same_answer_twice_is_one(build: Acceptance) -> None:
    extra = cast.extra_work(build)

    assert answer(extra).answered_at == NOW


def test_another_answer_is_refused(build: Acceptance) -> None:
    extra = cast.extra_work(build)

    with pytest.raises(AlreadyAnswered, match="Marel Otten has accepted Q-2026-0001/1 already"):
        answer(extra, accepted=False)


def test_the_same_offer_twice_is_one(build: Acceptance) -> None:
    first = cast.extra_work(build, accepted=None)

    assert cast.extra_work(build, accepted=None) == first


def test_extra_work_without_a_line_is_refused(build: Acceptance) -> None:
    with pytest.raises(ValidationError, match="has no price"):
        offer_extra_work(build=build, words="Something", lines=[], by=builder(), now=NOW)


def test_extra_work_at_a_tax_that_is_not_known_is_refused_at_its_line(build: Acceptance) -> None:
    lines = [cast.line(tax_code="reduced")]

    with pytest.raises(DraftFaults, match=r"lines\.1\.tax_code: reduced"):
        offer_extra_work(build=build, words="Something", lines=lines, by=builder(), now=NOW)


def test_what_was_offered_does_not_change(build: Acceptance) -> None:
    extra = cast.extra_work(build, accepted=None)
    extra.words = "Something else"

    with pytest.raises(IssuedForGood):
        extra.save()
    with pytest.raises(IssuedForGood):
        extra.delete()


@pytest.mark.parametrize(
    "change", ["words = 'x'", "gross = 1", "answered_by = 'x'", "state = 'declined'", "lines = '[]'"]
)
def test_the_database_itself_keeps_offer_and_answer(build: Acceptance, change: str) -> None:
    cast.extra_work(build)

    with pytest.raises(IntegrityError, match="for good"), transaction.atomic(), connection.cursor() as cursor:
        cursor.execute(f"UPDATE quotes_extrawork SET {change}")
