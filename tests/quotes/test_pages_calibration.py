"""The pages on which services are told of, and the owner's page of stops expected and seen."""

from __future__ import annotations

from datetime import timedelta
from decimal import Decimal
from uuid import uuid4

import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from django.utils import timezone

from catalogue.calc.engine import EngineCatalogue
from quotes.actions.accepting import mark_done
from quotes.actions.bench.outcomes import ServiceTold, tell_outcome
from quotes.calc.ask.request import Request
from quotes.calc.sheet.values import Comparison
from quotes.calc.shop import Shop
from quotes.models import Acceptance, Job, ServiceOutcome, ShopFactorChange, Workshop
from quotes.queries import comparison
from tests.bench.cast import job
from tests.books.cast import build
from tests.books.page_forms import text_of, typed
from tests.cast import desk, owner
from tests.quotes.cast import NOW, ON
from tests.sample_sheet import sample_comparison
from tests.shipped import load_shipped

CHANGE = {"factor": "1.2", "reason": "Three seasons", "expected": "1"}


@pytest.fixture
def left(db: None) -> Acceptance:
    load_shipped()
    return mark_done(acceptance=build(), by=desk(), now=NOW)


@pytest.fixture
def back(left: Acceptance) -> Job:
    """The engine of that build, come in again after 1,550 miles."""
    job(quote=left.quote, service_amount=Decimal(4100))
    return job(engine=left.quote.engine, service_amount=Decimal(5650), now=NOW + timedelta(minutes=5))


@pytest.fixture
def at_desk(client: Client, db: None) -> Client:
    client.force_login(desk())
    return client


@pytest.fixture
def as_owner(client: Client, db: None) -> Client:
    client.force_login(owner())
    return client


def told(of: Acceptance, **change: object) -> ServiceOutcome:
    given = ServiceTold(**{"end": "ran", "on": ON, "ran": Decimal(2000), **change})  # type: ignore[arg-type]
    return tell_outcome(build=of, told=given, key=uuid4(), by=desk(), now=timezone.now())


def test_the_job_of_an_engine_that_comes_back_takes_the_word_in_one_press(at_desk: Client, back: Job) -> None:
    page = at_desk.get(reverse("job", args=[back.pk]))
    assert "How did its last service go?" in text_of(page)
    assert "It has run 1,550 miles since." in text_of(page)
    form = page.context["to_tell"]
    sent = {
        "key": uuid4().hex,
        "job": back.pk,
        "outcome-end": "ran",
        "outcome-ran": str(form.ran),
        "outcome-on": str(ON),
        "outcome-told_by": "Marel Otten",
    }
    answer = at_desk.post(reverse("outcome", args=[form.build.pk]), sent)
    assert answer["Location"] == reverse("job", args=[back.pk])
    assert ServiceOutcome.objects.get().job == back
    assert "How did its last service go?" not in text_of(at_desk.get(reverse("job", args=[back.pk])))


def test_what_is_wrong_stands_at_its_field_and_what_was_typed_stays(
    at_desk: Client, left: Acceptance
) -> None:
    url = reverse("outcome", args=[left.pk])
    sent = typed(
        at_desk.get(url), outcome__end="stopped", outcome__ran="far", outcome__note="Smoke, then quiet"
    )
    page = at_desk.post(url, sent)
    assert "“far” is not a number from 0 to 100000" in text_of(page)
    assert "Smoke, then quiet" in page.content.decode()
    assert not ServiceOutcome.objects.exists()


def test_a_build_that_is_told_of_shows_it_and_takes_it_back(at_desk: Client, left: Acceptance) -> None:
    told(left, end="stopped", ran=Decimal(800), stopped_by="valve_spring")
    page = at_desk.get(reverse("outcome", args=[left.pk]))
    assert "it stopped, after 800 miles, by valve spring (set per valve)" in text_of(page)
    engine = text_of(at_desk.get(reverse("engine", args=[left.quote.engine_id])))
    assert "It stopped, after 800 miles of 2,000 miles" in engine
    url = reverse("outcome-back", args=[ServiceOutcome.objects.get().pk])
    assert "say why it is taken back" in text_of(at_desk.post(url, {"back-because": ""}, follow=True)).lower()
    at_desk.post(url, {"back-because": "Another engine"})
    assert not ServiceOutcome.objects.standing().exists()


