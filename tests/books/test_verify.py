"""One thing is broken behind the site's back, and one line of `manage.py verify` says which."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from datetime import date
from decimal import Decimal
from io import StringIO
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest
from django.core.management import call_command
from django.db import connection, models, transaction
from pytest_django import DjangoDbBlocker
from pytest_django import Settings as DjangoSettings

from catalogue.models import LifeChange
from quotes.actions.bench.outcomes import set_shop_factor
from quotes.actions.books import drawing
from quotes.calc.record.kept_json import kept_fingerprint
from quotes.models import (
    Acceptance,
    BillLine,
    Counter,
    ExtraWork,
    Invoice,
    InvoiceDraft,
    JournalLine,
    Payment,
    Quote,
    Revision,
    ShopFactorChange,
    StoredFile,
    SupplierBill,
    TeardownLeave,
    Workshop,
)
from quotes.queries.record.documents import sheet_models
from tests.bench.cast import job, leave
from tests.books import cast
from tests.books.conftest import plain_files
from tests.books.ledger_cast import billed, deposit, for_what, paid
from tests.cast import owner
from tests.quotes.cast import NOW

pytestmark = pytest.mark.django_db
INVOICE, QUOTE = "Invoice I-2026-0001", "Revision Q-2026-0001/1"
ON_INVOICES = " ON quotes_invoice" if connection.vendor == "postgresql" else ""
FIGURES = {"low": 1.0, "typical": 2.0, "high": 3.0, "shape": 1.5, "evidence": 2.0}
LATER_FIGURES = {"low": 2.0, "typical": 3.0, "high": 4.0, "shape": 1.5, "evidence": 4.0}


@pytest.fixture(scope="module", autouse=True)
def recorded(django_db_setup: None, django_db_blocker: DjangoDbBlocker) -> Iterator[None]:
    """A build from its quote to a credit note, a strip-down, a bill, changes of life and factor."""
    with django_db_blocker.unblock(), transaction.atomic(), pytest.MonkeyPatch.context() as patched:
        patched.setattr(drawing, "drawn", plain_files)
        patched.setattr(drawing, "warm_up", lambda: None)
        build = cast.build()
        cast.extra_work(build)
        leave(job(quote=build.quote))
        cast.deposited(build)
        cast.credited(cast.invoiced(build), {1: "1"})
        paid("1000")
        deposit(cast.build("H4-30518"), "300")
        billed("4711", for_what("part", "100", build), tax="20")
        _changed_life(_changed_life(None))
        for factor, before in (("1.2", "1"), ("1.1", "1.2")):
            set_shop_factor(
                factor=Decimal(factor), reason="Its record", expected=Decimal(before), by=owner(), now=NOW
            )
        yield
        transaction.set_rollback(True)


@contextmanager
def unprotected() -> Iterator[None]:
    """Every trigger is off for as long, whichever migration set it."""
    if connection.vendor == "postgresql":
        run("SET LOCAL session_replication_role = replica")
        yield
        run("SET LOCAL session_replication_role = origin")
        return
    with connection.cursor() as cursor:
        cursor.execute("SELECT name, sql FROM sqlite_master WHERE type = 'trigger'")
        triggers = cursor.fetchall()
    for name, _ in triggers:
        run(f"DROP TRIGGER {name}")
    yield
    for _, made in triggers:
        run(made)


def _changed_life(rests_on: LifeChange | None) -> LifeChange:
    """A clutch that lasts longer than was thought; the second change rests on the first."""
    figures, was = (LATER_FIGURES, FIGURES) if rests_on else (FIGURES, {})
    return LifeChange.objects.create(
        component="clutch_friction",
        basis="miles",
        rests_on=rests_on,
        rule="learnt",
        was=was,
        data={},
        reason="Three seasons",
        by=owner(),
        at=NOW,
        **figures,
    )


def run(sql: str) -> None:
    with connection.cursor() as cursor:
        cursor.execute(sql)


def verified() -> SimpleNamespace:
    """What the command prints, where it says that the record of changes ends, and how it ends itself."""
    said, wrong, ended = StringIO(), StringIO(), 0
    try:
        call_command("verify", stdout=said, stderr=wrong)
    except SystemExit as end:
        ended = int(end.code or 0)
    *told, summary = said.getvalue().splitlines() or [""]
    ends = [line for line in told if line.startswith("Note: the record of changes ends with entry ")]
    lines = [line for line in told if line not in ends]
    return SimpleNamespace(lines=lines, ends=ends, summary=summary, wrong=wrong.getvalue(), ended=ended)


def change(model: type[models.Model], *, of: dict[str, Any] | None = None, **fields: Any) -> None:
    """Change rows as somebody does who has the database in his hands."""
    with unprotected():
        models.QuerySet(model).filter(**(of or {})).update(**fields)


def changed_sheet(model: type[Any], alter: Callable[[Any], object], *, reprint: bool = False) -> None:
    """Change the sheet of the first row; with `reprint` its fingerprint is made anew, as a forger would."""
    row = models.QuerySet[Any](model).order_by("pk")[0]
    alter(row.sheet)
    prints = {"sheet_sha256": kept_fingerprint(row.sheet)} if reprint else {}
    change(model, of={"pk": row.pk}, sheet=row.sheet, **prints)


def _first_line(quantity: str) -> Callable[[Any], object]:
    return lambda sheet: sheet["lines"][0].update(quantity=quantity)


def test_a_sound_record_is_said_in_one_line() -> None:
    found = verified()

    assert (found.lines, found.wrong, found.ended) == ([], "", 0)
    assert found.summary.startswith(
        "Sound: 6 documents, 1 offers of extra work, 0 purchase orders, 2 builds, 1 suppliers' bills, "
    )
    assert ", 7 journal entries, 2 changed lives, 2 changed factors, " in found.summary


@pytest.mark.parametrize(
    ("harm", "line"),
    [
        (
            lambda: changed_sheet(TeardownLeave, lambda sheet: sheet.update(number="J-2026-0009")),
            "Teardown leave J-2026-0001: SHA-256 of its sheet: expected ",
        ),
        (
            lambda: changed_sheet(Invoice, lambda sheet: sheet.update(payment_words="Never")),
            "Invoice D-2026-0001: SHA-256 of its sheet: expected ",
        ),
        (
            lambda: change(Invoice, of={"number": "I-2026-0001"}, gross=1, net=1, tax=0),
            f"{INVOICE}: net in its row: ",
        ),
        (
            lambda: change(InvoiceDraft, of={"invoice__number": "I-2026-0001"}, issued_on=None),
            f"{INVOICE}: day in its draft: expected ",
        ),
        (
            lambda: change(Invoice, of={"number": "I-2026-0001"}, currency="USD"),
            f"{INVOICE}: currency in its row: expected EUR, found USD",
        ),
        (
            lambda: change(Revision, of={"pk__gt": 0}, gross_to=99_999),
            f"{QUOTE}: dearest option in its row: expected ",
        ),
        (
            lambda: change(Quote, of={"number": "Q-2026-0001"}, stands_until=date(2030, 1, 1)),
            f"{QUOTE}: last day in its quote: expected ",
        ),
        (
            lambda: change(Acceptance, of={"quote__number": "Q-2026-0001"}, gross=1),
            "Yes to Q-2026-0001/1: sum shown beside it: expected 3186.48, found 1",
        ),
        (
            lambda: change(Acceptance, of={"quote__number": "Q-2026-0001"}, sheet_sha256="0" * 64),
            "Yes to Q-2026-0001/1: SHA-256 of the sheet shown: expected ",
        ),
        (
            lambda: change(Acceptance, of={"quote__number": "Q-2026-0001"}, invoiced_at=None),
            "Build Q-2026-0001: invoiced: expected True, found False",
        ),
        (
            lambda: change(ExtraWork, net=486, gross=583),
            "Extra work Q-2026-0001/1: net of its lines: expected 485",
        ),
        (
            lambda: change(BillLine, net=99),
            "Supplier bill S-2026-0001: net of its lines: expected 99.000, found 100",
        ),
        (
            lambda: change(Payment, of={"number": "R-2026-0001"}, amount=999),
            "Payment R-2026-0001: total of its entry: expected 999.000, found 1000.000",
        ),
        (
            lambda: change(
                StoredFile,
                of={"name__startswith": "I-2026-0001", "name__endswith": "pdf"},
                held=b"%PDF forged",
                place="",
            ),
            "SHA-256 of its 11 bytes: expected ",
        ),
        (
            lambda: run("UPDATE quotes_quote SET number = 'Q-2026-0003' WHERE number = 'Q-2026-0002'"),
            "Series Q 2026: numbers without a gap: expected a document for Q-2026-0002, found none",
        ),
        (
            lambda: change(Counter, of={"kind": "R", "year": 2026}, value=1),
            "Series R 2026: its counter: expected 2 or more, found 1",
        ),
        (
            lambda: change(SupplierBill, number="4711"),
            "4711: number: expected one of the series S, found 4711",
        ),
        (
            lambda: change(JournalLine, of={"role": "receivables", "debit__gt": 0}, debit=1),
            "Trial balance: debits and credits differ by ",
        ),
        (
            lambda: change(LifeChange, of={"rests_on": None}, typical=2.5),
            "of the life of clutch_friction on miles: life before it: expected ",
        ),
        (
            lambda: change(ShopFactorChange, of={"before": 1}, after="1.3"),
            "factor before it: expected 1.300, found 1.200",
        ),
        (lambda: change(Workshop, shop_factor=2), "Workshop: factor: expected 1.100, found 2.000"),
        (
            lambda: run(f"DROP TRIGGER quotes_invoice_kept{ON_INVOICES}"),
            "Table quotes_invoice: its triggers: expected quotes_invoice_kept, found no such one",
        ),
    ],
)
def test_what_was_broken_is_named(harm: Callable[[], None], line: str) -> None:
    harm()

    found = verified()

    assert found.ended == 1
    assert [one for one in found.lines if line in one], found.lines
    assert found.summary.split(" faults in ")[0] == str(len(found.lines))


@pytest.mark.one_database
def test_a_forger_who_makes_the_fingerprint_anew_is_found_by_the_sums() -> None:
    changed_sheet(Invoice, _first_line("7"), reprint=True)

    assert [line for line in verified().lines if "net of line 1" in line]


@pytest.mark.one_database
def test_a_sheet_that_can_not_be_read_is_a_fault_and_stops_nothing() -> None:
    changed_sheet(Revision, lambda sheet: sheet.pop("heading"), reprint=True)
    change(Workshop, shop_factor=2)

    assert [line.partition(": expected")[0] for line in verified().lines] == [
        f"{QUOTE}: its sheet",
        "Workshop: factor",
    ]


@pytest.mark.one_database
def test_what_lies_on_the_disk_unknown_is_a_note(tmp_path: Path, settings: DjangoSettings) -> None:
    settings.MEDIA_ROOT = tmp_path
    (tmp_path / "engines").mkdir()
    (tmp_path / "engines" / "bore.jpg").write_bytes(b"a photograph")
    os.utime(tmp_path / "engines" / "bore.jpg", (0, 0))

    found = verified()

    assert found.lines == ["Note: engines/bore.jpg among the files is named by nothing in the record"]
    assert (found.summary.partition(":")[0], found.ended) == ("Sound", 0)


def test_a_record_that_can_not_be_read_is_said_to_be_so() -> None:
    run("DROP TABLE quotes_customerfile")

    found = verified()

    assert found.ended == 2
    assert "The record can't be read" in found.wrong


@pytest.mark.one_database
def test_every_model_with_a_fingerprinted_sheet_is_looked_at() -> None:
    assert {model._meta.model_name for model in sheet_models()} == {
        "assemblyrecord",
        "findingsreport",
        "intakereceipt",
        "invoice",
        "purchaseorder",
        "release",
        "revision",
        "teardownleave",
        "worksorder",
    }
