"""Sample data comes into an empty workshop only, and goes again to the last row."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import pytest
from django.conf import settings
from django.contrib.auth.models import User
from django.core import serializers
from django.db import IntegrityError, models, transaction
from django.test import Client
from django.urls import reverse

from quotes.actions.sample import NotEmpty, load_sample, remove_sample, sample_models
from quotes.calc.demo.workshop import Demo
from quotes.imports.demo.file import read_demo
from quotes.models import Customer, Quote, Revision, Workshop
from tests.cast import desk, owner, shipped_rows
from tests.quotes import cast

pytestmark = [pytest.mark.django_db, pytest.mark.one_database]
"""Rows are thawed on both databases in the tests of erasing."""


@cache
def small_demo() -> Demo:
    """The demo with one quote that was issued, which is enough to be taken out again."""
    demo = read_demo(Path(settings.BASE_DIR) / "fixtures" / "demo", "sales-tax")
    quote = next(each for each in demo.quotes if each.steps and each.steps[0].act == "issue")
    return demo.model_copy(
        update={"quotes": (quote.model_copy(update={"steps": quote.steps[:1]}),), "enquiries": ()}
    )


def loaded() -> None:
    load_sample(demo=small_demo(), style="sales-tax", catalogue=shipped_rows(), by=owner(), now=cast.NOW)


def everything() -> dict[str, str]:
    """Every row of every table that the sample may write to."""
    return {
        model._meta.label: serializers.serialize("json", model._base_manager.order_by("pk"))
        for model in sample_models()
    }


def test_it_goes_again_to_the_last_row_and_the_settings_made_come_back(db: None, client: Client) -> None:
    cast.workshop(name="Sorrel Yard Engines")
    owner()
    before, people = everything(), User.objects.count()
    loaded()

    assert (Quote.objects.count(), User.objects.count()) == (1, people)
    assert Workshop.objects.get().name != "Sorrel Yard Engines"
    client.force_login(owner())
    assert "<b>Sample data.</b>" in client.get(reverse("customer-list")).content.decode()
    with pytest.raises(IntegrityError), transaction.atomic():
        models.QuerySet(Revision).update(sheet={})

    client.post(reverse("sample-remove"))
    assert everything() == before
    assert "<b>Sample data.</b>" not in client.get(reverse("customer-list")).content.decode()


def test_it_is_not_mixed_with_what_is_there(db: None, client: Client) -> None:
    cast.workshop()
    cast.customer()
    before = everything()
    client.force_login(owner())

    with pytest.raises(NotEmpty):
        loaded()
    assert "Load sample data" not in client.get(reverse("home")).content.decode()
    assert everything() == before


def test_what_is_ones_own_can_not_be_taken_out_as_sample(db: None, client: Client) -> None:
    cast.workshop()
    cast.customer()
    client.force_login(owner())
    client.post(reverse("sample-remove"))

    with pytest.raises(NotEmpty):
        remove_sample()
    assert Customer.objects.exists()


def test_the_owner_of_an_empty_workshop_is_offered_it_and_nobody_else(db: None, client: Client) -> None:
    offered = {}
    for who in (owner(), desk()):
        client.force_login(who)
        offered[who.username] = "Load sample data" in client.get(reverse("home")).content.decode()

    assert offered == {"owner": True, "desk": False}
