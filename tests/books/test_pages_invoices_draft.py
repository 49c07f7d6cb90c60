"""The page of a draft: lines in and out, the sum that follows, keeping, issuing, what stands in the way."""

from __future__ import annotations

from datetime import timedelta
from decimal import Decimal
from typing import Any

import pytest
from django.test import Client
from django.urls import reverse
from django.utils import timezone
from pytest_django import DjangoAssertNumQueries

from quotes.models import Acceptance, Invoice, InvoiceDraft
from quotes.queries.books.sheets import content_of
from tests.books import cast
from tests.books.page_forms import text_of, typed
from tests.cast import books, desk, owner


@pytest.fixture
def draft(build: Acceptance) -> InvoiceDraft:
    return cast.drafted(build)


def address(draft: InvoiceDraft, name: str = "invoice-draft") -> str:
    return reverse(name, args=[draft.pk])


def opened(client: Client, draft: InvoiceDraft) -> Any:
    answer = client.get(address(draft))
    assert answer.status_code == 200
    return answer


def post(client: Client, draft: InvoiceDraft, do: str, page: Any = None, **change: Any) -> Any:
    page = page or opened(client, draft)
    name = "invoice-issue" if do == "issue" else "invoice-draft"
    return client.post(address(draft, name), typed(page, f"drafts/{draft.pk}/", do=do, **change))


def kept(draft: InvoiceDraft) -> Any:
    return content_of(InvoiceDraft.objects.get(pk=draft.pk))


def test_the_draft_shows_its_lines_and_the_sum_as_it_will_stand(at_desk: Client, draft: InvoiceDraft) -> None:
    page = text_of(opened(at_desk, draft))

    assert "VAT, 20 % on 2,655.40 531.08" in page
    assert "To pay 3,186.48" in page
    assert "Within the yes: up to €3,386.48 is accepted." in page


def test_the_sum_follows_what_is_typed_and_keeps_nothing(at_desk: Client, draft: InvoiceDraft) -> None:
    sent = typed(opened(at_desk, draft), f"drafts/{draft.pk}/", line__0__quantity="1")

    part = at_desk.post(address(draft), sent, headers={"HX-Request": "true", "HX-Target": "draft-sum"})

    assert 'id="net-0" hx-swap-oob="true">110.00<' in part.content.decode()
    assert "<main" not in part.content.decode()
    assert kept(draft).lines[0].quantity != 1


def test_without_a_script_the_page_works_it_out_again(at_desk: Client, draft: InvoiceDraft) -> None:
    page = post(at_desk, draft, "work", line__0__quantity="1")

    assert 'value="1"' in page.content.decode()
    assert page.context["sheet"].lines[0].net == Decimal("110.00")


def test_a_line_is_taken_out_and_offered_to_be_taken_in_again(at_desk: Client, draft: InvoiceDraft) -> None:
    lines = len(kept(draft).lines)
    post(at_desk, draft, "keep", line__2__inside=None)
    assert len(kept(draft).lines) == lines - 1

    page = opened(at_desk, draft)
    assert [each.row.line.description for each in page.context["outside"]] != []
    post(at_desk, draft, "keep", page, **{f"line__{lines - 1}__inside": "on"})

    assert len(kept(draft).lines) == lines


def test_the_customers_own_part_is_not_charged(at_desk: Client, draft: InvoiceDraft) -> None:
    place = next(i for i, line in enumerate(kept(draft).lines) if line.kind == "part")

    post(at_desk, draft, "keep", **{f"line__{place}__own_part": "on"})

    assert kept(draft).lines[place].own_part
    assert opened(at_desk, draft).context["sheet"].lines[place].net == 0


@pytest.mark.parametrize(
    ("field", "value", "said"),
    [
        (
            "line__0__quantity",
            "many",
            "“many” is not a number from -9999999 to 9999999, with at most 4 decimals.",
        ),
        ("line__0__unit_price", "-1", "“-1” is not a number from 0 to 9999999, with at most 4 decimals."),
        ("head__payer", "Nobody Here", "“Nobody Here” is nobody in our book: pick one of the list."),
        ("head__supplied_on", "soon", "“soon” is not a day, such as 2026-12-24."),
        ("new__unit_price", "5", "Nothing is given: what it is for, in a few words."),
    ],
)
def test_a_fault_stands_at_its_field_and_what_was_typed_stays(
    at_desk: Client, draft: InvoiceDraft, field: str, value: str, said: str
) -> None:
    version = draft.version

    page = post(at_desk, draft, "keep", **{field: value})

    assert said in text_of(page)
    assert f'value="{value}"' in page.content.decode()
    assert InvoiceDraft.objects.get(pk=draft.pk).version == version


