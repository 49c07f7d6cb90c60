"""Loading the catalogue: what it reports, what it leaves alone, and that a refusal writes nothing."""

from __future__ import annotations

from decimal import Decimal
from io import StringIO
from pathlib import Path

import pytest
from django.core.management import CommandError, call_command

from catalogue.actions.editing import Edit, add_entry, change_entry
from catalogue.actions.load import load_rows
from catalogue.actions.refused import ChecksFailed
from catalogue.models import CatalogueVersion, Component, OwnValue, Supplier
from catalogue.queries import engine_catalogue
from tests.cast import FIXTURES, owner, shipped_rows
from tests.catalogue.conftest import NOW

pytestmark = pytest.mark.django_db


def run(**options: object) -> str:
    out = StringIO()
    call_command("load_catalogue", stdout=out, **options)
    return out.getvalue()


def set_shape(value: float) -> None:
    """The owner sets the Weibull shape of the rod bolts."""
    version = Component.objects.get(code="rod_bolt").version
    edit = Edit("components", "rod_bolt", {"weibull_shape": value}, version)
    change_entry(edit=edit, by=owner(), now=NOW)


def test_the_first_load_adds_and_the_second_changes_nothing(no_catalogue: None) -> None:
    first, second = run().splitlines(), run().splitlines()
    assert "components            67        0          0" in first
    assert "components             0        0         67" in second
    assert all(line.split()[-3:-1] == ["0", "0"] for line in second[2:])


def test_a_second_load_leaves_the_version_alone(loaded: None) -> None:
    before = str(CatalogueVersion.objects.get())
    load_rows(rows=shipped_rows(), now=NOW)
    assert str(CatalogueVersion.objects.get()) == before


def test_a_changed_file_changes_that_entry_only(loaded: None) -> None:
    rows = shipped_rows()
    rings = rows.components[0].model_copy(update={"weibull_shape": 2.75})
    report = load_rows(rows=rows.model_copy(update={"components": (rings, *rows.components[1:])}), now=NOW)
    assert [(kind.kind, kind.added, kind.changed) for kind in report.kinds if kind.added or kind.changed] == [
        ("components", 0, 1)
    ]
    assert Component.objects.get(code="rings").weibull_shape == 2.75
    assert Component.objects.get(code="rings").version == 2
    assert engine_catalogue("four600").components["rings"].weibull_shape == 2.75


def test_a_line_that_left_the_file_leaves_the_entry(loaded: None) -> None:
    rows = shipped_rows()
    rings = rows.components[0].model_copy(update={"companions_on_renewal": ()})
    load_rows(rows=rows.model_copy(update={"components": (rings, *rows.components[1:])}), now=NOW)
    assert engine_catalogue("four600").components["rings"].companions_on_renewal == ()


def test_a_value_of_the_shop_s_own_is_kept_and_told(loaded: None) -> None:
    set_shape(4.5)
    said = run()
    assert "kept your own value: components rod_bolt weibull_shape: 4.5 (shipped: 3.5)" in said
    assert Component.objects.get(code="rod_bolt").weibull_shape == 4.5


def test_overwrite_takes_the_shipped_value(loaded: None) -> None:
    set_shape(4.5)
    assert "kept" not in run(overwrite=True)
    assert Component.objects.get(code="rod_bolt").weibull_shape == 3.5
    assert not OwnValue.objects.exists()


def test_own_values_that_do_not_fit_the_shipped_ones_stop_the_load(loaded: None) -> None:
    edit = Edit("operations", "cams_out", {"requires": ["top_cover_off", "leakdown_test"]}, 1)
    change_entry(edit=edit, by=owner(), now=NOW)
    rows = shipped_rows()
    later = tuple(
        row.model_copy(update={"after": ("cams_out",)}) if row.code == "leakdown_test" else row
        for row in rows.operations
    )
    with pytest.raises(ChecksFailed, match="wait for each other in a loop"):
        load_rows(rows=rows.model_copy(update={"operations": later}), now=NOW)
    assert engine_catalogue("four600").operations["leakdown_test"].after == ()


def test_prices_come_in_the_currency_asked_for() -> None:
    assert "Catalogue in EUR." in run(currency="EUR", rate="0.92")
    part = engine_catalogue("four600").parts["piston", "stock"]
    assert engine_catalogue("four600").currency == "EUR"
    assert (part.list_price, part.cost) == (Decimal("84.64"), Decimal("67.71"))


def test_loading_twice_in_another_currency_changes_nothing() -> None:
    run(currency="EUR", rate="0.92")
    assert " 0        0        391" in run(currency="EUR", rate="0.92")


def test_own_prices_are_not_mixed_with_another_currency(loaded: None) -> None:
    edit = Edit("parts", "FOUR600-PISTON", {"list_price": Decimal(99)}, 1)
    change_entry(edit=edit, by=owner(), now=NOW)
    with pytest.raises(CommandError, match="in USD and holds prices of your own"):
        run(currency="EUR", rate="0.92")
    assert engine_catalogue("four600").currency == "USD"


@pytest.mark.parametrize(
    ("options", "said"),
    [
        ({"currency": "EUR"}, "--currency EUR needs --rate"),
        ({"currency": "EUR", "rate": "-1"}, "--rate -1: give a number above 0"),
        ({"currency": "EUR", "rate": "much"}, "--rate much: give a number above 0"),
        ({"currency": "euro", "rate": "1.1"}, "--currency euro: give three capital letters"),
    ],
)
def test_a_currency_that_makes_no_sense_is_refused(options: dict[str, str], said: str) -> None:
    with pytest.raises(CommandError, match=said):
        run(**options)


def test_a_faulty_folder_writes_nothing(no_catalogue: None, tmp_path: Path) -> None:
    for path in (FIXTURES / "catalogue").iterdir():
        (tmp_path / path.name).write_text(path.read_text(encoding="utf-8"), encoding="utf-8")
    tiers = tmp_path / "tiers.yaml"
    tiers.write_text(tiers.read_text(encoding="utf-8").replace("rank: 1", "rank: 0"), encoding="utf-8")
    with pytest.raises(CommandError, match=r"Nothing was loaded\.\ntiers\.yaml: refresh, mild: rank"):
        run(folder=tmp_path)
    assert not Component.objects.exists()


def test_an_entry_of_the_shop_s_own_is_left_and_told(loaded: None) -> None:
    add_entry(
        kind="suppliers",
        values={"code": "corner", "name": "Corner store", "kind": "parts"},
        by=owner(),
        now=NOW,
    )
    assert "kept your own entry: suppliers corner" in run()
    assert Supplier.objects.get(code="corner").name == "Corner store"
