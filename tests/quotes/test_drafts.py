"""Keeping a quote and changing it while others may be changing it too."""

from __future__ import annotations

from datetime import timedelta
from decimal import Decimal

import pytest
from django.core.exceptions import ValidationError

from quotes.actions.drafts import close_quote, keep_quote, save_draft
from quotes.actions.refused import AlreadyAccepted, StaleDraft
from quotes.models import Engine, Quote, Revision
from tests.cast import desk, owner
from tests.quotes import cast
from tests.quotes.cast import NOW, request

LATER = NOW + timedelta(minutes=5)


def test_a_kept_quote_has_no_number_until_it_is_issued(quote: Quote) -> None:
    assert quote.number is None
    assert quote.title == f"draft {quote.pk}"


def test_the_request_comes_back_as_it_was_kept(quote: Quote) -> None:
    from quotes.queries.sheets import request_of

    assert request_of(Quote.objects.get(pk=quote.pk)) == request()


def test_keeping_the_same_twice_gives_one_draft(quote: Quote, engine: Engine) -> None:
    again = keep_quote(customer=engine.customer, engine=engine, request=request(), by=desk(), now=LATER)

    assert again.pk == quote.pk
    assert Quote.objects.count() == 1


def test_another_request_for_the_same_engine_is_another_draft(quote: Quote, engine: Engine) -> None:
    other = request(target=Decimal("0.95"))

    again = keep_quote(customer=engine.customer, engine=engine, request=other, by=desk(), now=LATER)

    assert again.pk != quote.pk


def test_an_engine_of_another_customer_is_refused(engine: Engine) -> None:
    other = cast.customer("Tove Halden")

    with pytest.raises(ValidationError, match="belongs to another customer"):
        keep_quote(customer=other, engine=engine, request=request(), by=desk(), now=NOW)


def test_a_request_for_another_engine_type_is_refused(engine: Engine) -> None:
    other = request(engine=cast.asked(type="single450"))

    with pytest.raises(ValidationError, match="not a single450"):
        keep_quote(customer=engine.customer, engine=engine, request=other, by=desk(), now=NOW)


def test_a_change_counts_the_version_up_and_says_who(quote: Quote) -> None:
    changed = save_draft(
        quote=quote, request=request(target=Decimal("0.95")), expected_version=1, by=owner(), now=LATER
    )

    assert (changed.version, changed.edited_by, changed.edited_at) == (2, "Orla Venn", LATER)


def test_the_second_of_two_people_is_told_what_the_first_one_changed(quote: Quote) -> None:
    save_draft(
        quote=quote, request=request(target=Decimal("0.95")), expected_version=1, by=owner(), now=LATER
    )

    with pytest.raises(StaleDraft) as told:
        save_draft(
            quote=quote, request=request(target=Decimal("0.9")), expected_version=1, by=desk(), now=LATER
        )

    assert [(change.what, change.before, change.after) for change in told.value.changes] == [
        ("target", "0.95", "0.9")
    ]
    assert "Orla Venn" in str(told.value)
    quote.refresh_from_db()
    assert quote.request["target"] == "0.95"


def test_two_people_who_made_the_same_change_do_not_collide(quote: Quote) -> None:
    same = request(target=Decimal("0.95"))
    save_draft(quote=quote, request=same, expected_version=1, by=owner(), now=LATER)

    again = save_draft(quote=quote, request=same, expected_version=1, by=desk(), now=LATER)

    assert again.version == 2


def test_an_accepted_quote_can_no_longer_be_changed(revision: Revision) -> None:
    cast.accepted(revision)

    with pytest.raises(AlreadyAccepted, match="Marel Otten has accepted"):
        save_draft(
            quote=revision.quote,
            request=request(target=Decimal("0.95")),
            expected_version=1,
            by=desk(),
            now=LATER,
        )


def test_an_accepted_quote_can_not_be_taken_back(revision: Revision) -> None:
    cast.accepted(revision)

    with pytest.raises(AlreadyAccepted):
        close_quote(quote=revision.quote, now=LATER)
