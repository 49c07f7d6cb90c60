"""Two people take the same statement in at the same moment."""

from __future__ import annotations

from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from threading import Barrier

import pytest
from django.db import connection

from quotes.actions.books.bank import Chosen, take_bank_lines
from quotes.actions.books.bank_files import FileTakenIn, NothingNewInFile, enter_bank_lines, keep_bank_file
from quotes.imports.bank.check import check_statement
from quotes.models import BankFile, BankLine, Payment
from tests.books import posted
from tests.books.posted import NOW, ON
from tests.cast import books
from tests.quotes import cast

PEOPLE = 3
TEXT = "Date,Payer,Reference,Amount\n2026-11-24,Marel Otten,I-2026-0001,106.00\n"

pytestmark = pytest.mark.django_db(transaction=True)


def at_once(press: Callable[[int], object]) -> list[object]:
    together = Barrier(PEOPLE)

    def one(number: int) -> object:
        together.wait()
        try:
            return press(number)
        except (FileTakenIn, NothingNewInFile) as refused:
            return type(refused)
        finally:
            connection.close()

    with ThreadPoolExecutor(PEOPLE) as pool:
        return list(pool.map(one, range(PEOPLE)))


def test_people_who_take_overlapping_files_in_at_once_take_each_line_once() -> None:
    cast.workshop()
    posted.issued("I-2026-0001", ("100.00",))
    by = books()
    texts = [TEXT + "\n" * number for number in range(PEOPLE)]
    files = [keep_bank_file(name=f"{n}.csv", content=t.encode(), by=by, now=NOW) for n, t in enumerate(texts)]
    found = check_statement(TEXT.encode(), on=ON).statement

    def enter(number: int) -> int:
        return len(
            enter_bank_lines(
                file=files[number], reading=found.reading, heads=found.heads, lines=found.lines, now=NOW
            )
        )

    told = at_once(enter)

    assert sorted(map(str, told)) == sorted(map(str, [1, NothingNewInFile, NothingNewInFile]))
    assert BankLine.objects.count() == 1


def test_people_who_keep_and_take_the_same_file_at_once_take_one_payment() -> None:
    cast.workshop()
    posted.issued("I-2026-0001", ("100.00",))
    by = books()
    at_once(lambda _: keep_bank_file(name="n.csv", content=TEXT.encode(), by=by, now=NOW).pk)
    file = BankFile.objects.get()
    found = check_statement(TEXT.encode(), on=ON).statement
    enter_bank_lines(file=file, reading=found.reading, heads=found.heads, lines=found.lines, now=NOW)
    line, of = BankLine.objects.get(), posted.customer()

    payments = at_once(
        lambda _: take_bank_lines(file=file, chosen=[Chosen(line.pk, of.pk)], by=by, now=NOW)[0].pk
    )

    assert payments == [Payment.objects.get().pk] * PEOPLE
