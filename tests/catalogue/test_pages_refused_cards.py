"""What a card of the catalogue refuses: each fault at its field, what was typed kept, nothing stored."""

from __future__ import annotations

import pytest
from django.test import Client
from django.urls import reverse

from catalogue.queries import current_rows, engine_catalogue
from tests.cast import owner
from tests.catalogue.cards import card_of, send

pytestmark = pytest.mark.django_db


@pytest.fixture
def signed_in(client: Client) -> Client:
    client.force_login(owner())
    return client


@pytest.mark.parametrize(
    ("kind", "code", "field", "typed", "said"),
    [
        ("components", "rings", "weibull_shape", "-1", "must be above 0, not -1"),
        ("components", "rings", "weibull_shape", "steep", "Enter a number"),
        ("components", "rings", "name", "", "This field is required"),
        ("components", "rings", "name", "r" * 10_000, "at most 200 characters"),
        ("components", "rings", "name", "piston\x00ring", "Null characters are not allowed"),
        ("components", "rings", "lives:miles:low", "9000", "low 9000, typical 4500, high 8000 are not in"),
        ("components", "rings", "lives:miles:high", "", "is missing"),
        ("parts", "FOUR600-PISTON", "list_price", "-5", "must be at least 0, not -5"),
        ("parts", "FOUR600-PISTON", "list_price", "5.555", "too many decimals; 2 are allowed"),
        ("parts", "FOUR600-PISTON", "offers:0:cost", "", "This is missing"),
        ("parts", "FOUR600-PISTON", "offers:0:lead_slow_days", "1", "slow 1 is quicker than typical 4"),
        ("parts", "FOUR600-PISTON", "offers:0:supplier", "nobody", "nobody is not one of the available"),
        ("limits", "rod_clearance", "limit", "0.01", "0.01 is under the standard 0.052"),
        ("operations", "head_off", "hours:four600", "1e99", "must be at most 1000"),
        ("duties", "sprint", "season:events", "0", "must be at least 1, not 0"),
        ("tiers", "mild", "rank", "0", "2 tiers share the rank 0"),
        ("tiers", "mild", "breaks", "suspension", "is one of 'compression', 'cams', 'porting' or 'weight'"),
        ("engine_types", "four600", "pieces:0:count", "", "This is missing"),
    ],
)  # fmt: skip
def test_what_can_not_be_is_said_at_its_field_and_stays_typed(
    loaded: None, signed_in: Client, kind: str, code: str, field: str, typed: str, said: str
) -> None:
    before = current_rows()
    sent = card_of(kind, code) | {field: typed}
    response = signed_in.post(reverse("catalogue:change", args=[kind, code]), sent)
    assert response.status_code == 200
    found = response.context["form"].errors
    errors = {name: " ".join(map(str, said_there)) for name, said_there in found.items()}
    assert any(said in words.replace("&#x27;", "'") for words in errors.values()), errors
    assert response.context["form"][field].value() == typed
    assert current_rows() == before


def test_a_loop_entered_by_hand_is_refused_and_named(loaded: None, signed_in: Client) -> None:
    response = send(signed_in, "operations", "cams_out", requires="top_cover_off, cylinder_off")
    assert response.status_code == 200
    said = str(response.context["form"].errors)
    assert "on single450 these wait for each other in a loop:" in said
    assert "on twin650" in said
    assert "on four600" not in said
    assert "cylinder_off" not in engine_catalogue("twin650").operations["cams_out"].requires


def test_an_operation_does_not_wait_for_itself(loaded: None, signed_in: Client) -> None:
    response = send(signed_in, "operations", "cams_out", requires="cams_out")
    assert response.status_code == 200
    assert "in a loop: cams_out before cams_out" in str(response.context["form"].errors)


def test_a_loop_that_only_an_engine_in_its_chassis_would_meet_is_refused_too(
    loaded: None, signed_in: Client
) -> None:
    response = send(signed_in, "operations", "engine_out", after="cases_split")
    assert response.status_code == 200
    said = str(response.context["form"].errors)
    assert said.count("wait for each other in a loop") == 4
    assert "engine_out" in said


@pytest.mark.parametrize(
    ("field", "typed", "said"),
    [
        ("cost", "-5", "must be at least 0, not -5"),
        ("lead_slow_days", "2", "slow 2 is quicker than typical 9"),
    ],
)
def test_a_fault_in_a_row_is_said_in_that_row_though_one_before_it_is_empty(
    loaded: None, signed_in: Client, field: str, typed: str, said: str
) -> None:
    emptied = {name: "" for name in card_of("parts", "FOUR600-PISTON") if name.startswith("offers:0:")}
    row = {"supplier": "race_parts", "cost": "65", "lead_typical_days": "9", "lead_slow_days": "20"}
    typed_row = {f"offers:1:{name}": value for name, value in (row | {field: typed}).items()}
    sent = card_of("parts", "FOUR600-PISTON") | emptied | typed_row
    response = signed_in.post(reverse("catalogue:change", args=["parts", "FOUR600-PISTON"]), sent)
    assert said in str(response.context["form"].errors[f"offers:1:{field}"])
