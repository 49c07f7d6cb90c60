"""Extra work on the pages: the builder offers, the desk writes a call down, the customer answers himself."""

from __future__ import annotations

import io
from typing import Any

import pytest
from django.test import Client
from django.urls import reverse
from pypdf import PdfReader

from catalogue.models import ListedPart
from quotes.actions.links import new_link
from quotes.models import Acceptance, ExtraWork, TaxCode, Workshop
from tests.bench.test_extra_work import SAFETY, extra
from tests.books import cast
from tests.books.cast import NOW
from tests.books.page_forms import text_of, typed
from tests.cast import builder, desk
from tests.prices.cast import HOUSE, listed, read, taken
from tests.quotes.card_payload import faults_on


@pytest.fixture
def build(db: None) -> Acceptance:
    return cast.build()


@pytest.fixture
def at_bench(client: Client, build: Acceptance) -> Client:
    client.force_login(builder())
    return client


@pytest.fixture
def token(build: Acceptance) -> str:
    return new_link(quote=build.quote, by=desk(), now=NOW).token


def offered(client: Client, build: Acceptance, price: str, **change: str) -> Any:
    address = reverse("extra-work-new", args=[build.pk])
    form = typed(client.get(address), "")
    form |= {
        "extra-words": "Clutch basket fingers notched",
        "extra-line-0-kind": "part",
        "extra-line-0-description": "Clutch basket",
        "extra-line-0-quantity": "1",
        "extra-line-0-unit_price": price,
        "extra-line-0-tax_code": "standard",
    }
    return client.post(address, form | change, follow=True)


def paper_of(client: Client, row: ExtraWork) -> str:
    answer = client.get(reverse("extra-work-pdf", args=[row.pk]))
    return " ".join(page.extract_text() for page in PdfReader(io.BytesIO(answer.content)).pages)


def test_the_builder_offers_it_and_the_page_says_that_it_waits(at_bench: Client, build: Acceptance) -> None:
    page = text_of(offered(at_bench, build, "400"))

    assert "Q-2026-0001/1 waits for the customer." in page
    assert "Then altogether €3,666.48" in page


def test_a_line_without_a_tax_bears_that_of_its_kind(at_bench: Client, build: Acceptance) -> None:
    Workshop.objects.update(tax_on_labour=TaxCode.objects.create(code="work", category="Z", reason="None"))
    offered(at_bench, build, "400", **{"extra-line-0-tax_code": "", "extra-line-0-kind": "labour"})
    (line,) = ExtraWork.objects.get().lines
    assert line["tax_code"] == "work"


def test_the_builder_does_small_work_within_the_limit(at_bench: Client, build: Acceptance) -> None:
    offered(at_bench, build, "20", within="1")

    assert ExtraWork.objects.get().state == "within"


def test_work_over_the_limit_is_not_done_and_what_was_typed_stays(
    at_bench: Client, build: Acceptance
) -> None:
    page = offered(at_bench, build, "400", within="1")

    assert "The customer must be asked before this is done" in text_of(page)
    assert 'value="Clutch basket fingers notched"' in page.content.decode()
    assert not ExtraWork.objects.exists()


def test_the_list_says_what_may_still_be_spent(at_bench: Client, build: Acceptance) -> None:
    extra(build, "100", within_limit=True)

    page = text_of(at_bench.get(reverse("extra-work-list", args=[build.pk])))

    assert "€80.00 may still be spent without asking." in page
    assert "At most, without another yes 3,386.48" in page


def test_the_desk_writes_a_call_down_with_its_number(at_bench: Client, build: Acceptance) -> None:
    row = extra(build, "400")
    call = {"accepted": "yes", "name": "Marel Otten", "how": "by telephone", "called": "000 555 0199"}

    page = at_bench.post(reverse("extra-work", args=[row.pk]), call, follow=True)

    assert "Marel Otten said yes on" in text_of(page)
    assert "000 555 0199" in ExtraWork.objects.get().answered_how


