"""Another tax rate on the settings page: with its day, shown beside those before it, taken back in time."""

from __future__ import annotations

from datetime import timedelta

import pytest
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from quotes.queries.tax_rates import tax_rates
from tests.quotes.settings_payload import payload, shown

pytestmark = pytest.mark.django_db


@pytest.fixture
def kept(client: Client) -> Client:
    """A workshop with a sales tax of 7.25 % from the beginning."""
    client.post(reverse("settings"), payload(client))
    return client


def sent(client: Client, **change: str) -> tuple[int, str]:
    """Status of the answer, and the fault at the day of the first code."""
    answer = client.post(reverse("settings"), shown(client) | {f"tax-0-{k}": v for k, v in change.items()})
    if answer.status_code == 302:
        return 302, ""
    errors = answer.context["page"].tax_codes.forms[0].errors
    return answer.status_code, str(errors["valid_from"][0])


def rates() -> list[str]:
    return [f"{rate.valid_from}: {rate.code.rate_pct:.2f}" for rate in tax_rates()["sales"]]


def test_another_rate_needs_its_day(kept: Client) -> None:
    assert sent(kept, rate_1="1.5") == (
        200,
        "Nothing is given: the rate was changed, so its first day is needed.",
    )
    assert rates() == ["None: 7.25"]


def test_a_day_without_another_rate_is_told(kept: Client) -> None:
    assert "and no other rate" in sent(kept, valid_from="2027-01-01")[1]


def test_another_rate_stands_beside_the_one_before_it(kept: Client) -> None:
    assert sent(kept, rate_1="1.5", valid_from="2027-01-01") == (302, "")

    assert rates() == ["None: 7.25", "2027-01-01: 7.50"]
    page = kept.get(reverse("settings")).content.decode().replace("\xa0", " ")
    assert "from the beginning: 7.25 %" in page
    assert "from 1 Jan 2027: 7.5 %" in page
    assert "“2026-12-31” is before 2027-01-01" in sent(kept, rate_1="2", valid_from="2026-12-31")[1]


def test_a_rate_to_come_is_taken_back(kept: Client) -> None:
    day = timezone.localdate() + timedelta(days=1)
    sent(kept, rate_1="1.5", valid_from=day.isoformat())

    assert sent(kept, drop="on") == (302, "")

    assert rates() == ["None: 7.25"]


def test_a_rate_whose_day_has_come_is_not_taken_back(kept: Client) -> None:
    sent(kept, rate_1="1.5", valid_from=timezone.localdate().isoformat())

    sent(kept, drop="on")

    assert len(rates()) == 2
