"""A statement taken into the books: shown before it is applied, all or nothing, and never applied twice."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

import pytest

from quotes.actions.books.bank import Chosen, LineRefused, put_aside, take_back, take_bank_lines
from quotes.actions.books.bank_files import (
    FileTakenIn,
    NotConfirmed,
    NothingNewInFile,
    choose_reading,
    drop_bank_file,
    enter_bank_lines,
    keep_bank_file,
)
from quotes.actions.refused import Refused
from quotes.calc.books.bank_lines import Reading
from quotes.imports.bank.check import CheckedStatement, check_statement
from quotes.models import BankFile, BankLine, BankLineState, OpenItem, Payment, StoredFile
from quotes.queries.books.bank import known_in, proposals, reading_of
from quotes.queries.books.bank_files import listed_bank_files
from tests.books import posted
from tests.books.posted import NOW, ON
from tests.cast import books
from tests.quotes import cast

HEAD = "Date,Payer,Reference,Amount\n"
OTTEN = "2026-11-24,Marel Otten,Invoice I-2026-0001,106.00\n"
VOSS = "2026-11-24,Somebody,thank you,7.00\n"
FEE = "2026-11-24,Bank,Fee,-2.50\n"

pytestmark = pytest.mark.django_db


@pytest.fixture(autouse=True)
def workshop(db: None) -> None:
    """A workshop in which Marel Otten owes 106.00 on I-2026-0001 and 53.00 on I-2026-0002."""
    cast.workshop()
    posted.issued("I-2026-0001", ("100.00",), issued_on=date(2026, 11, 2))
    posted.issued("I-2026-0002", ("50.00",), issued_on=date(2026, 11, 3))


def kept(text: str, name: str = "november.csv") -> BankFile:
    return keep_bank_file(name=name, content=text.encode(), by=books(), now=NOW)


def looked_at(file: BankFile) -> CheckedStatement:
    return check_statement(bytes(file.content.content), reading_of(file), on=ON)


def entered(text: str, name: str = "november.csv", confirmed: tuple[int, ...] = ()) -> BankFile:
    """A file whose new lines are in the books and wait."""
    file = kept(text, name)
    statement = looked_at(file).statement
    enter_bank_lines(
        file=file,
        reading=statement.reading,
        heads=statement.heads,
        lines=statement.lines,
        confirmed=confirmed,
        now=NOW,
    )
    return file


def chosen_as_proposed(file: BankFile) -> list[Chosen]:
    return [
        Chosen(
            one.line.pk,
            one.match.customer_pk,
            {part.item_pk: part.amount for part in one.match.settles},
        )
        for one in proposals(file)
        if one.match.customer_pk
    ]


def take(file: BankFile, chosen: list[Chosen] | None = None) -> tuple[Payment, ...]:
    return take_bank_lines(file=file, chosen=chosen or chosen_as_proposed(file), by=books(), now=NOW)


def still_open(number: str) -> Decimal:
    return OpenItem.objects.get(number=number).open_amount


def test_what_is_sure_is_taken_as_a_payment_that_settles_the_invoice() -> None:
    file = entered(HEAD + OTTEN + FEE)

    assert [(one.line.row, one.match.certainty) for one in proposals(file)] == [(2, "sure"), (3, "none")]
    (payment,) = take(file)

    assert (payment.amount, payment.on, payment.method) == (Decimal("106.00"), date(2026, 11, 24), "transfer")
    assert payment.reference == "Invoice I-2026-0001"
    assert still_open("I-2026-0001") == 0
    assert BankLine.objects.get(row=2).payment == payment
    assert BankLine.objects.get(row=3).state == BankLineState.WAITING


def test_the_payment_that_a_line_became_bears_its_fingerprint() -> None:
    (payment,) = take(entered(HEAD + OTTEN))

    assert payment.key == BankLine.objects.get().fingerprint


def test_taken_twice_it_is_one_payment() -> None:
    file = entered(HEAD + OTTEN)
    chosen = chosen_as_proposed(file)

    assert take(file, chosen) == take(file, chosen)
    assert Payment.objects.count() == 1


def test_the_same_bytes_are_the_same_file() -> None:
    file = entered(HEAD + OTTEN)

    assert kept(HEAD + OTTEN, "again.csv") == file
    with pytest.raises(FileTakenIn, match=r"november\.csv were taken in already"):
        entered(HEAD + OTTEN, "again.csv")


def test_an_overlapping_file_brings_only_what_is_new() -> None:
    take(entered(HEAD + OTTEN))

    later = entered(f"{HEAD}2026-11-24,MAREL OTTEN,INVOICE I-2026-0001,106.0\n{VOSS}", "december.csv")

    assert [line.row for line in later.lines.all()] == [3]
    assert known_in(BankFile.objects.get(pk=later.pk)) == 1


def test_a_file_of_which_all_is_known_is_refused() -> None:
    entered(HEAD + OTTEN)

    with pytest.raises(NothingNewInFile, match="All 1 lines"):
        entered(HEAD + OTTEN + "\n", "again.csv")


def test_a_line_that_stands_twice_has_to_be_confirmed_and_is_then_two_payments() -> None:
    posted.issued("I-2026-0003", ("100.00",))
    text = HEAD + "2026-11-24,Marel Otten,Thanks,106.00\n" * 2

    (twin,) = looked_at(kept(text)).to_confirm
    assert twin.to_confirm == "stands 2 times in this file: each is a payment of its own"
    with pytest.raises(NotConfirmed, match="Like another line: 3"):
        entered(text)
    file = entered(text, confirmed=(3,))
    chosen = [Chosen(line.pk, posted.customer().pk) for line in file.lines.all()]

    assert [payment.amount for payment in take(file, chosen)] == [Decimal("106.00")] * 2


def test_a_twin_of_an_outgoing_line_needs_no_word() -> None:
    assert entered(HEAD + OTTEN + FEE + FEE).lines.count() == 3


def test_a_second_alike_on_a_later_file_is_new_and_the_first_is_not() -> None:
    """The bank's first file came at noon; its next one shows that the same came once more."""
    entered(HEAD + VOSS)

    later = entered(HEAD + VOSS + VOSS, "evening.csv", confirmed=(3,))

    assert [line.row for line in later.lines.all()] == [3]


