"""What was worked out a moment ago is not worked out again, unless something it rests on has changed."""

from __future__ import annotations

from decimal import Decimal

import pytest
from django.utils import translation

from quotes.calc.ask.request import Request
from quotes.models import Engine, Workshop
from quotes.queries import comparison
from quotes.queries.comparison import comparison_for
from quotes.queries.sheets import request_of
from tests.quotes import cast

# Nothing here depends on the database.
pytestmark = [pytest.mark.django_db, pytest.mark.one_database]


@pytest.fixture
def worked_out(monkeypatch: pytest.MonkeyPatch) -> list[Request]:
    """The requests that the sums were really asked for."""
    asked: list[Request] = []
    sums = comparison.compare
    comparison._worked_out.cache_clear()

    def counted(*told: object) -> object:
        asked.append(told[0])  # type: ignore[arg-type]
        return sums(*told)  # type: ignore[arg-type]

    monkeypatch.setattr(comparison, "compare", counted)
    return asked


@pytest.fixture
def request_(workshop: Workshop, engine: Engine) -> Request:
    return request_of(cast.draft(engine, tiers=("refresh",)))


def test_what_was_just_asked_is_not_worked_out_again(worked_out: list[Request], request_: Request) -> None:
    first, again = comparison_for(request_), comparison_for(request_.model_copy())
    assert again == first
    assert worked_out == [request_]


def test_another_request_is_worked_out(worked_out: list[Request], request_: Request) -> None:
    full = request_.model_copy(update={"tiers": ("mild",)})
    assert comparison_for(full) != comparison_for(request_)
    assert worked_out == [full, request_]


def test_wider_hours_are_seen_at_once(
    worked_out: list[Request], request_: Request, workshop: Workshop
) -> None:
    before = comparison_for(request_).options[0].gross.high
    Workshop.objects.update(hours_spread_pct=workshop.hours_spread_pct + Decimal(10))
    assert comparison_for(request_).options[0].gross.high > before
    assert len(worked_out) == 2


def test_a_reader_of_another_language_gets_it_in_his_own(
    worked_out: list[Request], request_: Request
) -> None:
    english = comparison_for(request_).engine_type_name
    with translation.override("de"):
        assert comparison_for(request_).engine_type_name != english
    assert len(worked_out) == 2
