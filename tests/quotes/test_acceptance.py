"""The customer's yes: to what, by whom, up to which sum, and when it no longer counts."""

from __future__ import annotations

from datetime import timedelta
from decimal import Decimal

import pytest
from django.core.exceptions import ValidationError
from django.db import IntegrityError, transaction

from quotes.actions.accepting import mark_done
from quotes.actions.answers import decline
from quotes.actions.drafts import close_quote
from quotes.actions.refused import AlreadyAccepted, Lapsed, QuoteClosed, Superseded
from quotes.calc.money.extras import extras_of
from quotes.models import Acceptance, IssuedForGood, Quote, Revision
from quotes.queries.sheets import accepted_value, sheet_of
from quotes.queries.workshop import shop_rules
from tests.cast import builder
from tests.quotes import cast
from tests.quotes.cast import NOW
from tests.sample_sheet import sample_comparison

LATER = NOW + timedelta(days=1)
MILD = sample_comparison().option("mild")


def test_a_yes_records_who_what_when_and_the_sum_shown(revision: Revision) -> None:
    yes = cast.accepted(revision)

    assert (yes.name, yes.tier_name, yes.accepted_at) == ("Marel Otten", MILD.name, NOW)
    assert (yes.gross, yes.limit_sum, yes.deposit) == (MILD.gross.typical, Decimal(200), MILD.deposit)


def test_a_yes_carries_the_fingerprint_of_the_sheet_that_was_shown(revision: Revision) -> None:
    assert cast.accepted(revision).sheet_sha256 == revision.sheet_sha256


def test_ticked_extras_are_in_the_accepted_sum(revision: Revision) -> None:
    extra = extras_of(MILD)[0]

    yes = cast.accepted(revision, extras=[extra.component])

    assert yes.gross == MILD.gross.typical + extra.gross
    assert accepted_value(yes).extras == (extra.name,)


def test_an_extra_that_the_option_does_not_offer_is_refused(revision: Revision) -> None:
    with pytest.raises(ValidationError, match="Not offered with"):
        cast.accepted(revision, extras=["con_rod_of_gold"])


def test_a_tier_that_the_quote_does_not_hold_is_refused(revision: Revision) -> None:
    with pytest.raises(ValidationError, match="does not hold 'turbo'"):
        cast.accepted(revision, tier="turbo")


def test_the_same_yes_twice_is_one_acceptance(revision: Revision) -> None:
    first = cast.accepted(revision)

    again = cast.accepted(revision, now=LATER)

    assert (again.pk, again.accepted_at) == (first.pk, NOW)
    assert Acceptance.objects.count() == 1


def test_a_second_yes_to_something_else_is_refused(revision: Revision) -> None:
    cast.accepted(revision)

    with pytest.raises(AlreadyAccepted, match="Marel Otten has accepted"):
        cast.accepted(revision, tier="full")


def test_a_superseded_revision_can_not_be_accepted(revision: Revision) -> None:
    shorter = sample_comparison(planned_in_words="1,200 miles of endurance racing")
    latest = cast.issued(revision.quote, now=LATER, comparison=shorter)

    with pytest.raises(Superseded, match="revision 2") as told:
        cast.accepted(revision, now=LATER)

    assert told.value.latest == latest


def test_the_last_day_still_counts(revision: Revision) -> None:
    last_day = NOW + timedelta(days=30)
    assert last_day.date() == revision.valid_until

    assert cast.accepted(revision, now=last_day).pk


def test_the_day_after_the_last_it_has_lapsed(revision: Revision) -> None:
    with pytest.raises(Lapsed, match="25 December 2026"):
        cast.accepted(revision, now=NOW + timedelta(days=31))


def test_a_quote_that_was_taken_back_can_not_be_accepted(revision: Revision) -> None:
    close_quote(quote=revision.quote, now=NOW)

    with pytest.raises(QuoteClosed):
        cast.accepted(revision, now=LATER)


def test_who_said_no_may_still_say_yes_while_the_quote_stands(revision: Revision) -> None:
    decline(revision=revision, text="too dear", name="Marel Otten", now=NOW)

    cast.accepted(revision, now=LATER)

    assert Quote.objects.with_state(LATER.date()).get().state == "accepted"


@pytest.mark.parametrize(
    ("change", "field"),
    [
        ({"name": "  "}, "name"),
        ({"name": "M\x00rel"}, "name"),
        ({"name": "M" * 10_000}, "name"),
        ({"right": "o" * 10_000}, "right"),
        ({"telephone": "5" * 10_000}, "telephone"),
        ({"limit_sum": Decimal("-1")}, "limit_sum"),
        ({"limit_sum": Decimal(10) ** 20}, "limit_sum"),
        ({"agreed_terms": False}, "agreed_terms"),
    ],
    ids=["no name", "NUL", "long name", "long right", "long telephone", "below nought", "absurd", "no terms"],
)
def test_a_yes_that_can_not_be_kept_is_refused_at_its_field(
    revision: Revision, change: dict[str, object], field: str
) -> None:
    with pytest.raises(ValidationError) as told:
        cast.accepted(revision, **change)

    assert list(told.value.message_dict) == [field]
    assert Acceptance.objects.count() == 0
    assert Quote.objects.get().accepted_at is None


def test_an_acceptance_can_not_be_changed_or_deleted(revision: Revision) -> None:
    yes = cast.accepted(revision)
    yes.gross = Decimal(1)

    with pytest.raises(IssuedForGood):
        yes.save()
    with pytest.raises(IssuedForGood):
        yes.delete()


def test_the_database_itself_refuses_to_change_an_acceptance(revision: Revision) -> None:
    from django.db import connection

    yes = cast.accepted(revision)

    with pytest.raises(IntegrityError, match="for good"), transaction.atomic(), connection.cursor() as cursor:
        cursor.execute("UPDATE quotes_acceptance SET gross = 1 WHERE id = %s", [yes.pk])


def test_an_accepted_build_is_in_hand_until_it_is_done(revision: Revision) -> None:
    yes = cast.accepted(revision)
    assert shop_rules(cast.ON).queue.hours_in_hand == MILD.hours

    mark_done(acceptance=yes, by=builder(), now=LATER)

    assert shop_rules(cast.ON).queue.hours_in_hand == 0


def test_the_receipt_value_says_what_the_sheet_said(revision: Revision) -> None:
    yes = Acceptance.objects.get(pk=cast.accepted(revision).pk)

    value = accepted_value(yes)

    assert (value.tier, value.gross) == ("mild", sheet_of(revision).comparison.option("mild").gross.typical)
