"""Changing an entry by hand: who may, what is refused, and what happens when two do it at once."""

from __future__ import annotations

from datetime import timedelta

import pytest
from django.contrib.auth.models import User
from django.test import Client
from django.urls import reverse

from catalogue.actions.editing import Edit, add_entry, change_entry
from catalogue.actions.refused import AlreadyThere, ChecksFailed, Gone, StaleEntry
from catalogue.models import Change, Component, Limit, Operation, OwnValue, Part, Supplier
from catalogue.queries import current_rows, engine_catalogue
from catalogue.queries.shapes import SHAPES
from catalogue.views.sheets import SHEETS
from tests.cast import builder, owner
from tests.catalogue.cards import card_of, send
from tests.catalogue.conftest import NOW

pytestmark = pytest.mark.django_db


@pytest.fixture
def signed_in(client: Client) -> Client:
    client.force_login(owner())
    return client


@pytest.mark.parametrize("kind", [kind for kind in SHEETS if kind != "policies"])
def test_a_card_sent_back_as_it_came_changes_nothing(loaded: None, signed_in: Client, kind: str) -> None:
    shape = SHAPES[kind]
    rows = getattr(current_rows(), kind)
    for row in (rows[0], rows[len(rows) // 2], rows[-1]):
        code = shape.code_of(row)
        response = send(signed_in, kind, code)
        assert response.status_code == 302, response.context["form"].errors
        assert next(r for r in getattr(current_rows(), kind) if shape.code_of(r) == code) == row
    assert not Change.objects.exists()


def test_a_changed_figure_is_kept_and_followed(loaded: None, signed_in: Client) -> None:
    response = send(signed_in, "components", "rod_bolt", weibull_shape="4.5", from_where="our own log")
    assert response.status_code == 302
    assert Component.objects.get(code="rod_bolt").version == 2
    assert engine_catalogue("four600").components["rod_bolt"].weibull_shape == 4.5
    own = OwnValue.objects.get()
    assert (own.kind, own.entry, own.field, own.shipped, own.source) == (
        "components", "rod_bolt", "weibull_shape", 3.5, "our own log",
    )  # fmt: skip
    change = Change.objects.get()
    assert (change.field, change.was, change.became, change.version) == ("weibull_shape", 3.5, 4.5, 2)


def test_a_second_change_keeps_what_was_shipped(loaded: None) -> None:
    for version, value in ((1, 4.5), (2, 5.0)):
        edit = Edit("components", "rod_bolt", {"weibull_shape": value}, version)
        change_entry(edit=edit, by=owner(), now=NOW + timedelta(days=version))
    assert OwnValue.objects.get().shipped == 3.5
    assert list(Change.objects.values_list("was", "became")) == [(3.5, 4.5), (4.5, 5.0)]


def test_an_offer_is_added_in_an_empty_row(loaded: None, signed_in: Client) -> None:
    response = send(
        signed_in, "parts", "FOUR600-PISTON",
        offers__1__supplier="race_parts", offers__1__cost="65", offers__1__lead_typical_days="9",
        offers__1__lead_slow_days="20",
    )  # fmt: skip
    assert response.status_code == 302, response.context["form"].errors
    assert list(Part.objects.get(code="FOUR600-PISTON").offers.values_list("supplier", "preferred")) == [
        ("main_parts", True), ("race_parts", False),
    ]  # fmt: skip
    assert engine_catalogue("four600").parts["piston", "stock"].supplier == "Main parts wholesale"


def test_names_do_for_codes(loaded: None, signed_in: Client) -> None:
    send(signed_in, "components", "rings", companions_on_renewal="circlip, Head Gasket")
    assert engine_catalogue("four600").components["rings"].companions_on_renewal == ("circlip", "head_gasket")


def test_a_code_that_is_none_is_said_with_the_nearest(loaded: None, signed_in: Client) -> None:
    response = send(signed_in, "operations", "head_off", requires="cams_outs")
    assert response.status_code == 200
    assert "There is no operation 'cams_outs'. Did you mean cams_out?" in response.content.decode().replace(
        "&#x27;", "'"
    )


def test_shares_that_do_not_add_up_are_refused_at_their_field(loaded: None, signed_in: Client) -> None:
    response = send(signed_in, "components", "rings", drivers__gas="0.9")
    assert response.status_code == 200
    assert "the shares add up to 1.55, not to 1" in str(response.context["form"].errors["drivers:inertia"])
    assert response.context["form"]["drivers:gas"].value() == "0.9"
    assert Component.objects.get(code="rings").drivers_gas == 0.35


def test_two_people_at_once_the_second_sees_what_changed_and_keeps_what_was_typed(
    loaded: None, signed_in: Client
) -> None:
    sent = card_of("components", "rod_bolt") | {"weibull_shape": "5"}
    other = User.objects.create_user("second", first_name="Sella", last_name="Marsh")
    edit = Edit("components", "rod_bolt", {"weibull_shape": 4.0, "note": "Theirs."}, 1)
    change_entry(edit=edit, by=other, now=NOW)

    response = signed_in.post(reverse("catalogue:change", args=["components", "rod_bolt"]), sent)
    page = response.content.decode()
    assert "Sella Marsh has changed this since you opened it." in page
    assert {"what": "Weibull shape", "was": "3.5", "now": "4", "yours": "5", "by": "Sella Marsh"} in (
        response.context["stale"]["changes"]
    )
    assert response.context["form"]["weibull_shape"].value() == "5"
    assert Component.objects.get(code="rod_bolt").weibull_shape == 4.0

    again = sent | {"version": response.context["form"]["version"].value()}
    assert (
        signed_in.post(reverse("catalogue:change", args=["components", "rod_bolt"]), again).status_code == 302
    )
    assert Component.objects.get(code="rod_bolt").weibull_shape == 5.0


def test_the_same_card_sent_twice_is_no_quarrel(loaded: None, signed_in: Client) -> None:
    sent = card_of("components", "rod_bolt") | {"weibull_shape": "5"}
    url = reverse("catalogue:change", args=["components", "rod_bolt"])
    assert [signed_in.post(url, sent).status_code for _ in range(2)] == [302, 302]
    assert Change.objects.count() == 1


def test_only_the_owner_changes_anything(loaded: None, client: Client) -> None:
    client.force_login(builder())
    url = reverse("catalogue:change", args=["components", "rod_bolt"])
    assert client.get(url).status_code == 403
    assert client.post(url, card_of("components", "rod_bolt") | {"weibull_shape": "5"}).status_code == 403
    assert client.get(reverse("catalogue:new", args=["parts"])).status_code == 403
    assert Component.objects.get(code="rod_bolt").weibull_shape == 3.5


def test_something_of_one_s_own_is_entered(loaded: None, signed_in: Client) -> None:
    url = reverse("catalogue:new", args=["suppliers"])
    assert signed_in.get(url).status_code == 200
    response = signed_in.post(url, {"code": "corner", "name": "Corner store", "kind": "parts"})
    assert response.status_code == 302
    supplier = Supplier.objects.get(code="corner")
    assert (supplier.name, supplier.search_key, supplier.version) == (
        "Corner store",
        "corner corner store",
        1,
    )


def test_an_operation_of_one_s_own_is_entered(loaded: None, signed_in: Client) -> None:
    sent = {
        "code": "pressure_test", "name": "pressure test of the head", "kind": "test", "hours:four600": "0.5",
        "requires": "head_off", "consumes:0:component": "head_gasket", "consumes:0:quantity": "1",
        "consumes:0:rule": "policy",
    }  # fmt: skip
    response = signed_in.post(reverse("catalogue:new", args=["operations"]), sent)
    assert response.status_code == 302, response.context["form"].errors
    assert engine_catalogue("four600").operations["pressure_test"].requires == ("head_off",)
    assert "pressure_test" not in engine_catalogue("single450").operations
    assert Operation.objects.get(code="pressure_test").consumes.get().quantity == 1


@pytest.mark.parametrize(
    ("code", "said"),
    [
        ("main_parts", "There is a 'main_parts' among the suppliers already"),
        ("two words", "takes letters, digits, underscores, dots and hyphens only"),
        ("", "This field is required"),
    ],
)
def test_a_code_that_will_not_do_is_said_at_its_field(
    loaded: None, signed_in: Client, code: str, said: str
) -> None:
    sent = {"code": code, "name": "Corner store", "kind": "parts"}
    response = signed_in.post(reverse("catalogue:new", args=["suppliers"]), sent)
    assert response.status_code == 200
    assert said in str(response.context["form"].errors["code"]).replace("&#x27;", "'")
    assert response.context["form"]["name"].value() == "Corner store"


def test_nothing_is_entered_into_an_empty_catalogue(no_catalogue: None, signed_in: Client) -> None:
    response = signed_in.get(reverse("catalogue:new", args=["parts"]), follow=True)
    assert "Load the catalogue first" in response.content.decode()


def test_tiers_and_habits_are_not_added_by_hand(loaded: None, signed_in: Client) -> None:
    for kind in ("tiers", "policies"):
        assert signed_in.get(reverse("catalogue:new", args=[kind])).status_code == 404
    assert signed_in.get(reverse("catalogue:change", args=["policies", "storage"])).status_code == 404


def test_the_action_says_what_stands_against_it(loaded: None) -> None:
    by = owner()
    with pytest.raises(Gone, match="no 'nothing' among the components"):
        change_entry(edit=Edit("components", "nothing", {}, 1), by=by, now=NOW)
    with pytest.raises(StaleEntry):
        change_entry(edit=Edit("components", "rings", {"note": "x"}, 7), by=by, now=NOW)
    with pytest.raises(ChecksFailed, match="lives"):
        change_entry(edit=Edit("components", "rings", {"lives": {}}, 1), by=by, now=NOW)
    with pytest.raises(AlreadyThere):
        add_entry(
            kind="suppliers", values={"code": "head_shop", "name": "x", "kind": "parts"}, by=by, now=NOW
        )
    assert not Change.objects.exists()


def test_a_limit_takes_the_figure_of_the_manual(loaded: None, signed_in: Client) -> None:
    response = send(
        signed_in, "limits", "rod_clearance", limit="0.065", from_manual="on", from_where="the maker's manual"
    )
    assert response.status_code == 302
    limit = Limit.objects.get(code="rod_clearance")
    assert (limit.limit, limit.from_manual) == (0.065, True)


def test_what_a_german_owner_keeps_is_no_translation(loaded: None, signed_in: Client) -> None:
    signed_in.cookies["django_language"] = "de"
    asked = signed_in.get(reverse("catalogue:change", args=["components", "rod_bolt"]))
    assert asked.context["form"]["name"].value() == "connecting rod bolts"
    shown = signed_in.get(reverse("catalogue:entry", args=["components", "rod_bolt"])).content.decode()
    assert "Pleuelschrauben" in shown
