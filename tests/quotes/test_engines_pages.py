"""One engine's and one customer's page: what is kept, who was first, and what is wrong at which field."""

from __future__ import annotations

from decimal import Decimal

import pytest
from django.urls import reverse

from quotes.models import Customer, Engine, Workshop
from quotes.queries.engines import engine_asked
from tests.quotes.card_payload import faults_on, signed_in, text_of, value_of

pytestmark = pytest.mark.usefixtures("catalogue")


def record(**change: str) -> dict[str, str]:
    """The engine of the cast as its page posts it."""
    filled = {
        "do": "keep",
        "version": "1",
        "type": "four600",
        "number": "H4-20417",
        "delivered": "loose",
        "past": "run",
        "history-0-amount": "4100",
        "history-0-unit": "mi",
        "history-0-duty": "sprint",
        "history-0-tier": "refresh",
        "history-0-start": "2025-03-01",
        "history-0-end": "2026-10-10",
        "note": "",
    }
    return filled | {name.replace("__", "-"): value for name, value in change.items()}


def test_the_page_shows_the_record_as_it_is_kept(engine: Engine, workshop: Workshop) -> None:
    page = signed_in().get(reverse("engine", args=[engine.pk]))
    assert value_of(page, "number") == "H4-20417"
    assert value_of(page, "history-0-amount") == "4100"


def test_a_stretch_more_is_kept(engine: Engine, workshop: Workshop) -> None:
    more = {
        "history-1-amount": "150",
        "history-1-unit": "mi",
        "history-1-duty": "sprint",
        "history-1-tier": "mild",
    }
    answer = signed_in().post(reverse("engine", args=[engine.pk]), record() | more)
    assert answer.status_code == 302
    history = engine_asked(Engine.objects.get()).history or ()
    assert [(each.amount, each.tier) for each in history] == [
        (Decimal(4100), "refresh"),
        (Decimal(150), "mild"),
    ]


def test_a_note_is_kept(engine: Engine, workshop: Workshop) -> None:
    signed_in().post(reverse("engine", args=[engine.pk]), record(note="Left case half repaired."))
    assert Engine.objects.get().note == "Left case half repaired."


@pytest.mark.parametrize(
    ("change", "field", "said"),
    [
        ({"history__0__amount": "-1"}, "history-0-amount", "“-1” is too small"),
        ({"history__0__end": "2020-01-01"}, "history-0-end", "a day not before"),
        ({"history__0__duty": "joyride"}, "history-0-duty", "“joyride” can't stand here"),
        ({"number": "n" * 80}, "number", "at most 60"),
        ({"note": "n" * 3000}, "note", "At most 2,000 characters"),
        ({"history__0__duty": ""}, "history-0-duty", "Nothing is given"),
    ],
)
def test_a_fault_is_said_at_its_field_and_the_record_stays(
    engine: Engine, workshop: Workshop, change: dict[str, str], field: str, said: str
) -> None:
    before = engine_asked(Engine.objects.get())
    answer = signed_in().post(reverse("engine", args=[engine.pk]), record(**change))
    assert said in faults_on(answer).get(field, ""), faults_on(answer)
    assert engine_asked(Engine.objects.get()) == before
    assert Engine.objects.get().note == ""


def test_an_engine_changed_by_two_people_shows_both_sides(engine: Engine, workshop: Workshop) -> None:
    address = reverse("engine", args=[engine.pk])
    signed_in("owner").post(address, record(history__0__amount="5000"))
    answer = signed_in().post(address, record(history__0__amount="4500"))
    assert "has changed this since you opened it" in text_of(answer)
    assert value_of(answer, "history-0-amount") == "4500"
    (stretch,) = engine_asked(Engine.objects.get()).history or ()
    assert stretch.amount == Decimal(5000)


def test_a_further_engine_is_kept_for_its_customer(customer: Customer, workshop: Workshop) -> None:
    address = reverse("engine-new", args=[customer.pk])
    assert signed_in().post(address, record(number="H4-9", version="")).status_code == 302
    assert Engine.objects.get().customer == customer


def test_rows_come_without_a_script_and_nothing_is_kept(engine: Engine, workshop: Workshop) -> None:
    answer = signed_in().post(reverse("engine", args=[engine.pk]), record(add="renewed", number="H4-other"))
    assert 'name="renewed-0-component"' in answer.content.decode()
    assert Engine.objects.get().number == "H4-20417"


def person(**change: str) -> dict[str, str]:
    filled = {
        "version": "1",
        "name": "Marel Otten",
        "telephone": "000 555 0199",
        "email": "marel@otten.example",
        "address": "9 Quince Lane\nAnyborough",
        "tax_registration": "",
        "country": "",
    }
    return filled | change


def test_a_customer_s_address_is_kept(customer: Customer, workshop: Workshop) -> None:
    answer = signed_in().post(reverse("customer", args=[customer.pk]), person())
    assert answer.status_code == 302
    assert Customer.objects.get().address.splitlines() == ["9 Quince Lane", "Anyborough"]


@pytest.mark.both_databases
@pytest.mark.parametrize(
    ("change", "field"),
    [
        ({"name": ""}, "name"),
        ({"name": "Marel " * 1667}, "name"),
        ({"email": "nobody"}, "email"),
        ({"telephone": "5\x00"}, "telephone"),
        ({"country": "Anyland"}, "country"),
    ],
)
def test_a_customer_s_fault_stands_at_its_field(
    customer: Customer, workshop: Workshop, change: dict[str, str], field: str
) -> None:
    answer = signed_in().post(reverse("customer", args=[customer.pk]), person(**change))
    assert field in faults_on(answer)
    assert Customer.objects.get().name == "Marel Otten"
    assert Customer.objects.get().version == 1


def test_a_customer_changed_by_two_people_shows_both_sides(customer: Customer, workshop: Workshop) -> None:
    address = reverse("customer", args=[customer.pk])
    signed_in("owner").post(address, person(telephone="1"))
    answer = signed_in().post(address, person(telephone="2"))
    assert "has changed this since you opened it" in text_of(answer)
    assert Customer.objects.get().telephone == "1"


def test_a_new_customer_is_kept(workshop: Workshop) -> None:
    assert signed_in().post(reverse("customer-new"), person(version="")).status_code == 302
    assert Customer.objects.get().email == "marel@otten.example"


def test_a_quote_can_be_begun_from_the_engine_with_its_record_written_in(
    engine: Engine, workshop: Workshop
) -> None:
    page = signed_in().get(reverse("new-quote"), {"engine": str(engine.pk)})
    assert value_of(page, "history-0-amount") == "4100"
    assert value_of(page, "name") == "Marel Otten"