def test_the_customer_finds_it_on_his_page_and_says_yes(
    client: Client, build: Acceptance, token: str
) -> None:
    row = extra(build, "400")
    assert "waits for your answer" in text_of(client.get(reverse("customer-quote", args=[token])))
    address = reverse("customer-extra", args=[token, row.pk])

    page = client.post(address, {"extra-answer": "yes", "extra-name": "Marel Otten"}, follow=True)

    assert "Marel Otten said yes on" in text_of(page)
    assert ExtraWork.objects.get().state == "accepted"


def test_the_customer_declines_rider_safety_only_by_signing(
    client: Client, build: Acceptance, token: str
) -> None:
    row = extra(build, "40", SAFETY)
    address = reverse("customer-extra", args=[token, row.pk])
    no = {"extra-answer": "no", "extra-name": "Marel Otten"}

    assert "Not ticked" in text_of(client.post(address, no))
    client.post(address, no | {"extra-signed": "on"})

    assert (
        ExtraWork.objects.get().answered_how == "In writing, on the customer's own page, signed as a refusal"
    )


def test_another_customers_link_opens_none_of_it(client: Client, build: Acceptance) -> None:
    row = extra(build, "400")
    other = cast.build("H4-30001")
    strange = new_link(quote=other.quote, by=desk(), now=NOW).token

    for name in ("customer-extra", "customer-extra-pdf", "customer-extra-photo"):
        assert client.get(reverse(name, args=[strange, row.pk])).status_code == 404


def test_the_paper_says_the_sums_and_has_a_place_to_sign(at_bench: Client, build: Acceptance) -> None:
    row = extra(build, "40", SAFETY)

    text = paper_of(at_bench, row)
    assert "€3,234.48" in text
    assert "bears on the rider's safety" in text
    assert "Signature" in text


@pytest.mark.parametrize(
    ("page", "form"), [("extra-work-new", ""), ("build-extra", "extra-work/#extra-work")]
)
def test_a_listed_part_is_filled_in_at_a_press_and_kept_with_the_offer(
    at_bench: Client, build: Acceptance, page: str, form: str
) -> None:
    taken(read(listed("NG-77/B", "40", name="Dowel, long")))
    at_bench.force_login(desk())
    address = reverse(page, args=[build.pk])
    begun = typed(at_bench.get(reverse("extra-work-new", args=[build.pk])), "")
    begun |= {"extra-words": "Dowel worn", "extra-line-0-description": "Hole", "extra-line-0-unit_price": "9"}

    found = at_bench.post(address, begun | {"do": "find-listed", "q": "dowel"})
    assert (faults_on(found), 'value="Hole"' in found.content.decode()) == ({}, True)
    filled = typed(at_bench.post(address, begun | {"take-listed": str(ListedPart.objects.get().pk)}), form)
    assert (filled["extra-words"], filled["extra-line-1-number"]) == (["Dowel worn"], ["NG-77/B"])
    at_bench.post(address, filled | {"extra-line-0-quantity": "1"}, follow=True)

    row = ExtraWork.objects.get()
    line = row.lines[1]
    assert (line["supplier"], line["number"], line["cost"]) == (HOUSE, "NG-77/B", "40.00")
    assert "NG-77/B" in text_of(at_bench.get(reverse("extra-work", args=[row.pk])))
    assert "NG-77/B" not in paper_of(at_bench, row)


def test_hours_are_bought_of_no_supplier(at_bench: Client, build: Acceptance) -> None:
    taken(read(listed("NG-77/B", "40")))
    bought = {"extra-line-0-supplier": HOUSE, "extra-line-0-number": "1", "extra-line-0-kind": "labour"}
    assert "Only a part is bought of a supplier" in text_of(offered(at_bench, build, "40", **bought))
    assert not ExtraWork.objects.exists()
