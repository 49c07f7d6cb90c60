"""Keeping a call as an enquiry: the caller and the engine, with the bands that were said."""

from __future__ import annotations

from datetime import date

import pytest

from quotes.models import Customer, Engine, Enquiry, Quote, Workshop
from tests.quotes.card_payload import faults_on, payload, signed_in

pytestmark = pytest.mark.usefixtures("catalogue")


def kept(**change: str) -> Enquiry:
    """The enquiry that keeping this card leads to."""
    answer = signed_in().post("/quotes/new/", payload(do="enquiry", **change))
    assert answer.status_code == 302
    return Enquiry.objects.get(pk=int(answer["Location"].strip("/").rsplit("/", 1)[1]))


def test_a_call_is_kept_with_caller_engine_and_bands_and_no_quote(workshop: Workshop) -> None:
    enquiry = kept(planned__first_meeting="2027-03-20", budget="9000")
    assert enquiry.customer.name == "Marel Otten"
    assert enquiry.engine is not None
    assert enquiry.engine.number == "H4-20417"
    assert enquiry.needed_on == date(2027, 3, 20)
    assert [option["tier"] for option in enquiry.said["options"]] == ["refresh", "mild", "full"]
    assert Quote.objects.count() == 0


def test_the_same_card_pressed_twice_is_one_enquiry_of_one_customer(workshop: Workshop) -> None:
    assert kept() == kept()
    assert (Customer.objects.count(), Engine.objects.count(), Enquiry.objects.count()) == (1, 1, 1)


def test_an_enquiry_for_a_known_engine_makes_no_second_one(engine: Engine, workshop: Workshop) -> None:
    enquiry = kept(pick=f"{engine.customer_id}-{engine.pk}")
    assert enquiry.engine == engine


def test_a_fault_keeps_nothing(workshop: Workshop) -> None:
    answer = signed_in().post("/quotes/new/", payload(do="enquiry", history__0__amount="-5"))
    assert "“-5” is too small" in faults_on(answer)["history-0-amount"]
    assert (Customer.objects.count(), Engine.objects.count(), Enquiry.objects.count()) == (0, 0, 0)