def test_what_falls_due_on_an_engine_leads_to_how_its_service_went(at_desk: Client, left: Acceptance) -> None:
    due, link = reverse("engine-due", args=[left.quote.engine_id]), reverse("outcome", args=[left.pk])
    assert link in at_desk.get(due).content.decode()
    told(left)
    assert link not in at_desk.get(due).content.decode()


def test_an_empty_record_says_what_to_do_first(as_owner: Client) -> None:
    page = text_of(as_owner.get(reverse("calibration")))
    assert "Nothing is told yet." in page
    assert "From 20 services and 5 stops" in page


def test_a_short_record_shows_its_counts_and_says_that_it_is_short(
    as_owner: Client, left: Acceptance
) -> None:
    told(left, end="stopped", ran=Decimal(1000))
    page = text_of(as_owner.get(reverse("calibration")))
    assert "Of 1 service told of, 1 ended in a stop; less than one was expected to." in page
    assert "Mild" in page
    assert "Too few to say" in page
    assert "Stopped by: not known." in page


def test_only_the_owner_sees_the_record_and_sets_the_factor(at_desk: Client, left: Acceptance) -> None:
    assert at_desk.get(reverse("calibration")).status_code == 403
    assert at_desk.post(reverse("shop-factor"), CHANGE).status_code == 403
    assert Workshop.objects.get().shop_factor == 1


def test_another_factor_shows_what_it_would_do_before_it_is_set(
    as_owner: Client, left: Acceptance, monkeypatch: pytest.MonkeyPatch
) -> None:
    asked_with = []

    def worked_out(request: Request, catalogue: EngineCatalogue, shop: Shop) -> Comparison:
        asked_with.append(shop.shop_factor)
        return sample_comparison()

    monkeypatch.setattr(comparison, "compare", worked_out)
    page = as_owner.get(reverse("shop-factor"), {"factor": "3"})
    assert asked_with == [1.0, 3.0] * 3
    assert "600 inline four, 2,000 miles of endurance racing" in text_of(page)
    assert "Set it, signed Orla Venn" in text_of(page)


def test_the_factor_is_set_with_a_reason_and_taken_back(as_owner: Client, left: Acceptance) -> None:
    refused = as_owner.post(reverse("shop-factor"), CHANGE | {"reason": "", "factor": "1"})
    assert "Nothing is given." in text_of(refused)
    assert refused.context["form"]["factor"].value() == "1"
    assert as_owner.post(reverse("shop-factor"), CHANGE)["Location"] == reverse("calibration")
    page = text_of(as_owner.get(reverse("calibration")))
    assert "It is 1.2 now." in page
    assert "Three seasons" in page
    url = reverse("shop-factor-back", args=[ShopFactorChange.objects.get().pk])
    as_owner.post(url, {"back-because": "Too few engines"})
    assert Workshop.objects.get().shop_factor == 1


@pytest.mark.parametrize("factor", ["0.05", "11", "many", ""])
def test_a_factor_that_cannot_be_is_refused(as_owner: Client, left: Acceptance, factor: str) -> None:
    page = text_of(as_owner.get(reverse("shop-factor"), {"factor": factor}))
    assert "a number from 0.1 to 10" in page
    assert "a number from 0.1 to 10" in text_of(
        as_owner.post(reverse("shop-factor"), CHANGE | {"factor": factor})
    )


def test_the_record_costs_the_same_for_one_service_and_for_five(as_owner: Client, left: Acceptance) -> None:
    url = reverse("calibration")
    row = told(left)
    as_owner.get(url)
    with CaptureQueriesContext(connection) as one:
        as_owner.get(url)
    five(row)
    with CaptureQueriesContext(connection) as all_of_them:
        page = as_owner.get(url)
    assert page.context["found"].whole.services == 5
    assert len(all_of_them) == len(one)


def five(row: ServiceOutcome) -> None:
    """Four services more, each of a build of its own, as plain copies of the rows."""
    for number in range(4):
        of = build(f"H4-{30000 + number}")
        mark_done(acceptance=of, by=desk(), now=NOW)
        row.pk, row.build, row.key = None, of, uuid4()
        row._state.adding = True
        row.save()
