"""The customer's links."""

from __future__ import annotations

from datetime import timedelta

import pytest

from quotes.actions.links import new_link, withdraw_link
from quotes.actions.refused import NothingNew
from quotes.models import Link, Quote, Revision
from tests.cast import desk
from tests.quotes import cast
from tests.quotes.cast import NOW
from tests.sample_sheet import sample_comparison


def test_a_link_is_found_by_its_token_and_the_token_is_not_stored(revision: Revision) -> None:
    made = new_link(quote=revision.quote, by=desk(), now=NOW)

    assert Link.objects.by_token(made.token).get() == made.link
    assert made.token not in str(Link.objects.values().get())


def test_a_token_holds_128_bits(revision: Revision) -> None:
    import base64

    token = new_link(quote=revision.quote, by=desk(), now=NOW).token

    assert len(base64.urlsafe_b64decode(token + "==")) * 8 == 128


def test_no_two_links_share_a_token(revision: Revision) -> None:
    tokens = {new_link(quote=revision.quote, by=desk(), now=NOW).token for _ in range(20)}

    assert len(tokens) == 20


def test_a_draft_gets_no_link(quote: Quote) -> None:
    with pytest.raises(NothingNew):
        new_link(quote=quote, by=desk(), now=NOW)


def test_a_withdrawn_link_works_no_longer(revision: Revision) -> None:
    made = new_link(quote=revision.quote, by=desk(), now=NOW)

    withdraw_link(link=made.link, now=NOW)

    assert not Link.objects.by_token(made.token).working(NOW).exists()


def test_a_link_runs_out_at_its_time(revision: Revision) -> None:
    made = new_link(quote=revision.quote, by=desk(), now=NOW, expires_at=NOW + timedelta(days=3))

    assert Link.objects.by_token(made.token).working(NOW).exists()
    assert not Link.objects.by_token(made.token).working(NOW + timedelta(days=3)).exists()


def test_a_link_remembers_the_revision_it_was_sent_for_and_leads_to_the_latest(revision: Revision) -> None:
    made = new_link(quote=revision.quote, by=desk(), now=NOW)
    latest = cast.issued(revision.quote, comparison=sample_comparison(planned_in_words="1,200 miles"))

    link = Link.objects.by_token(made.token).get()

    assert (link.revision, link.quote.latest) == (revision, latest)
