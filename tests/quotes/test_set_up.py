"""What the set-up lacks: told by the database checks, never by a plain check."""

from __future__ import annotations

from io import StringIO

import pytest
from django.core.management import call_command

from quotes.calc.defaults import LABOUR_RATES
from quotes.models import LabourRate, MarkupBand, Workshop
from quotes.queries.set_up import issuing_gaps, set_up_gaps
from tests.cast import owner
from tests.quotes import cast
from tests.shipped import load_shipped

ALL = [f"quotes.W{number:03}" for number in (1, 2, 3, 5, 7, 8, 9, 10, 11)]


def ids() -> list[str]:
    return sorted(gap.id for gap in set_up_gaps())


def checked(**options: object) -> str:
    said = StringIO()
    call_command("check", stdout=said, stderr=said, **options)
    return said.getvalue()


def test_an_empty_site_lacks_everything(no_catalogue: None) -> None:
    assert ids() == ALL


def test_a_plain_check_stays_clean_on_an_empty_site(no_catalogue: None) -> None:
    assert "quotes.W" not in checked(fail_level="WARNING")


def test_the_database_check_names_each_gap_with_its_hint(no_catalogue: None) -> None:
    said = checked(databases=["default"])

    assert all(gap in said for gap in ALL)
    assert said.count("HINT:") == len(ALL)


def test_a_workshop_that_is_set_up_lacks_nothing(db: None) -> None:
    cast.workshop(calendar_country="US", terms="Cash on the day.")
    for kind, rate in LABOUR_RATES.items():
        LabourRate.objects.create(kind=kind, per_hour=rate)
    MarkupBand.objects.create(cost_from=0, markup_pct=40)
    load_shipped()
    owner()

    assert ids() == []
    assert "quotes.W" not in checked(databases=["default"], fail_level="WARNING")


def test_a_kind_of_line_without_tax_code_is_named(workshop: Workshop) -> None:
    Workshop.objects.update(tax_on_labour=None, tax_on_consumables=None)

    gap = next(gap for gap in set_up_gaps() if gap.id == "quotes.W003")

    assert gap.sentence == "No tax code is chosen for labour, consumables."


def test_where_value_added_tax_is_charged_the_registration_is_wanted(db: None) -> None:
    cast.workshop(tax_style="value-added-tax", tax_registration="")
    assert "quotes.W004" in ids()

    Workshop.objects.update(tax_style="sales-tax")
    assert "quotes.W004" not in ids()


def test_a_catalogue_in_another_currency_blocks_the_issue(db: None) -> None:
    load_shipped()
    cast.workshop(currency="EUR")

    assert [gap.id for gap in issuing_gaps()] == ["quotes.W006"]


def test_what_blocks_an_issue_stands_first(db: None) -> None:
    blocks = [gap.blocks for gap in set_up_gaps()]

    assert blocks == sorted(blocks, reverse=True)


@pytest.mark.parametrize("missing", ["quotes.W001", "quotes.W003", "quotes.W005"])
def test_without_name_tax_or_catalogue_nothing_is_issued(no_catalogue: None, missing: str) -> None:
    assert missing in [gap.id for gap in issuing_gaps()]