def test_a_line_of_our_own_is_added(at_desk: Client, draft: InvoiceDraft) -> None:
    post(at_desk, draft, "add-line", new__kind="freight", new__description="Carrier", new__unit_price="40")

    added = kept(draft).lines[-1]
    assert (added.kind, added.description, added.quantity, added.unit_price) == ("freight", "Carrier", 1, 40)


def test_a_new_line_that_nobody_wrote_is_no_fault(at_desk: Client, draft: InvoiceDraft) -> None:
    assert "Nothing is given" not in text_of(post(at_desk, draft, "work"))


def test_an_empty_line_is_not_added(at_desk: Client, draft: InvoiceDraft) -> None:
    page = post(at_desk, draft, "add-line")

    assert "Nothing is given: what it is for, in a few words." in text_of(page)


def test_another_payer_is_picked_by_name(at_desk: Client, draft: InvoiceDraft) -> None:
    team = cast.other_payer()

    post(at_desk, draft, "keep", head__payer="two rivers")

    assert InvoiceDraft.objects.get(pk=draft.pk).customer == team


def test_what_somebody_else_kept_is_shown_and_nothing_typed_is_lost(
    at_desk: Client, draft: InvoiceDraft
) -> None:
    page = opened(at_desk, draft)
    cast.changed(draft, cast.with_line(cast.line()))

    stale = post(at_desk, draft, "keep", page, line__0__quantity="3")

    assert "Bea Marrow has changed this since you opened it" in text_of(stale)
    assert "Freight of the crankshaft" in text_of(stale)
    assert 'value="3"' in stale.content.decode()
    post(at_desk, draft, "keep", stale)
    assert kept(draft).lines[0].quantity == 3


def test_beyond_the_yes_is_said_with_the_way_to_extra_work(at_desk: Client, draft: InvoiceDraft) -> None:
    page = post(at_desk, draft, "work", new__description="Frame painted", new__unit_price="900")

    assert "Beyond the yes." in text_of(page)
    assert "Frame painted: not accepted" in text_of(page)
    assert f"{reverse('build-money', args=[draft.build_id])}#extra-work" in page.content.decode()


def test_beyond_the_yes_is_issued_only_with_the_owners_word(client: Client, draft: InvoiceDraft) -> None:
    client.force_login(desk())
    more = {"new__description": "Frame painted", "new__unit_price": "900"}
    refused = post(client, draft, "issue", **more)
    assert "or let the owner consent in writing" in text_of(refused)
    assert not Invoice.objects.exists()

    client.force_login(owner())
    page = opened(client, draft)
    answer = post(client, draft, "issue", page, consent="Agreed with him at the meeting")

    made = Invoice.objects.get()
    assert answer["Location"] == reverse("invoice", args=[made.pk])
    assert made.consent == "Agreed with him at the meeting"


def test_issuing_keeps_what_was_typed_first_and_leads_to_the_invoice(
    at_desk: Client, draft: InvoiceDraft
) -> None:
    page = opened(at_desk, draft)
    assert "this can't be undone" in text_of(page)

    answer = post(at_desk, draft, "issue", page, line__0__quantity="1")

    made = Invoice.objects.get()
    assert answer["Location"] == reverse("invoice", args=[made.pk])
    assert made.sheet["lines"][0]["quantity"] == "1"


def test_issued_twice_it_is_one_invoice_and_the_draft_leads_to_it(
    at_desk: Client, draft: InvoiceDraft
) -> None:
    page = opened(at_desk, draft)
    post(at_desk, draft, "issue", page)
    again = post(at_desk, draft, "issue", page)

    made = Invoice.objects.get()
    assert again["Location"] == reverse("invoice", args=[made.pk])
    assert at_desk.get(address(draft))["Location"] == reverse("invoice", args=[made.pk])


def test_a_quantity_that_was_asked_for_already_is_refused_at_its_line(
    at_desk: Client, build: Acceptance
) -> None:
    cast.invoiced(build, share_pct=Decimal(50))
    draft = cast.drafted(build)

    page = post(at_desk, draft, "issue", line__0__quantity="100")

    assert "was asked for already" in text_of(page)
    assert 'aria-invalid="true"' in page.content.decode()


def test_a_credit_note_takes_back_a_part_with_its_reason(at_desk: Client, build: Acceptance) -> None:
    made = cast.invoiced(build)
    at_desk.post(reverse("invoice-credit", args=[made.pk]))
    draft = InvoiceDraft.objects.get(kind="credit_note")
    others = {f"line__{place}__inside": None for place in range(1, len(kept(draft).lines))}

    refused = post(at_desk, draft, "work", **others, line__0__quantity="100")
    assert "“100”: at most" in text_of(refused)
    post(at_desk, draft, "issue", **others, line__0__quantity="0.5", head__reason="Clocked twice")

    note = Invoice.objects.get(kind="credit_note")
    assert (note.net, note.sheet["reason"]) == (Decimal("55.00"), "Clocked twice")


