"""The owner's settings: kept as a whole, refused at the field, and never lost to somebody else's."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

import pytest
from django.test import Client
from django.urls import reverse

from quotes.models import TaxCode, Workshop
from quotes.queries.settings import settings_now
from quotes.queries.workshop import shop_rules
from tests import cast
from tests.quotes.settings_payload import payload, shown

pytestmark = pytest.mark.django_db
ON = date(2026, 11, 25)


def keep(client: Client, sent: dict[str, str], status: int = 302) -> object:
    response = client.post(reverse("settings"), sent)
    assert response.status_code == status, [form.errors for form in response.context["page"].tax_codes.forms]
    return response


def fault(response: object, part: str, name: str, row: int | None = None) -> str:
    """The first fault at a field of the page that came back."""
    form = getattr(response.context["page"], part)  # type: ignore[attr-defined]
    form = form if row is None else form.forms[row]
    return str(form.errors[name][0])


def test_what_the_owner_keeps_is_what_the_sums_are_given(client: Client) -> None:
    keep(client, payload(client, rate__assemble="140", quote_validity_days="14", weekend_loss="950"))

    shop = shop_rules(ON)
    assert (shop.labour_rates["assemble"], shop.quote_validity_days) == (Decimal(140), 14)
    assert (shop.session_loss, shop.weekend_loss) == (Decimal(150), Decimal(950))
    assert shop.tax_codes["sales"].rate_pct == Decimal("7.25")
    assert (shop.taxability["part"], shop.taxability["labour"]) == ("sales", "none")


def test_keeping_the_page_untouched_changes_nothing(client: Client) -> None:
    keep(client, payload(client))
    before = settings_now()

    keep(client, shown(client))

    assert settings_now() == before
    assert Workshop.objects.get().version == 1


def test_shares_are_typed_in_per_cent_and_reckoned_as_shares(client: Client) -> None:
    keep(client, payload(client, rider_safety_ceiling="4", chance_floor="92.5", assembly_fault_chance="0.02"))

    shop = shop_rules(ON)
    assert shop.rider_safety_ceiling == pytest.approx(0.04)
    assert shop.chance_floor == pytest.approx(0.925)
    assert shop.assembly_fault_chance == pytest.approx(0.0002)


def test_a_class_of_racing_is_kept_with_what_it_allows(client: Client) -> None:
    keep(client, payload(client, class__0__name="Club open", class__0__allows_cams="on"))

    rule = shop_rules(ON).classes["club-open"]
    assert (rule.name, rule.allows) == ("Club open", frozenset({"cams"}))


def test_closed_days_and_public_holidays_close_the_bench(client: Client) -> None:
    keep(
        client,
        payload(
            client,
            calendar_country="US",
            closed__0__first="2027-08-02",
            closed__0__last="2027-08-04",
            closed__0__note="summer",
        ),
    )

    closed = shop_rules(ON).queue.closed_days
    assert {date(2027, 8, 2), date(2027, 8, 3), date(2027, 8, 4)} <= closed
    assert date(2028, 12, 25) in closed
    assert date(2027, 8, 5) not in closed


def test_a_row_that_is_ticked_to_be_taken_out_is_gone(client: Client) -> None:
    keep(client, payload(client, class__0__name="Club open"))

    keep(client, shown(client) | {"class-0-DELETE": "on"})

    assert shop_rules(ON).classes == {}


def test_a_tax_code_that_is_taken_out_no_longer_taxes_anything(client: Client) -> None:
    keep(client, payload(client))

    keep(client, shown(client) | {"tax-0-DELETE": "on"})

    assert TaxCode.objects.count() == 0
    assert shop_rules(ON).taxability["part"] == "none"


@pytest.mark.both_databases
@pytest.mark.parametrize(
    ("change", "part", "row", "field", "said"),
    [
        ({"name": ""}, "workshop", None, "name", "Nothing is given"),
        ({"name": "S\x00rrel"}, "workshop", None, "name", "can't be kept"),
        ({"name": "S" * 10_000}, "workshop", None, "name", "10,000 characters: at most 120"),
        ({"email": "desk at yard"}, "workshop", None, "email", "“desk at yard” is not an address"),
        ({"currency": "QQQ"}, "workshop", None, "currency", "“QQQ” is not a currency"),
        ({"currency": "KWD"}, "workshop", None, "currency", "below a hundredth"),
        ({"deposit_pct": "150"}, "workshop", None, "deposit_pct", "“150” is not a number from 0 to 100"),
        ({"deposit_pct": "half"}, "workshop", None, "deposit_pct", "“half” is not a number from 0 to 100"),
        ({"quote_validity_days": "7.5"}, "workshop", None, "quote_validity_days", "from 1 to 365, whole"),
        ({"consumables_most": "5"}, "workshop", None, "consumables_most", "“5” is below the least, 12"),
        ({"calendar_country": "XX"}, "workshop", None, "calendar_country", "“XX” is not one of"),
        ({"calendar_region": "CA"}, "workshop", None, "calendar_region", "“CA” is not a region"),
        ({"rate__test": "-1"}, "rates", None, "test", "“-1” is not a number from 0 to 10000"),
        ({"rate__test": "NaN"}, "rates", None, "test", "“NaN” is not a number"),
        ({"tax__0__rate_1": ""}, "tax_codes", 0, "rate_1", "“County” needs its rate"),
        ({"tax__0__name_0": ""}, "tax_codes", 0, "name_0", "who charges 6 %"),
        ({"tax__0__category": "E"}, "tax_codes", 0, "category", "the rates add up to 7.25 %"),
        ({"tax__0__code": ""}, "tax_codes", 0, "code", "a tax code needs a short name"),
        ({"band__0__cost_from": "5"}, "bands", 0, "cost_from", "“5” leaves parts below it without markup"),
        ({"band__1__cost_from": "0"}, "bands", 1, "cost_from", "stands here 2 times"),
        ({"class__0__name": "!!"}, "classes", 0, "name", "holds no letter or figure"),
        (
            {"closed__0__first": "2027-08-04", "closed__0__last": "2027-08-02"},
            "closed_days",
            0,
            "last",
            "is before 2027-08-04",
        ),
        (
            {"closed__0__first": "2027-08-04", "closed__0__last": "3027-08-02"},
            "closed_days",
            0,
            "last",
            "at most a year",
        ),
        ({"closed__0__first": "4 August"}, "closed_days", 0, "first", "“4 August” is not a day"),
    ],
)
def test_what_can_not_be_kept_is_told_at_its_field_and_nothing_is_kept(
    client: Client, change: dict[str, str], part: str, row: int | None, field: str, said: str
) -> None:
    response = keep(client, payload(client, **change), status=200)

    assert said in fault(response, part, field, row)
    assert not Workshop.objects.filter(version__gt=0).exists()


def test_what_was_typed_stays_beside_the_fault(client: Client) -> None:
    response = keep(client, payload(client, deposit_pct="151", telephone="000 555 0142"), status=200)

    page = response.content.decode()  # type: ignore[attr-defined]
    assert 'value="151"' in page
    assert 'value="000 555 0142"' in page
    assert "Every risk is multiplied by <b>1</b>" in page, "it is set on a page of its own"


def test_one_kind_of_line_can_not_have_two_tax_codes(client: Client) -> None:
    keep(client, payload(client))
    sent = shown(client) | {
        "tax-1-code": "other",
        "tax-1-category": "S",
        "tax-1-name_0": "State",
        "tax-1-rate_0": "4",
        "tax-1-on_part": "on",
    }

    response = keep(client, sent, status=200)

    assert "parts is ticked at “sales” already" in fault(response, "tax_codes", "on_part", 1)


def test_of_two_owners_at_once_the_second_sees_what_the_first_kept(client: Client) -> None:
    keep(client, payload(client))
    mine, theirs = shown(client), shown(client)
    keep(client, theirs | {"quote_validity_days": "21"})

    response = keep(client, mine | {"quote_validity_days": "14"}, status=200)

    change = response.context["changes"][0]  # type: ignore[attr-defined]
    assert (change.what, change.before, change.after) == ("quote validity days", "21", "14")
    assert Workshop.objects.get().quote_validity_days == 21


def test_the_second_owner_may_keep_theirs_once_they_have_seen_it(client: Client) -> None:
    keep(client, payload(client))
    mine = shown(client)
    keep(client, shown(client) | {"quote_validity_days": "21"})
    told = keep(client, mine | {"quote_validity_days": "14"}, status=200)

    keep(client, mine | {"quote_validity_days": "14", "version": str(told.context["version"])})  # type: ignore[attr-defined]

    assert Workshop.objects.get().quote_validity_days == 14


def test_pressing_keep_twice_keeps_once(client: Client) -> None:
    sent = payload(client)
    keep(client, sent)
    keep(client, sent)

    assert Workshop.objects.get().version == 1


@pytest.mark.parametrize("person", [cast.desk, cast.builder, cast.books])
def test_only_the_owner_opens_the_settings(client: Client, person: object) -> None:
    client.force_login(person())  # type: ignore[operator]

    response = client.get(reverse("settings"))

    assert response.status_code == 403
    assert "owner" in response.content.decode()


def test_a_stranger_is_sent_to_the_sign_in(client: Client) -> None:
    response = client.get(reverse("settings"))

    assert response.status_code == 302
    assert response["Location"].startswith(reverse("sign-in"))
