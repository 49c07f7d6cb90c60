"""Numbers without gap or double, whoever asks for them at the same moment."""

from __future__ import annotations

import subprocess
import sys
from concurrent.futures import ThreadPoolExecutor

import pytest
from django.conf import settings
from django.db import connection, transaction

from quotes.actions.numbers import next_number
from tests.quotes.take_numbers import take

AT_ONCE = 4
EACH = 15
ALL = [f"Q-2026-{number:04}" for number in range(1, AT_ONCE * EACH + 1)]


def test_numbers_of_a_year_follow_each_other(db: None) -> None:
    assert [next_number(kind="Q", year=2026) for _ in range(2)] == ["Q-2026-0001", "Q-2026-0002"]


def test_each_year_begins_with_one(db: None) -> None:
    next_number(kind="Q", year=2026)

    assert next_number(kind="Q", year=2027) == "Q-2027-0001"


def test_a_number_is_not_given_outside_a_transaction(transactional_db: None) -> None:
    with pytest.raises(RuntimeError):
        next_number(kind="Q", year=2026)


def test_a_transaction_that_fails_gives_its_number_back(transactional_db: None) -> None:
    def fail() -> None:
        with transaction.atomic():
            next_number(kind="Q", year=2026)
            raise ArithmeticError

    with pytest.raises(ArithmeticError):
        fail()

    with transaction.atomic():
        assert next_number(kind="Q", year=2026) == "Q-2026-0001"


def test_threads_that_issue_at_once_leave_no_gap_and_no_double(transactional_db: None) -> None:
    def one_thread(_: int) -> list[str]:
        try:
            return take(EACH)
        finally:
            connection.close()

    with ThreadPoolExecutor(AT_ONCE) as pool:
        taken = [number for numbers in pool.map(one_thread, range(AT_ONCE)) for number in numbers]

    assert sorted(taken) == ALL


def test_processes_that_issue_at_once_leave_no_gap_and_no_double(transactional_db: None) -> None:
    name = str(connection.settings_dict["NAME"])
    command = [sys.executable, "-m", "tests.quotes.take_numbers", name, str(EACH)]
    running = [
        subprocess.Popen(command, stdout=subprocess.PIPE, text=True, cwd=settings.BASE_DIR)
        for _ in range(AT_ONCE)
    ]
    taken = [number for process in running for number in process.communicate(timeout=120)[0].split()]

    assert [process.returncode for process in running] == [0] * AT_ONCE
    assert sorted(taken) == ALL
