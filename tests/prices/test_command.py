"""`manage.py import_prices`: what a file would do, doing it, and refusing it in words."""

from __future__ import annotations

import io
from pathlib import Path

import pytest
from django.core.management import CommandError, call_command

from catalogue.models import ListedPart, PriceList
from tests.prices.cast import HOUSE, prices

pytestmark = pytest.mark.django_db
FILE = "Part number;Description;Net price\nA-1;Ring set;12,50\nA-2;Piston;104,00\nA-3;Pin;nothing\n"


@pytest.fixture
def file(tmp_path: Path) -> Path:
    path = tmp_path / "spring.csv"
    path.write_text(FILE)
    return path


def run(file: Path, *options: str) -> tuple[str, str]:
    out, err = io.StringIO(), io.StringIO()
    call_command("import_prices", str(file), "--supplier", HOUSE, *options, stdout=out, stderr=err)
    return out.getvalue(), err.getvalue()


def test_a_dry_run_says_what_it_would_do_and_does_nothing(file: Path) -> None:
    out, err = run(file, "--dry-run")
    assert "3 lines: 2 new, 0 dearer, 0 cheaper, 0 unchanged, 0 superseded, 1 refused; 0 gone." in out
    assert "Nothing was changed." in out
    assert err.count("line 4, Net price: 'nothing'") == 1
    assert not PriceList.objects.exists()


def test_it_takes_the_list_in_and_a_second_time_changes_nothing(file: Path) -> None:
    out, _ = run(file)
    assert "In force from" in out
    again, _ = run(file)
    assert "2 unchanged" in again
    assert "Not taken in: everything in it that could be read stands already." in again
    assert len(prices()) == ListedPart.objects.count() == 2


def test_what_should_be_looked_at_is_said(file: Path) -> None:
    run(file)
    file.write_text(FILE.replace("Net price", "Net price;Unit", 1).replace("12,50", "12,50;each"))
    assert "Look at this: As with the last list, these columns are not read: Unit." in run(file)[1]


def test_a_supplier_that_there_is_not_is_named_with_those_that_there_are(file: Path) -> None:
    with pytest.raises(CommandError, match=f"no supplier 'nobody'; there are: .*{HOUSE}"):
        call_command("import_prices", str(file), "--supplier", "nobody")


def test_what_is_no_price_list_changes_nothing(tmp_path: Path) -> None:
    path = tmp_path / "letter.csv"
    path.write_text("Dear customer\nwe wish you a good season\n")
    with pytest.raises(SystemExit):
        run(path)
    assert not PriceList.objects.exists()