def test_a_draft_is_dropped_and_can_not_be_opened_any_more(at_desk: Client, draft: InvoiceDraft) -> None:
    answer = at_desk.post(address(draft, "invoice-drop"))

    assert answer["Location"] == reverse("build-money", args=[draft.build_id])
    assert at_desk.get(address(draft))["Location"] == reverse("invoice-list")


def test_work_by_the_clock_takes_the_place_of_what_was_quoted(at_desk: Client, build: Acceptance) -> None:
    from quotes.actions.books.worked_hours import enter_hours

    enter_hours(
        build=build, operation="head_on", person=desk(), on=cast.ON, hours=Decimal(2), by=desk(), now=cast.NOW
    )
    draft = cast.drafted(build)

    post(at_desk, draft, "labour:clocked")
    assert kept(draft).labour_by == "clocked"
    assert Decimal(2) in [line.quantity for line in kept(draft).lines if line.kind == "labour"]
    post(at_desk, draft, "labour:quoted")

    assert kept(draft).lines == content_of(draft).lines


def test_interest_and_storage_are_proposed_with_their_working_and_added_only_when_pressed(
    at_desk: Client, db: None
) -> None:
    cast.vat_shop()
    cast.keep_settings(late_pct_a_year=Decimal(8), late_after_days=0, payment_days=0)
    late = cast.invoiced(cast.build("E-1"), now=timezone.now() - timedelta(days=100))
    draft = cast.drafted(cast.build("E-2"))
    lines = len(kept(draft).lines)

    page = opened(at_desk, draft)
    assert f"Interest on {late.number}" in text_of(page)
    assert "3,186.48 for 100 days at 8 % a year" in text_of(page)
    assert len(kept(draft).lines) == lines
    post(at_desk, draft, "add:0", page)

    assert [line.kind for line in kept(draft).lines][lines:] == ["interest"]
    assert f"Interest on {late.number}" not in [
        each.line.description for each in opened(at_desk, draft).context["proposals"]
    ]


@pytest.mark.both_databases
@pytest.mark.parametrize("held", ["{}", "", '{"key": "a\\u0000b"}', "no json"])
def test_a_page_that_comes_back_without_its_lines_keeps_nothing(
    at_desk: Client, draft: InvoiceDraft, held: str
) -> None:
    page = post(at_desk, draft, "keep", line__0__held=held)

    assert "open the draft again" in text_of(page)
    assert kept(draft) == content_of(draft)


def test_a_sale_needs_no_build(at_desk: Client, workshop_only: None) -> None:
    cast.other_payer()
    page = at_desk.get(reverse("invoice-new"))
    nobody = at_desk.post(reverse("invoice-new"), typed(page, head__payer=""))
    assert "type a name or a telephone number" in text_of(nobody)

    sent = typed(page, head__payer="Two Rivers", new__description="Gasket", new__unit_price="12")
    answer = at_desk.post(reverse("invoice-new"), sent)

    assert answer["Location"] == address(InvoiceDraft.objects.get())


@pytest.fixture
def workshop_only(db: None) -> None:
    cast.vat_shop()


def test_the_books_may_do_all_of_it(client: Client, draft: InvoiceDraft) -> None:
    client.force_login(books())

    post(client, draft, "issue")

    assert Invoice.objects.count() == 1


def test_a_credit_note_without_a_reason_is_not_issued(at_desk: Client, build: Acceptance) -> None:
    made = cast.invoiced(build)
    at_desk.post(reverse("invoice-credit", args=[made.pk]))
    draft = InvoiceDraft.objects.get(kind="credit_note")

    page = post(at_desk, draft, "issue")

    assert page.status_code == 200
    assert 'class="err"' in page.content.decode()
    assert not Invoice.objects.filter(kind="credit_note").exists()


@pytest.mark.parametrize("more", [0, 20])
def test_a_draft_of_many_lines_costs_no_more_queries(
    at_desk: Client, draft: InvoiceDraft, more: int, django_assert_num_queries: DjangoAssertNumQueries
) -> None:
    if more:
        extra = tuple(cast.line(f"Freight {number}") for number in range(more))
        cast.changed(draft, lambda content: content.model_copy(update={"lines": (*content.lines, *extra)}))

    with django_assert_num_queries(37):
        opened(at_desk, draft)


def test_who_keeps_a_draft_that_somebody_has_issued_meanwhile_is_told(
    at_desk: Client, draft: InvoiceDraft
) -> None:
    page = opened(at_desk, draft)
    cast.issue(draft)

    answer = post(at_desk, draft, "keep", page, line__0__quantity="1")

    assert answer["Location"] == reverse("invoice", args=[Invoice.objects.get().pk])
    assert "what you typed last is not in it" in text_of(at_desk.get(answer["Location"]))
