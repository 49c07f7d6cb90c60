"""`make demo` shows the main job in the terminal and leaves the quote's documents in a folder."""

from __future__ import annotations

from collections.abc import Iterator
from io import StringIO
from pathlib import Path

import pytest
from django.contrib.auth import authenticate
from django.core.management import call_command
from django.http import HttpRequest
from openpyxl import load_workbook
from pytest_django import DjangoDbBlocker

from quotes.calc.sheet.values import Comparison
from quotes.management.demo import shown_revision, sign_ins_in_words
from quotes.queries.sheets import sheet_of
from tests.quotes.demo_loaded import counted, loaded_once


@pytest.fixture(scope="module", autouse=True)
def demo(django_db_setup: None, django_db_blocker: DjangoDbBlocker) -> Iterator[None]:
    yield from loaded_once("sales-tax", django_db_blocker)


# Loading a demo is tested on both; here it is printed and its papers are drawn.
pytestmark = [pytest.mark.django_db, pytest.mark.one_database]


def shown(out: Path) -> str:
    said = StringIO()
    call_command("demo", out=out, stdout=said, year=False)
    return said.getvalue()


def shown_comparison() -> Comparison:
    return sheet_of(shown_revision()).comparison


def test_the_table_names_every_way_of_building_with_its_price(tmp_path: Path) -> None:
    said = shown(tmp_path)

    for option in shown_comparison().options:
        assert option.name in said
        assert f"{option.gross.typical:,} {shown_comparison().currency}" in said
    assert "Leave it" in said


def test_the_documents_are_those_that_the_customer_gets(tmp_path: Path) -> None:
    said = shown(tmp_path / "a folder")

    revision = shown_revision()
    assert revision.pdf is not None
    assert revision.workbook is not None
    for file in (revision.pdf, revision.workbook):
        path = tmp_path / "a folder" / file.name
        assert str(path) in said
        assert path.read_bytes() == bytes(file.content)
    assert load_workbook(tmp_path / "a folder" / revision.workbook.name).sheetnames


def test_shown_again_it_adds_nothing(tmp_path: Path) -> None:
    first_said, first_counted = shown(tmp_path), counted()

    assert shown(tmp_path) == first_said
    assert counted() == first_counted
    assert len(list(tmp_path.iterdir())) == 2


def test_the_sign_ins_that_are_named_let_you_in() -> None:
    said = sign_ins_in_words().splitlines()[1:]

    for line in said:
        name, password = line.split()
        assert authenticate(HttpRequest(), username=name, password=password) is not None
    assert len(said) == 4
