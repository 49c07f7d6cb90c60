"""Freezing a draft as a revision."""

from __future__ import annotations

from datetime import date, timedelta
from decimal import Decimal

import pytest
from django.db import IntegrityError, transaction

from quotes.actions.drafts import close_quote, save_draft
from quotes.actions.issuing import freeze, issue
from quotes.actions.refused import QuoteClosed, SetUpMissing, StaleDraft
from quotes.calc.ask.fingerprint import fingerprint
from quotes.calc.sheet.issued_values import RevisionChange
from quotes.models import IssuedForGood, Quote, Revision
from quotes.queries.sheets import request_of, sheet_of
from tests.cast import desk
from tests.quotes import cast
from tests.quotes.cast import NOW, request
from tests.sample_sheet import sample_comparison

LATER = NOW + timedelta(hours=2)
SHORTER = sample_comparison(planned_in_words="1,200 miles of endurance racing over 3 meetings")


def test_the_first_revision_gives_the_quote_its_number(revision: Revision) -> None:
    quote = Quote.objects.get(pk=revision.quote_id)

    assert quote.number == "Q-2026-0001"
    assert quote.latest == revision
    assert sheet_of(revision).heading.number == "Q-2026-0001"


def test_a_revision_stands_for_as_many_days_as_the_owner_set(revision: Revision) -> None:
    assert revision.valid_until == date(2026, 12, 25)


def test_the_stored_sheet_is_the_comparison_that_was_frozen(revision: Revision) -> None:
    stored = Revision.objects.get(pk=revision.pk)

    assert sheet_of(stored).comparison == sample_comparison()


def test_the_stored_fingerprint_is_that_of_the_stored_sheet(revision: Revision) -> None:
    stored = Revision.objects.get(pk=revision.pk)

    assert stored.sheet_sha256 == fingerprint(sheet_of(stored))


def test_the_cheapest_and_dearest_sums_stand_beside_the_sheet(revision: Revision) -> None:
    sums = [option.gross.typical for option in sample_comparison().options]

    assert (revision.gross_from, revision.gross_to) == (min(sums), max(sums))


def test_the_terms_of_the_day_are_frozen_with_it(quote: Quote) -> None:
    from quotes.models import Workshop

    Workshop.objects.update(terms="Cash on the day.\n\nNo engine leaves\nunpaid.")

    assert sheet_of(cast.issued(quote)).terms == ("Cash on the day.", "No engine leaves unpaid.")


def test_pressing_issue_twice_gives_one_revision(revision: Revision) -> None:
    again = cast.issued(revision.quote, now=LATER)

    assert again == revision
    assert Revision.objects.count() == 1


def test_a_changed_draft_gives_the_next_revision_under_the_same_number(revision: Revision) -> None:
    second = cast.issued(revision.quote, now=LATER, comparison=SHORTER)

    assert (second.index, second.quote.number) == (2, "Q-2026-0001")


def test_the_next_revision_says_what_changed(revision: Revision) -> None:
    second = cast.issued(revision.quote, now=LATER, comparison=SHORTER)

    assert sheet_of(second).changes == (
        RevisionChange(
            what="Planned service",
            before="2,000 miles of endurance racing over 4 meetings",
            after="1,200 miles of endurance racing over 3 meetings",
        ),
    )


def test_a_lapsed_revision_is_issued_again_even_if_nothing_changed(revision: Revision) -> None:
    renewed = cast.issued(revision.quote, now=NOW + timedelta(days=40))

    assert renewed.index == 2
    assert Quote.objects.get(pk=revision.quote_id).stands_until == renewed.valid_until


def test_a_draft_changed_while_it_was_worked_out_is_not_issued(quote: Quote) -> None:
    as_read = Quote.objects.joined().get(pk=quote.pk)
    save_draft(quote=quote, request=request(target=Decimal("0.95")), expected_version=1, by=desk(), now=LATER)

    with pytest.raises(StaleDraft):
        freeze(as_read, request_of(as_read), sample_comparison(), desk(), LATER, class_tick=False)

    assert Revision.objects.count() == 0


def test_a_closed_quote_is_not_issued(quote: Quote) -> None:
    close_quote(quote=quote, now=NOW)

    with pytest.raises(QuoteClosed):
        cast.issued(quote)


def test_a_workshop_without_name_and_tax_is_told_so_before_anything_is_issued(engine: object) -> None:
    from quotes.models import Engine

    quote = cast.draft(Engine.objects.get())

    with pytest.raises(SetUpMissing, match=r"has no name.*No tax code"):
        issue(quote=quote, by=desk(), now=NOW)


def test_an_issued_revision_can_not_be_saved_again(revision: Revision) -> None:
    revision.valid_until = date(2030, 1, 1)

    with pytest.raises(IssuedForGood):
        revision.save()


def test_an_issued_revision_can_not_be_changed_by_naming_the_field(revision: Revision) -> None:
    with pytest.raises(IssuedForGood):
        revision.save(update_fields=["valid_until"])


def test_an_issued_revision_can_not_be_deleted(revision: Revision) -> None:
    with pytest.raises(IssuedForGood):
        revision.delete()


def test_issued_revisions_can_not_be_changed_or_deleted_in_bulk(revision: Revision) -> None:
    with pytest.raises(IssuedForGood):
        Revision.objects.all().delete()
    with pytest.raises(IssuedForGood):
        Revision.objects.update(valid_until=date(2030, 1, 1))


def test_the_database_itself_refuses_to_change_an_issued_sheet(revision: Revision) -> None:
    from django.db import connection

    with (
        pytest.raises(IntegrityError, match="issued"),
        transaction.atomic(),
        connection.cursor() as cursor,
    ):
        cursor.execute("UPDATE quotes_revision SET sheet_sha256 = 'x' WHERE id = %s", [revision.pk])


def test_a_quote_with_revisions_can_not_be_deleted(revision: Revision) -> None:
    from django.db.models import ProtectedError

    with pytest.raises(ProtectedError):
        revision.quote.delete()
