"""Keeping a call: what was said is frozen, and pressing twice keeps it once."""

from __future__ import annotations

from datetime import date, timedelta
from decimal import Decimal
from typing import Any

import pytest
from django.core.exceptions import ValidationError

from quotes.actions.booking import cancel_booking
from quotes.actions.enquiry import (
    EnquiryClosed,
    EnquiryDetails,
    drop_enquiry,
    quote_enquiry,
    update_enquiry,
    write_down,
)
from quotes.actions.refused import StaleDraft
from quotes.models import BookingTerms, Engine, Enquiry, EnquiryState, Quote, Workshop
from quotes.queries.enquiry import enquiry_sheet, said_of
from tests.cast import desk
from tests.quotes import cast, enquiry_cast
from tests.quotes.cast import NOW
from tests.sample_sheet import sample_comparison

pytestmark = pytest.mark.usefixtures("workshop")
REFRESH = sample_comparison().option("refresh")


def state(row: Enquiry) -> EnquiryState:
    return next(one for one in EnquiryState if Enquiry.objects.in_state(one).filter(pk=row.pk).exists())


def test_the_band_said_is_the_worked_one_widened_and_rounded_outward(engine: Engine) -> None:
    said = said_of(enquiry_cast.enquiry(engine)).options[0]
    assert said.gross == REFRESH.gross
    assert said.low <= min(REFRESH.gross.low, REFRESH.gross.typical * Decimal("0.9")) < said.low + 100
    assert said.high >= max(REFRESH.gross.high, REFRESH.gross.typical * Decimal("1.2")) > said.high - 100
    assert said.low % 100 == said.high % 100 == 0


def test_the_owner_sets_how_wide_and_how_round_a_band_is(engine: Engine) -> None:
    Workshop.objects.update(spoken_below_pct=50, spoken_above_pct=100)
    BookingTerms.objects.create(id=1, spoken_round_to=1000)
    said = said_of(enquiry_cast.enquiry(engine)).options[0]
    assert said.low <= REFRESH.gross.typical / 2 < said.low + 1000
    assert said.low % 1000 == said.high % 1000 == 0


def test_what_was_said_stays_when_the_rule_changes(engine: Engine) -> None:
    kept = enquiry_cast.enquiry(engine)
    Workshop.objects.update(spoken_above_pct=100)
    assert said_of(Enquiry.objects.get(pk=kept.pk)) == said_of(kept)


def test_each_band_is_subject_to_strip_down(engine: Engine) -> None:
    assert said_of(enquiry_cast.enquiry(engine)).subject_to == "subject to strip-down"


def test_enquiries_are_numbered_in_their_own_series(engine: Engine) -> None:
    first = enquiry_cast.enquiry(engine)
    second = enquiry_cast.enquiry(engine, note="another call")
    assert [first.number, second.number] == ["E-2026-0001", "E-2026-0002"]


def test_a_second_press_keeps_the_call_once(engine: Engine) -> None:
    assert enquiry_cast.enquiry(engine) == enquiry_cast.enquiry(engine)
    assert Enquiry.objects.count() == 1


def test_an_engine_of_somebody_else_is_refused(engine: Engine) -> None:
    other = cast.customer("Dov Marlish", email="dov@x.example")
    asked, comparison = cast.request(), sample_comparison()
    with pytest.raises(ValidationError, match="belongs to another customer"):
        write_down(other, engine, asked, EnquiryDetails(), comparison, desk(), NOW)
    assert not Enquiry.objects.exists()


def test_an_engine_of_another_type_is_refused(engine: Engine) -> None:
    asked = cast.request(engine=cast.asked(type="single450"))
    with pytest.raises(ValidationError, match="is a four600, not a single450"):
        enquiry_cast.enquiry(engine, request=asked)


@pytest.mark.parametrize("details", [{"note": "a\x00b"}, {"caller": "x" * 10_000}, {"budget": Decimal(-1)}])
def test_what_can_not_be_kept_is_refused_and_nothing_is_stored(
    engine: Engine, details: dict[str, Any]
) -> None:
    with pytest.raises(ValidationError):
        enquiry_cast.enquiry(engine, **details)
    assert not Enquiry.objects.exists()


