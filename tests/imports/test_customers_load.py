"""Taking a file of customers in: checked first, all or nothing, and nothing twice."""

from __future__ import annotations

from decimal import Decimal
from io import StringIO
from pathlib import Path
from typing import Any

import pytest
from django.core.management import call_command
from django.db import connection
from django.test.utils import CaptureQueriesContext

from quotes.actions.handed_in import KEPT_FOR, keep_file
from quotes.actions.import_customers import FileMismatch, add_customers, take_in_file
from quotes.imports.load_customers import CheckedCustomers, check_customers
from quotes.models import Customer, CustomerFile, Engine, Segment
from tests.cast import desk, owner
from tests.imports.customer_files import as_file, customer_only, line, workbook
from tests.quotes.cast import NOW, ON

pytestmark = [pytest.mark.django_db, pytest.mark.usefixtures("loaded")]
LATER_STRETCH = {"From": None, "To": None, "Used": "350"}


def check(content: bytes) -> CheckedCustomers:
    return check_customers(content, ON)


def take_in(content: bytes) -> None:
    checked = check(content)
    assert checked.faults == ()
    add_customers(given=checked.file.customers, expected=checked.plan, now=NOW)


def rows() -> tuple[int, int, int]:
    return Customer.objects.count(), Engine.objects.count(), Segment.objects.count()


def test_checking_writes_nothing() -> None:
    assert check(as_file(line())).plan.new_customers == 1
    assert rows() == (0, 0, 0)


def test_what_was_read_is_kept_as_it_was_written() -> None:
    take_in(workbook(line(Address="4 Tallow Yard\nAnyborough", Country="us", Engine_note="cracked cover")))
    engine = Engine.objects.with_history().get()
    assert (engine.customer.name, engine.customer.address) == ("Ines Karrow", "4 Tallow Yard\nAnyborough")
    assert (engine.customer.country, engine.note, engine.history_known) == ("US", "cracked cover", True)
    stretch = engine.segments.get()
    assert str(stretch) == "4100.00 mi sprint"
    assert stretch.tier == "refresh"
    assert Customer.objects.found_by("karrow").exists()
    assert Engine.objects.found_by("h420417").exists()


def test_the_same_file_once_more_adds_nothing() -> None:
    content = as_file(line(), line(**LATER_STRETCH), customer_only("Dov Marlish"))
    take_in(content)
    before = rows()
    again = check(content)
    take_in(content)
    assert again.plan.adds_nothing
    assert rows() == before == (2, 1, 2)


def test_service_after_the_known_service_is_added_behind_it() -> None:
    take_in(as_file(line()))
    take_in(as_file(line(), line(**LATER_STRETCH)))
    assert list(Segment.objects.values_list("order", "amount")) == [
        (0, Decimal(4100)),
        (1, Decimal(350)),
    ]
    assert Engine.objects.get().version == 2


def test_a_contradiction_with_the_records_names_its_line_and_column() -> None:
    take_in(as_file(line()))
    faults = check(as_file(line(Customer="Dov Marlish", E_mail=None))).faults
    assert [(fault.line, fault.column) for fault in faults] == [(2, "Engine number")]
    assert "Ines Karrow" in faults[0].reason


def test_a_fault_half_way_takes_nothing_in(monkeypatch: pytest.MonkeyPatch) -> None:
    checked = check(as_file(line(), customer_only("Dov Marlish")))

    def fail(*_: object, **__: object) -> None:
        raise RuntimeError("the power went")

    monkeypatch.setattr(Segment.objects, "bulk_create", fail)
    with pytest.raises(RuntimeError):
        add_customers(given=checked.file.customers, expected=checked.plan, now=NOW)
    assert rows() == (0, 0, 0)


def test_records_that_changed_since_the_check_stop_it() -> None:
    checked = check(as_file(line()))
    take_in(as_file(customer_only("Ines Karrow", E_mail="ines@karrow.example")))
    with pytest.raises(FileMismatch, match="have changed"):
        add_customers(given=checked.file.customers, expected=checked.plan, now=NOW)
    assert rows() == (1, 0, 0)


def test_a_unit_that_the_shipped_duty_can_not_carry_is_a_fault() -> None:
    assert [fault.column for fault in check(as_file(line(Duty="motocross", Unit="mi"))).faults] == ["Unit"]


def test_a_kept_file_is_the_same_for_a_second_upload_and_thrown_away_later() -> None:
    first = keep_file(CustomerFile, name="list.csv", content=b"a", by=desk(), now=NOW)
    assert keep_file(CustomerFile, name="other.csv", content=b"a", by=desk(), now=NOW) == first
    assert keep_file(CustomerFile, name="list.csv", content=b"a", by=owner(), now=NOW) != first
    keep_file(CustomerFile, name="new.csv", content=b"b", by=desk(), now=NOW + KEPT_FOR * 2)
    assert list(CustomerFile.objects.values_list("name", flat=True)) == ["new.csv"]


def test_a_second_press_takes_a_file_in_once() -> None:
    content = as_file(line())
    kept = keep_file(CustomerFile, name="list.csv", content=content, by=desk(), now=NOW)
    checked = check(content)
    for _ in range(2):
        kept = take_in_file(kept=kept, given=checked.file.customers, expected=checked.plan, now=NOW)
    assert (kept.added_customers, kept.added_engines, kept.added_segments) == (1, 1, 1)
    assert rows() == (1, 1, 1)


def count_queries(content: bytes) -> int:
    check(content)
    with CaptureQueriesContext(connection) as caught:
        checked = check(content)
        add_customers(given=checked.file.customers, expected=checked.plan, now=NOW)
    return len(caught)


def test_one_line_and_twenty_cost_the_same_queries() -> None:
    take_in(as_file(customer_only("The first ever")))
    one = count_queries(as_file(line(Engine_number="H4-0")))
    twenty = [line(Customer=f"Rider {n}", E_mail=None, Engine_number=f"H4-{n}") for n in range(1, 21)]
    assert count_queries(as_file(*twenty)) == one


def command(tmp_path: Path, content: bytes, *options: str) -> tuple[str, str, int]:
    file = tmp_path / "list of customers.csv"
    file.write_bytes(content)
    said, complained = StringIO(), StringIO()
    status: Any = 0
    try:
        call_command("import_customers", str(file), *options, stdout=said, stderr=complained)
    except SystemExit as ended:
        status = ended.code
    return said.getvalue(), complained.getvalue(), status


def test_the_command_says_what_it_would_add_and_adds_it_when_told(tmp_path: Path) -> None:
    said, _, status = command(tmp_path, as_file(line()))
    assert (status, "would add 1 customers, 1 engines" in said, rows()) == (0, True, (0, 0, 0))
    said, _, _ = command(tmp_path, as_file(line()), "--apply")
    assert ("added 1 customers" in said, rows()) == (True, (1, 1, 1))
    said, _, _ = command(tmp_path, as_file(line()), "--apply")
    assert ("in the records already" in said, rows()) == (True, (1, 1, 1))


def test_the_command_names_every_fault_and_ends_with_status_2(tmp_path: Path) -> None:
    content = as_file(line(E_mail="x"), line(Duty="speedway"))
    said, complained, status = command(tmp_path, content, "--apply")
    assert (said, status, rows()) == ("", 2, (0, 0, 0))
    assert "line 2, E-mail" in complained
    assert "line 3, Duty: “speedway” is not known" in complained


def test_the_command_refuses_a_file_that_is_no_workbook(tmp_path: Path) -> None:
    _, complained, status = command(tmp_path, b"%PDF" + bytes(50))
    assert (status, "no text" in complained) == (2, True)
