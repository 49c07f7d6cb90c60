"""What the rest of the site asks of the catalogue."""

from __future__ import annotations

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.utils import translation

from catalogue import queries
from catalogue.actions.entries import count_up
from catalogue.models import Fact, Offer, Part
from catalogue.queries.rows import catalogue_rows
from tests.cast import shipped, shipped_rows

pytestmark = pytest.mark.django_db
TYPES = ("single450", "twin650", "four600", "four1000")


def test_the_database_gives_back_every_row_that_was_loaded(loaded: None) -> None:
    assert catalogue_rows().model_copy(update={"version": ""}) == shipped_rows()


@pytest.mark.parametrize("engine_type", TYPES)
def test_the_database_settles_as_the_files_do(loaded: None, engine_type: str) -> None:
    assert queries.engine_catalogue(engine_type) == shipped(engine_type)


def test_reading_costs_the_same_however_much_there_is(loaded: None) -> None:
    with CaptureQueriesContext(connection) as everything:
        assert len(catalogue_rows().parts) == 391
    few = Part.objects.values_list("code", flat=True)[:1]
    Offer.objects.exclude(part__in=list(few)).delete()
    Part.objects.exclude(code__in=list(few)).delete()
    Fact.objects.all().delete()
    with CaptureQueriesContext(connection) as little:
        assert len(catalogue_rows().parts) == 1
    assert len(everything) == len(little)


def test_what_was_settled_is_kept_until_somebody_changes_the_catalogue(loaded: None) -> None:
    first = queries.engine_catalogue("four600")
    with CaptureQueriesContext(connection) as again:
        assert queries.engine_catalogue("four600") is first
    assert len(again) == 1
    count_up()
    assert queries.engine_catalogue("four600") is not first


def test_an_empty_catalogue_says_how_to_fill_it(no_catalogue: None) -> None:
    with pytest.raises(queries.EmptyCatalogueError, match=r"manage\.py load_catalogue"):
        queries.engine_catalogue("four600")
    assert queries.engine_type_choices() == []
    assert queries.duty_choices() == []


def test_an_unknown_engine_type_is_refused(loaded: None) -> None:
    with pytest.raises(queries.UnknownEngineTypeError, match="single450, twin650, four600, four1000"):
        queries.engine_catalogue("v8")


@pytest.mark.both_databases
def test_choices_come_in_the_shipped_order(loaded: None) -> None:
    assert queries.engine_type_choices() == [
        ("single450", "450 single"),
        ("twin650", "650 parallel twin"),
        ("four600", "600 inline four"),
        ("four1000", "1000 inline four"),
    ]
    assert [code for code, _ in queries.duty_choices()] == [
        "endurance", "sprint", "track_day", "motocross", "hill_climb", "drag",
    ]  # fmt: skip
    assert [code for code, _ in queries.tier_choices()] == ["refresh", "mild", "full"]


def test_the_catalogue_speaks_the_language_in_hand(loaded: None) -> None:
    with translation.override("de"):
        german = queries.engine_catalogue("four600")
    assert german.components["rod_bolt"].name == "Pleuelschrauben"
    assert queries.engine_catalogue("four600").components["rod_bolt"].name == "connecting rod bolts"
    assert (
        german.components["rod_bolt"].lives
        == queries.engine_catalogue("four600").components["rod_bolt"].lives
    )