def test_a_day_before_which_nothing_is_ready_is_said(engine: Engine) -> None:
    said = said_of(enquiry_cast.enquiry(engine, needed_on=NOW.date() + timedelta(days=2)))
    assert {option.slot.in_time for option in said.options if option.slot} == {False}
    assert said.sentences[-1].startswith("Not ready by then: ")


def test_weeks_full_before_the_first_meeting_are_said(engine: Engine) -> None:
    first_meeting = date(2027, 2, 6)
    enquiry_cast.fill(NOW.date() - timedelta(days=7), 12)
    Enquiry.objects.update(needed_on=first_meeting)
    said = said_of(enquiry_cast.enquiry(engine, needed_on=first_meeting))
    assert said.sentences[0].startswith("The weeks before 6 February 2027 are full: all ")
    assert "12 other engines are promised for that same day." in said.sentences


def test_a_budget_is_held_against_the_band(engine: Engine) -> None:
    said = said_of(enquiry_cast.enquiry(engine, budget=REFRESH.gross.typical))
    assert said.options[0].against_budget == "may go above"
    assert said.options[-1].against_budget == "above"


def test_filling_in_the_card_twice_from_one_state_is_refused(engine: Engine) -> None:
    kept = enquiry_cast.enquiry(engine)
    update_enquiry(enquiry=kept, details=EnquiryDetails(fuel="98 octane"), expected_version=1)
    with pytest.raises(StaleDraft) as stale:
        update_enquiry(enquiry=kept, details=EnquiryDetails(fuel="race fuel"), expected_version=1)
    assert [(change.what, change.before, change.after) for change in stale.value.changes] == [
        ("fuel", "98 octane", "race fuel")
    ]
    assert Enquiry.objects.get().fuel == "98 octane"


def test_an_enquiry_becomes_one_draft_quote(engine: Engine) -> None:
    kept = enquiry_cast.enquiry(engine)
    quotes = {quote_enquiry(enquiry=kept, by=desk(), now=NOW).pk for _ in range(2)}
    assert len(quotes) == Quote.objects.count() == 1
    assert Quote.objects.get().request == kept.request
    assert state(kept) == EnquiryState.QUOTED


def test_an_enquiry_without_an_engine_can_not_become_a_quote(engine: Engine) -> None:
    kept = enquiry_cast.enquiry(engine)
    Enquiry.objects.update(engine=None)
    with pytest.raises(ValidationError, match="names none"):
        quote_enquiry(enquiry=kept, by=desk(), now=NOW)


def test_an_enquiry_is_dropped_with_a_reason_and_then_closed(engine: Engine) -> None:
    kept = enquiry_cast.enquiry(engine)
    with pytest.raises(ValidationError, match="Write why"):
        drop_enquiry(enquiry=kept, because="  ", now=NOW)
    drop_enquiry(enquiry=kept, because="Went elsewhere", now=NOW)
    assert state(kept) == EnquiryState.DROPPED
    with pytest.raises(EnquiryClosed, match="Went elsewhere"):
        quote_enquiry(enquiry=kept, by=desk(), now=NOW)


def test_a_booked_enquiry_is_not_dropped_before_its_week_is_given_back(engine: Engine) -> None:
    kept = enquiry_cast.enquiry(engine)
    booked = enquiry_cast.booking(kept)
    assert state(kept) == EnquiryState.BOOKED
    with pytest.raises(EnquiryClosed, match="cancel the booking first"):
        drop_enquiry(enquiry=kept, because="Went elsewhere", now=NOW)
    cancel_booking(booking=booked, because="Went elsewhere", by=desk(), now=NOW)
    assert state(kept) == EnquiryState.OPEN


def test_an_enquiry_is_found_by_number_caller_customer_and_engine(engine: Engine) -> None:
    kept = enquiry_cast.enquiry(engine, caller="Jörg from the team")
    for words in ("e-2026-0001", "jorg", "otten", "h4 20417", "team OTTEN"):
        assert list(Enquiry.objects.found_by(words)) == [kept], words
    assert not Enquiry.objects.found_by("nobody").exists()


def test_the_card_leaves_out_what_nobody_answered(engine: Engine) -> None:
    facts = dict(enquiry_sheet(enquiry_cast.enquiry(engine, fuel="98 octane")).facts)
    assert facts["Fuel"] == "98 octane"
    assert "Who pays" not in facts
