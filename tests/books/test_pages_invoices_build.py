"""The money of a build: what is due next, extra work and its answer, hours, parts, the customer's view."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

import pytest
from django.test import Client
from django.urls import reverse
from django.utils import timezone
from pytest_django import DjangoAssertNumQueries

from quotes.actions.links import new_link
from quotes.models import Acceptance, ExtraWork, InvoiceDraft, WorkedHours
from quotes.queries.books.sheets import content_of
from tests.books import cast
from tests.books.page_forms import text_of, typed
from tests.cast import books, builder, desk, owner


def opened(client: Client, build: Acceptance) -> Any:
    answer = client.get(reverse("build-money", args=[build.pk]))
    assert answer.status_code == 200
    return answer


def labels(page: Any) -> list[str]:
    return [act.label for act in page.context["acts"]]


def test_the_page_says_what_was_agreed_and_up_to_what_sum(at_desk: Client, build: Acceptance) -> None:
    page = text_of(opened(at_desk, build))

    assert "Marel Otten said yes to Mild build on" in page
    assert "€3,186.48, up to €3,386.48 without asking again." in page
    assert "Still to invoice, work by the hours quoted 3,186.48" in page


def test_one_button_is_solid_and_it_is_what_is_due_next(at_desk: Client, build: Acceptance) -> None:
    page = opened(at_desk, build)
    assert labels(page) == ["Ask for the deposit", "Invoice"]
    main = page.content.decode().split("<main")[1]
    assert main.count('class="press"') == 1

    deposit = cast.deposited(build)
    assert labels(opened(at_desk, build))[0] == f"Take the deposit, {deposit.number}"


def test_a_shop_that_takes_deposits_by_receipt_is_led_to_the_payment(
    at_desk: Client, build: Acceptance
) -> None:
    cast.keep_settings(deposit_by="receipt")

    page = opened(at_desk, build)

    assert page.context["acts"][0].url == f"{reverse('payment-new')}?build={build.pk}"


def test_the_deposit_begins_as_a_draft_and_then_the_invoice(at_desk: Client, build: Acceptance) -> None:
    first = at_desk.post(reverse("build-deposit", args=[build.pk]))
    deposit = InvoiceDraft.objects.get()
    assert first["Location"] == reverse("invoice-draft", args=[deposit.pk])
    cast.issue(deposit)

    at_desk.post(reverse("build-invoice", args=[build.pk]))

    draft = InvoiceDraft.objects.get(kind="invoice")
    assert [line.kind for line in content_of(draft).lines][-1] == "deposit"
    assert labels(opened(at_desk, build))[0] == "Go on with the draft invoice"


def test_nothing_left_to_invoice_is_said(at_desk: Client, build: Acceptance) -> None:
    cast.invoiced(build)

    answer = at_desk.post(reverse("build-invoice", args=[build.pk]), follow=True)

    assert "All that was accepted has been asked for" in text_of(answer)


def test_a_part_goes_to_another_payer(at_desk: Client, build: Acceptance) -> None:
    team = cast.other_payer()
    page = opened(at_desk, build)

    at_desk.post(
        reverse("build-part", args=[build.pk]),
        typed(page, "part/", part__payer="Two Rivers", part__kinds=["labour"]),
    )

    draft = InvoiceDraft.objects.get()
    assert draft.customer == team
    assert {line.kind for line in content_of(draft).lines} == {"labour"}


def test_a_share_that_is_none_is_refused_at_its_field(at_desk: Client, build: Acceptance) -> None:
    page = opened(at_desk, build)

    refused = at_desk.post(
        reverse("build-part", args=[build.pk]), typed(page, "part/", part__share_pct="120")
    )

    assert "“120” is not a number from 0.01 to 100, with at most 2 decimals." in text_of(refused)
    assert not InvoiceDraft.objects.exists()


def offered(client: Client, build: Acceptance, **change: Any) -> Any:
    first = {
        "extra__words": "A bore is scored",
        "extra-line__0__description": "Plated again",
        "extra-line__0__kind": "machine_work",
        "extra-line__0__quantity": "1",
        "extra-line__0__unit_price": "320",
    }
    sent = typed(opened(client, build), "/extra-work/#extra-work", **(first | change))
    return client.post(reverse("build-extra", args=[build.pk]), sent)


def test_extra_work_is_offered_and_the_answer_by_telephone_written_down(
    at_desk: Client, build: Acceptance
) -> None:
    offered(at_desk, build)
    extra = ExtraWork.objects.get()
    assert extra.gross == Decimal("384.00")
    address = reverse("build-extra-answer", args=[build.pk, extra.pk])
    mark = f"answer-{extra.pk}"
    told = {f"{mark}__accepted": "yes", f"{mark}__name": "Marel Otten", f"{mark}__how": "by telephone"}

    page = at_desk.post(address, typed(opened(at_desk, build), f"extra-work/{extra.pk}/#extra-work", **told))
    assert "which number was called?" in text_of(page)
    sent = typed(page, f"extra-work/{extra.pk}/#extra-work", **{f"{mark}__called": "000 555 0199"})
    at_desk.post(address, sent)

    extra.refresh_from_db()
    assert (extra.state, extra.answered_by) == ("accepted", "Marel Otten")
    assert "by telephone, 000 555 0199" in extra.answered_how
    assert "up to €3,770.48 without asking again" in text_of(opened(at_desk, build))


@pytest.mark.parametrize(
    ("change", "said"),
    [
        ({"extra__words": ""}, "Nothing is given: the customer reads this."),
        ({"extra-line__0__quantity": "0"}, "“0” is not a number from 0.001 to 99999"),
        ({"extra-line__0__unit_price": ""}, "Nothing is given: a number from 0 to 9999999"),
        (
            {f"extra-line__0__{name}": "" for name in ("description", "quantity", "unit_price")},
            "Nothing stands in the lines",
        ),
    ],
)
def test_what_is_wrong_with_an_offer_is_said_and_nothing_is_kept(
    at_desk: Client, build: Acceptance, change: dict[str, str], said: str
) -> None:
    assert said in text_of(offered(at_desk, build, **change))
    assert not ExtraWork.objects.exists()


def worked(client: Client, build: Acceptance, **change: Any) -> Any:
    first = {"hours__operation": "head_on", "hours__hours": "1.5"}
    sent = typed(opened(client, build), "hours/#hours", **(first | change))
    return client.post(reverse("build-hours", args=[build.pk]), sent)


def test_the_builder_writes_hours_down_and_corrects_them(client: Client, build: Acceptance) -> None:
    client.force_login(builder())
    worked(client, build, hours__person=str(builder().pk))
    entry = WorkedHours.objects.get()
    assert (entry.operation, entry.hours) == ("head_on", Decimal("1.5"))

    page = client.get(reverse("build-money", args=[build.pk]), {"hours": entry.pk})
    address = reverse("build-hours-correct", args=[build.pk, entry.pk])
    client.post(address, typed(page, f"hours/{entry.pk}/#correct", correct__hours="2"))

    entry.refresh_from_db()
    assert entry.hours == 2


@pytest.mark.parametrize(
    ("change", "said"),
    [
        ({"hours__hours": "25"}, "“25” is not a number from 0.01 to 24, with at most 2 decimals."),
        ({"hours__operation": ""}, "Nothing is picked: choose one of the list."),
        ({"hours__on": "2999-01-01"}, "“2999-01-01” has not come yet"),
    ],
)
def test_hours_that_can_not_be_are_refused_at_their_field(
    at_desk: Client, build: Acceptance, change: dict[str, str], said: str
) -> None:
    assert said in text_of(worked(at_desk, build, **change))
    assert not WorkedHours.objects.exists()


def test_the_builder_sees_neither_cost_nor_what_to_invoice(client: Client, build: Acceptance) -> None:
    client.force_login(builder())
    page = opened(client, build)

    assert page.context["acts"] == []
    assert "Cost so far" not in text_of(page)
    assert client.post(reverse("build-invoice", args=[build.pk])).status_code == 403


@pytest.mark.parametrize(("who", "sees"), [(desk, False), (books, True), (owner, True)])
def test_cost_is_for_the_books_and_the_owner(client: Client, build: Acceptance, who: Any, sees: bool) -> None:
    client.force_login(who())

    assert ("Cost so far" in text_of(opened(client, build))) == sees


def test_the_worksheet_of_an_accepted_quote_leads_here(at_desk: Client, build: Acceptance) -> None:
    page = at_desk.get(reverse("quote", args=[build.quote_id]))

    assert reverse("build-money", args=[build.pk]) in page.content.decode()


def test_the_page_costs_the_same_queries_however_much_is_in_it(
    at_desk: Client, build: Acceptance, django_assert_max_num_queries: DjangoAssertNumQueries
) -> None:
    for number in range(6):
        cast.extra_work(build, words=f"Found {number}", accepted=None)
        worked(at_desk, build, hours__hours="0.5")
    cast.deposited(build)

    with django_assert_max_num_queries(30):
        opened(at_desk, build)


@pytest.fixture
def token(build: Acceptance) -> str:
    return new_link(quote=build.quote, by=desk(), now=timezone.now()).token


def test_the_customer_reads_the_invoices_of_the_build_and_takes_them_away(
    client: Client, build: Acceptance, token: str
) -> None:
    made = cast.invoiced(build)

    page = client.get(reverse("customer-quote", args=[token]))
    address = reverse("customer-invoice", args=[token, made.pk])

    assert f"{made.number} invoice" in text_of(page)
    assert "€3,186.48 €3,186.48" in text_of(page)
    assert address in page.content.decode()
    assert client.get(address).content == bytes(made.pdf.content)


def test_nobody_elses_invoice_is_shown_under_a_link(client: Client, build: Acceptance, token: str) -> None:
    others = cast.invoiced(cast.build("E-2"))
    team = cast.invoiced(build, payer=cast.other_payer())

    assert team.number not in text_of(client.get(reverse("customer-quote", args=[token])))
    for made in (others, team):
        answer = client.get(reverse("customer-invoice", args=[token, made.pk]))
        assert answer.status_code == 404
        assert "Nothing here" in text_of(answer)


def test_before_the_yes_the_customers_page_has_no_invoices(
    client: Client, build: Acceptance, token: str
) -> None:
    assert "Invoices of this build" not in text_of(client.get(reverse("customer-quote", args=[token])))
