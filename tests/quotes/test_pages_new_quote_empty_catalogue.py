"""Before the catalogue is loaded the card says what to do first."""

from __future__ import annotations

from quotes.models import Quote, Workshop
from tests.quotes.card_payload import payload, signed_in, text_of


def test_an_empty_catalogue_is_said_with_what_to_do_first(no_catalogue: None, workshop: Workshop) -> None:
    page = text_of(signed_in().get("/quotes/new/"))
    assert "The catalogue is empty." in page
    assert "Keep as quote" not in page


def test_a_card_posted_into_an_empty_catalogue_keeps_nothing(no_catalogue: None, workshop: Workshop) -> None:
    answer = signed_in().post("/quotes/new/", payload(do="keep"))
    assert "The catalogue is empty." in text_of(answer)
    assert Quote.objects.count() == 0
