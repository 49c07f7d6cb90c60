"""One box finds anything: what it leads to, what each person may find, and what it costs."""

from __future__ import annotations

import re

import pytest
from django.contrib.auth.models import User
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from catalogue.models import Part
from quotes.actions.books.batches import start_batch
from quotes.models import Acceptance
from tests.books import cast
from tests.books.cast import NOW, invoiced
from tests.books.ledger_cast import billed, paid
from tests.cast import books, builder, desk, owner
from tests.quotes.cast import customer, draft, engine
from tests.shipped import load_shipped

TYPED = {"HX-Request": "true"}


@pytest.fixture
def build(db: None) -> Acceptance:
    return cast.build()


def found(client: Client, typed: str, who: User) -> str:
    """What hangs below the box once somebody has typed that, without tags."""
    client.force_login(who)
    shown = client.get(reverse("find"), {"q": typed}, headers=TYPED).content.decode()
    return " ".join(re.sub(r"<[^>]*>", " ", shown).split())


def test_a_name_finds_all_that_bears_it_and_says_by_what(client: Client, build: Acceptance) -> None:
    invoiced(build)
    said = found(client, "OTTEN", desk())

    assert "Customers Marel Otten 000 555 0199 marel@otten.example found by name" in said
    assert "Engines H4-20417 Marel Otten found by owner" in said
    assert "Quotes Q-2026-0001 Marel Otten H4-20417 found by customer" in said
    assert "Invoices and credit notes I-2026-0001 Marel Otten H4-20417 found by customer" in said


def test_accents_and_case_are_folded_on_both_sides(client: Client, db: None) -> None:
    customer("Zoë Ångström")

    assert "Zoë Ångström" in found(client, "zoe ANGSTROM", desk())
    assert "Zoë Ångström" in found(client, "Ångström", desk())


def test_a_supplier_is_found_without_its_accents(client: Client, build: Acceptance) -> None:
    billed("RG/77", supplier="Größe Wälzlager")

    assert "S-2026-0001 Größe Wälzlager RG/77 found by supplier" in found(client, "walzlager", books())
    assert "found by their number" in found(client, "rg/77", books())


def test_each_person_finds_only_what_he_may_open(client: Client, build: Acceptance) -> None:
    invoiced(build)
    billed(supplier="Otten Supplies")
    paid("10")
    kinds = {"Suppliers&#x27; bills", "Invoices and credit notes", "Payments", "Engines"}

    seen = {who.username: found(client, "otten", who) for who in (desk(), builder(), books(), owner())}

    assert {name: {kind for kind in kinds if kind in said} for name, said in seen.items()} == {
        "desk": kinds - {"Suppliers&#x27; bills"},
        "builder": {"Engines"},
        "books": kinds - {"Engines"},
        "owner": kinds,
    }


@pytest.mark.parametrize("typed", ["Q-2026-0001", "q20260001", "q 2026 0001"])
def test_a_whole_number_leads_straight_there(client: Client, build: Acceptance, typed: str) -> None:
    client.force_login(desk())

    assert client.get(reverse("find"), {"q": typed})["Location"] == reverse("quote", args=[build.quote_id])


def test_a_customers_number_leads_to_his_page(client: Client, build: Acceptance) -> None:
    key = build.quote.customer_id
    client.force_login(desk())

    page = client.get(reverse("find"), {"q": f"c-{key}"})

    assert page["Location"] == reverse("customer", args=[key])
    assert "Customers Marel Otten" in found(client, f"C-{key}", desk())


def test_entries_are_found_beside_their_document_and_batches_by_number(
    client: Client, build: Acceptance
) -> None:
    invoice = invoiced(build)
    start_batch(by=books(), now=NOW)
    client.force_login(books())

    assert client.get(reverse("find"), {"q": invoice.number})["Location"] == reverse(
        "invoice", args=[invoice.pk]
    )
    assert "Journal entries I-2026-0001" in found(client, "i-2026", books())
    assert "Export batches E-2026-0001 found by number" in found(client, "E-2026", books())
    assert "Journal entries" not in found(client, "i-2026", desk())


@pytest.mark.parametrize("typed", ["d2026", "D-2026", "d 2026 00", "d202600", "0001 2026"])
def test_a_number_is_found_by_its_beginning_and_its_digits(
    client: Client, build: Acceptance, typed: str
) -> None:
    paid("10")
    cast.deposited(build)
    said = found(client, typed, books())

    assert "Invoices and credit notes D-2026-0001" in said
    assert ("R-2026-0001" in said) == typed.startswith("0001")


def test_an_engine_number_and_a_part_number_do_too(client: Client, build: Acceptance) -> None:
    client.force_login(desk())
    load_shipped()
    part = Part.objects.filter(code__contains="-").earliest("place").code
    leads_to = {
        typed: client.get(reverse("find"), {"q": typed}).get("Location")
        for typed in ("h420417", part.lower())
    }

    assert leads_to == {
        "h420417": reverse("engine", args=[build.quote.engine_id]),
        part.lower(): reverse("catalogue:entry", args=["parts", part]),
    }


def test_a_number_that_two_things_bear_leads_to_neither(client: Client, build: Acceptance) -> None:
    engine(customer("Two Rivers Team"), "H4-20417")
    client.force_login(desk())
    page = client.get(reverse("find"), {"q": "H4-20417"})

    assert page.status_code == 200
    assert page.content.decode().count("<b>H4-20417</b>") == 2


def test_nothing_found_says_what_can_be_looked_for(client: Client, build: Acceptance) -> None:
    said = found(client, "xyzzy", builder())

    assert "Nothing bears “xyzzy”." in said
    assert "Engines by number or owner" in said
    assert "Payments" not in said


@pytest.mark.parametrize("typed", ["", "a", "%", "\x00", "' OR 1=1", "x" * 5000])
def test_nothing_typed_brings_it_down(client: Client, build: Acceptance, typed: str) -> None:
    client.force_login(desk())

    assert client.get(reverse("find"), {"q": typed}).status_code == 200


def test_twenty_of_each_cost_no_more_queries_than_one(client: Client, build: Acceptance) -> None:
    client.force_login(owner())

    def queries() -> int:
        with CaptureQueriesContext(
            connection,
        ) as seen:
            client.get(reverse("find"), {"q": "otten"}, headers=TYPED)
        return len(seen)

    one = queries()
    for number in range(20):
        someone = customer(f"Otten {number}")
        draft(engine(someone, f"H4-{number}"))
        billed(f"RG-{number}", supplier=f"Otten {number}")

    assert queries() == one
    assert "There are more." in found(client, "otten", owner())