def test_a_line_in_other_words_has_to_be_confirmed() -> None:
    """Another column was chosen for the text, so the fingerprint is another."""
    entered(HEAD + OTTEN)
    text = "Date,Name,Memo,Amount\n2026-11-24,Otten Marel,Invoice 0001,106.00\n"

    (doubtful,) = looked_at(kept(text, "other.csv")).to_confirm

    assert doubtful.to_confirm == "has day and sum of line 2 of november.csv, in other words"
    with pytest.raises(NotConfirmed):
        entered(text, "other.csv")
    assert entered(text, "other.csv", confirmed=(2,)).lines.count() == 1


def test_a_line_that_cannot_be_taken_takes_none_of_the_others() -> None:
    file = entered(HEAD + OTTEN + VOSS)
    first, second = file.lines.order_by("row")
    item = OpenItem.objects.get(number="I-2026-0002")
    chosen = [*chosen_as_proposed(file), Chosen(second.pk, posted.customer().pk, {item.pk: Decimal("53.00")})]

    with pytest.raises(LineRefused, match=r"^Line 3: .*Nothing was taken\.$"):
        take(file, chosen)

    assert Payment.objects.count() == 0
    assert still_open("I-2026-0001") == Decimal("106.00")
    first.refresh_from_db()
    assert first.state == BankLineState.WAITING


def test_money_that_went_out_is_not_taken() -> None:
    file = entered(HEAD + FEE)

    with pytest.raises(LineRefused, match="money that went out"):
        take(file, [Chosen(file.lines.get().pk, posted.customer().pk)])


def test_a_line_of_another_file_is_refused() -> None:
    file, other = entered(HEAD + OTTEN), entered(HEAD + VOSS, "other.csv")

    with pytest.raises(Refused, match="none of this file"):
        take(file, [Chosen(other.lines.get().pk, posted.customer().pk)])


def test_a_line_put_aside_is_taken_only_after_it_waits_again() -> None:
    file = entered(HEAD + OTTEN)
    chosen = chosen_as_proposed(file)
    line = file.lines.get()

    assert put_aside(lines=[line.pk], note="Not a customer's", now=NOW) == 1
    assert proposals(file) == ()
    with pytest.raises(LineRefused, match="put aside"):
        take(file, chosen)
    assert take_back(lines=[line.pk]) == 1

    assert len(take(file, chosen)) == 1
    assert put_aside(lines=[line.pk], note="", now=NOW) == 0


def test_columns_are_remembered_by_the_heads_of_a_file() -> None:
    odd = "P,Q,R,S\n2026-11-24,I-2026-0001,1.00,106.00\n"
    file = kept(odd)
    assert looked_at(file).statement.missing
    choose_reading(
        file=file,
        reading=Reading.model_validate({"columns": {"date": 0, "amount": 3, "text": [1]}}),
    )
    file.refresh_from_db()
    statement = looked_at(file).statement
    enter_bank_lines(
        file=file, reading=statement.reading, heads=statement.heads, lines=statement.lines, now=NOW
    )

    next_month = looked_at(kept(odd.replace("11-24", "11-25"), "december.csv"))

    assert next_month.sound
    assert next_month.lines[0].line.text == "I-2026-0001"


def test_a_file_that_was_not_taken_in_can_be_thrown_away() -> None:
    before = StoredFile.objects.count()
    drop_bank_file(file=kept(HEAD + OTTEN))

    assert (BankFile.objects.count(), StoredFile.objects.count()) == (0, before)
    with pytest.raises(FileTakenIn):
        drop_bank_file(file=entered(HEAD + OTTEN))


def test_looking_at_a_file_writes_nothing() -> None:
    file = kept(HEAD + OTTEN)
    looked_at(file)

    assert (BankLine.objects.count(), Payment.objects.count()) == (0, 0)


@pytest.mark.parametrize("lines", [1, 20])
def test_proposals_and_the_list_cost_the_same_for_one_line_and_for_twenty(
    lines: int, django_assert_num_queries: pytest.FixtureRequest
) -> None:
    text = HEAD + "".join(f"2026-11-24,Marel Otten,I-2026-0001 {n},1{n}.00\n" for n in range(10, 10 + lines))
    file = entered(text)

    with django_assert_num_queries(3):  # type: ignore[operator]
        assert len(proposals(file)) == lines
    with django_assert_num_queries(1):  # type: ignore[operator]
        assert [(row.held, row.waiting) for row in listed_bank_files()] == [(lines, lines)]
