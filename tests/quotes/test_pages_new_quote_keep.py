"""Keeping a card: customer, engine and quote at once, or none of them; twice is once."""

from __future__ import annotations

from decimal import Decimal

import pytest
from django.urls import reverse

from quotes.models import Customer, Engine, Quote, Workshop
from quotes.queries.engines import engine_asked
from quotes.queries.sheets import request_of
from tests.quotes import cast
from tests.quotes.card_payload import payload, signed_in, text_of, value_of

pytestmark = pytest.mark.usefixtures("catalogue")


def kept(**change: str) -> Quote:
    """The quote that keeping this card leads to."""
    answer = signed_in().post("/quotes/new/", payload(do="keep", **change))
    assert answer.status_code == 302, text_of(answer)
    return Quote.objects.get(pk=int(answer["Location"].strip("/").rsplit("/", 1)[1]))


def test_a_new_caller_is_kept_with_engine_history_and_request(workshop: Workshop) -> None:
    quote = kept(aim="18", seen__0__id="over_rev", seen__0__pct_over="7")
    assert (quote.customer.name, quote.customer.telephone) == ("Marel Otten", "000 555 0199")
    assert (quote.engine.number, quote.engine.type_code) == ("H4-20417", "four600")
    (stretch,) = engine_asked(quote.engine).history or ()
    assert (stretch.amount, stretch.duty) == (Decimal(4100), "sprint")
    request = request_of(quote)
    assert request.target == Decimal("0.9")
    assert [event.id for event in request.events] == ["over_rev"]  # type: ignore[union-attr]


def test_the_same_card_pressed_twice_gives_one_customer_one_engine_one_quote(workshop: Workshop) -> None:
    assert kept() == kept()
    assert (Customer.objects.count(), Engine.objects.count(), Quote.objects.count()) == (1, 1, 1)


def test_another_card_with_another_key_is_another_quote(workshop: Workshop) -> None:
    first = kept()
    second = kept(key="00000000-0000-0000-0000-000000000002", name="Ines Karrow", number="H4-30001")
    assert first != second


def test_a_key_that_can_not_be_read_is_a_new_card(workshop: Workshop) -> None:
    assert kept(key="not a key").card_key is not None


def test_typing_finds_customers_and_engines_that_are_known(engine: Engine, workshop: Workshop) -> None:
    client = signed_in()
    by_name = text_of(client.post("/quotes/new/known/", payload(name="otten")))
    by_number = text_of(client.post("/quotes/new/known/", payload(name="20417")))
    assert "Marel Otten, 600 inline four, H4-20417" in by_name
    assert "Marel Otten, 600 inline four, H4-20417" in by_number
    assert "Nobody of that name is known" in text_of(client.post("/quotes/new/known/", payload(name="zzz")))


def test_one_letter_finds_nobody(engine: Engine, workshop: Workshop) -> None:
    assert "Marel" not in text_of(signed_in().post("/quotes/new/known/", payload(name="o")))


@pytest.mark.parametrize("script", [True, False])
def test_picking_a_known_engine_writes_its_record_into_the_card(
    engine: Engine, workshop: Workshop, script: bool
) -> None:
    blank = payload(type="", number="", history__0__amount="", name="otten")
    pick = f"{engine.customer_id}-{engine.pk}"
    address = "/quotes/new/pick/" if script else "/quotes/new/"
    answer = signed_in().post(address, blank | {"pick": pick})
    assert value_of(answer, "number") == "H4-20417"
    assert value_of(answer, "history-0-amount") == "4100"
    assert value_of(answer, "name") == "Marel Otten"


def test_a_quote_for_a_known_engine_makes_no_second_one(engine: Engine, workshop: Workshop) -> None:
    quote = kept(pick=f"{engine.customer_id}-{engine.pk}", history__0__amount="4600")
    assert (quote.engine, quote.customer) == (engine, engine.customer)
    assert Engine.objects.count() == 1
    (stretch,) = engine_asked(Engine.objects.get()).history or ()
    assert stretch.amount == Decimal(4600)


def test_another_engine_of_a_known_customer_makes_no_second_customer(
    engine: Engine, workshop: Workshop
) -> None:
    quote = kept(pick=f"{engine.customer_id}-", number="H4-20999")
    assert quote.customer == engine.customer
    assert quote.engine != engine


def test_the_engine_of_another_customer_can_not_be_picked_with_this_one(
    engine: Engine, workshop: Workshop
) -> None:
    other = cast.customer("Ines Karrow")
    quote = kept(pick=f"{other.pk}-{engine.pk}", number="H4-1")
    assert quote.engine.customer == other
    assert quote.engine != engine


def test_an_engine_number_that_the_customer_has_already_is_a_fault(
    engine: Engine, workshop: Workshop
) -> None:
    answer = signed_in().post("/quotes/new/", payload(do="keep", pick=f"{engine.customer_id}-"))
    assert "already has an engine of this type and number" in text_of(answer)
    assert (Engine.objects.count(), Quote.objects.count()) == (1, 0)


def test_the_card_of_a_kept_quote_stands_as_it_was_filled(workshop: Workshop) -> None:
    quote = kept(aim="18", seen__0__id="over_rev", seen__0__pct_over="7", budget="")
    page = signed_in().get(reverse("quote-card", args=[quote.pk]))
    assert value_of(page, "aim") == "18"
    assert value_of(page, "seen-0-pct_over") == "7"
    assert value_of(page, "planned-amount") == "2000"


def test_changing_what_was_asked_keeps_what_the_worksheet_wrote(workshop: Workshop) -> None:
    quote = kept()
    sheet = {"option": "refresh", "version": "1", "do": "discount", "off-discount_pct": "5",
             "off-discount_reason": "third engine this winter"}  # fmt: skip
    signed_in().post(reverse("quote", args=[quote.pk]), sheet)
    card = payload(do="keep", version="2", planned__amount="1500")
    assert signed_in().post(reverse("quote-card", args=[quote.pk]), card).status_code == 302
    request = request_of(Quote.objects.get())
    assert request.planned.amount == Decimal(1500)
    assert request.edits["refresh"].discount_pct == Decimal(5)


def test_a_stale_card_keeps_nothing_and_shows_both_sides(workshop: Workshop) -> None:
    quote = kept()
    address = reverse("quote-card", args=[quote.pk])
    signed_in("owner").post(address, payload(do="keep", version="1", planned__amount="1500"))
    answer = signed_in().post(address, payload(do="keep", version="1", planned__amount="900"))
    said = text_of(answer)
    assert "Orla Venn has changed this since you opened it" in said
    assert "1500" in said
    assert "900" in said
    assert value_of(answer, "planned-amount") == "900"
    assert request_of(Quote.objects.get()).planned.amount == Decimal(1500)


def test_a_stale_card_can_be_kept_again_after_comparing(workshop: Workshop) -> None:
    quote = kept()
    address = reverse("quote-card", args=[quote.pk])
    signed_in("owner").post(address, payload(do="keep", version="1", planned__amount="1500"))
    answer = signed_in().post(address, payload(do="keep", version="1", planned__amount="900"))
    again = payload(do="keep", version=value_of(answer, "version"), planned__amount="900")
    assert signed_in().post(address, again).status_code == 302
    assert request_of(Quote.objects.get()).planned.amount == Decimal(900)


def test_the_bookkeeper_has_no_card(workshop: Workshop) -> None:
    assert signed_in("books").get("/quotes/new/").status_code == 403
