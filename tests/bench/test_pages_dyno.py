"""What the dyno read, on the engine's page and in what is asked for it."""

from __future__ import annotations

from decimal import Decimal
from uuid import uuid4

import pytest
from django.test import Client
from django.urls import reverse

from quotes.actions.bench.testing import RunResults, keep_run
from quotes.models import Job
from quotes.queries.engines import engine_asked
from quotes.views.card.answers import known_engine
from tests.bench.cast import built_job
from tests.cast import builder, desk
from tests.quotes.cast import NOW

pytestmark = pytest.mark.django_db


@pytest.fixture
def of() -> Job:
    row = built_job()
    values = (("Peak power", "84.5", "kW"), ("at", "13800", "rpm"))
    run = RunResults("Power before", NOW.date(), values, dyno="back wheel", correction="SAE J1349")
    keep_run(job=row, run=run, key=uuid4(), by=builder(), now=NOW)
    return row


def test_the_engine_s_page_says_what_was_read_and_that_it_stands(client: Client, of: Job) -> None:
    client.force_login(desk())
    shown = (
        client.get(reverse("engine", args=[of.engine_id])).content.decode().replace("\N{NO-BREAK SPACE}", " ")
    )
    assert "84.5 kW at 13,800 a minute" in shown
    assert "on back wheel, corrected by SAE J1349" in shown
    assert "<b>yes</b>" in shown


def test_a_quote_for_it_is_asked_with_what_was_read_and_its_record_stays(client: Client, of: Job) -> None:
    measured = known_engine(of.engine).measured_power
    assert measured is not None
    assert (measured.figure, measured.unit) == (Decimal("84.5"), "kW")
    assert engine_asked(of.engine).measured_power is None
    client.force_login(desk())
    typed = {"pick": f"{of.customer_id}-{of.engine_id}", "type": "four600"}
    picked = client.post(reverse("new-quote-pick"), typed).content.decode()
    assert "Power on the dyno, in this tune" in picked
