"""All that is held on one customer is written down, nothing of anybody else, and no model is forgotten."""

from __future__ import annotations

import hashlib
import json
import zipfile
from io import StringIO
from pathlib import Path
from typing import Any

import pytest
from django.apps import apps
from django.core.management import CommandError, call_command
from django.db import models

from quotes.models import Acceptance, Customer
from quotes.queries.record.held import HELD, LEFT_OUT, NOT_BY_KEY, meanings, rows_of
from tests.bench.cast import job, leave
from tests.books import cast
from tests.books.ledger_cast import billed, for_what, paid
from tests.quotes import cast as quotes_cast

# The same reads as everywhere, joined; PostgreSQL takes them in `manage.py verify` and on the pages.
pytestmark = pytest.mark.one_database


def leads_to_customer() -> set[str]:
    """Every model that a way of keys leads from to a customer."""
    found: set[type[models.Model]] = {Customer}
    while True:
        more = {
            model
            for model in apps.get_models()
            for field in model._meta.concrete_fields
            if field.related_model in found
        } - found
        if not more:
            return {str(model._meta.model_name) for model in found - {Customer}}
        found |= more


def test_every_model_that_leads_to_a_customer_is_exported_or_left_out_for_a_reason() -> None:
    assert leads_to_customer() == HELD.keys() | LEFT_OUT.keys()
    assert not HELD.keys() & LEFT_OUT.keys()
    assert all(LEFT_OUT.values())


def test_every_kind_of_record_says_what_it_is() -> None:
    said = meanings()

    assert said.keys() == {"customer", *HELD}
    assert said["acceptance"] == "Who said yes to which option of which revision, when, and up to what sum."
    assert not [name for name, words in said.items() if words.startswith(f"{name.title()}(")]


@pytest.fixture
def marel(build: Acceptance) -> Customer:
    """With a job, an invoice that is part paid and a bill behind it; beside him a team with the like."""
    leave(job(quote=build.quote))
    cast.extra_work(build)
    billed("4711", for_what("part", "100", build))
    cast.invoiced(build)
    paid("1000")
    team = quotes_cast.customer("Two Rivers Team")
    quotes_cast.issued(quotes_cast.draft(quotes_cast.engine(team, "T-77001")), papers=False)
    return build.quote.customer


def exported(customer: str, out: Path) -> tuple[dict[str, Any], str]:
    said = StringIO()
    call_command("export_customer", customer, out=out, stdout=said)
    return json.loads(out.read_text()), said.getvalue()


def test_all_that_is_held_on_him_is_written(marel: Customer, tmp_path: Path) -> None:
    whole, said = exported("marel otten", tmp_path / "marel.json")
    records = whole["records"]

    assert {kind: len(rows) for kind, rows in records.items() if rows} == {
        "customer": 1, "engine": 1, "segment": 1, "quote": 1, "revision": 1, "acceptance": 1,
        "extrawork": 1, "job": 1, "jobstep": 2, "teardownleave": 1, "invoicedraft": 1, "invoice": 1,
        "payment": 1, "openitem": 2, "allocation": 1, "journalentry": 2,
    }  # fmt: skip
    assert records["customer"][0]["email"] == "marel@otten.example"
    assert records["acceptance"][0]["name"] == "Marel Otten"
    assert records["invoice"][0]["sheet"]["buyer"]["name"] == "Marel Otten"
    assert whole["left_out"] == LEFT_OUT
    assert whole["not_by_key"] == NOT_BY_KEY
    assert said.startswith(f"{tmp_path / 'marel.json'}: {sum(map(len, records.values()))} records on Marel")


def test_nothing_of_anybody_else_and_nothing_that_the_shop_paid_is_in_it(
    marel: Customer, tmp_path: Path
) -> None:
    whole, _ = exported(str(marel.pk), tmp_path / "marel.json")
    text = json.dumps(whole["records"])

    assert "Two Rivers" not in text
    assert "T-77001" not in text
    assert set(_all_of("cost", whole["records"])) == {None}
    assert not {"token_hash", "search_key", "created_by_id"} & {*_keys(whole["records"])}


def test_his_files_lie_in_the_zip_by_their_fingerprints(marel: Customer, tmp_path: Path) -> None:
    whole, said = exported(str(marel.pk), tmp_path / "marel.json")

    with zipfile.ZipFile(tmp_path / "marel.zip") as archive:
        assert sorted(archive.namelist()) == sorted(file["path"] for file in whole["files"])
        for file in whole["files"]:
            content = archive.read(file["path"])
            assert (hashlib.sha256(content).hexdigest(), len(content)) == (file["sha256"], file["bytes"])
    kinds = {tuple(file["of"].split()[::2]) for file in whole["files"]}
    assert kinds == {("invoice", "pdf"), ("invoice", "xml")}
    assert said.endswith(f"marel.zip: {len(whole['files'])} files\n")


def test_every_way_leads_to_the_customer(marel: Customer) -> None:
    for name in HELD:
        assert rows_of(name, marel).count() >= 0
        for way in HELD[name]:
            assert _end_of(name, way) is Customer, (name, way)


@pytest.mark.parametrize(
    ("customer", "out", "said"),
    [
        ("Nobody", "a.json", "Nobody: there is no customer of that number or name"),
        ("99999999999999999999", "a.json", "there is no customer of that number or name"),
        ("Marel Otten", "a.txt", "a name that ends in .json"),
        ("Marel Otten", "there.json", "there.json is there already"),
        ("Two Alike", "a.json", "several customers are called so. Give a number: "),
    ],
)
def test_what_can_not_be_exported_is_said(
    db: None, tmp_path: Path, customer: str, out: str, said: str
) -> None:
    for name in ("Marel Otten", "Two Alike", "two alike"):
        quotes_cast.customer(name)
    (tmp_path / "there.json").write_text("kept")

    with pytest.raises(CommandError, match=said):
        exported(customer, tmp_path / out)
    assert [path.name for path in tmp_path.iterdir()] == ["there.json"]


def _end_of(name: str, way: str) -> object:
    model: Any = apps.get_model("quotes", name)
    for step in way.split("__"):
        model = model._meta.get_field(step).related_model
    return model


def _all_of(key: str, value: object) -> list[object]:
    """Every value under that key, however deep."""
    if isinstance(value, dict):
        here = [value[key]] if key in value else []
        return [*here, *(one for each in value.values() for one in _all_of(key, each))]
    return [one for each in value for one in _all_of(key, each)] if isinstance(value, list) else []


def _keys(value: object) -> set[str]:
    if isinstance(value, dict):
        return {*value, *(key for each in value.values() for key in _keys(each))}
    return {key for each in value for key in _keys(each)} if isinstance(value, list) else set()
