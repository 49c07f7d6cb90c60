"""Statements of the bank: kept, taken in line by line, their lines taken as payments, none of them twice."""

from __future__ import annotations

import hashlib
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import datetime
from decimal import Decimal

from django.contrib.auth.models import User
from django.core.exceptions import ValidationError
from django.db import transaction

from catalogue.calc.money import ZERO
from catalogue.calc.said import say
from quotes.actions.audit.bulk import add_all, change_all
from quotes.actions.books.payments import take_payment
from quotes.actions.refused import Refused
from quotes.actions.storing import drop_file_later, store_file
from quotes.calc.books.bank_lines import Reading, StatementLine, heads_fingerprint
from quotes.models import (
    BankColumns,
    BankFile,
    BankLine,
    BankLineState,
    Counter,
    Customer,
    Payment,
    PaymentMethod,
)
from quotes.queries.books.bank import KNOWN, alike_lines, known_lines

GATE = "bank-file"
CSV = "text/csv"


class NothingNewInFile(Refused):
    """Every line of the file is in the books already."""

    def __init__(self, lines: int) -> None:
        super().__init__(
            say(
                "All {lines} lines of this file are known from earlier ones. Nothing was taken in.",
                lines=lines,
            )
        )


class NotConfirmed(Refused):
    """Lines that may be one payment twice: somebody has to say that they are two."""

    def __init__(self, rows: Sequence[int]) -> None:
        self.rows = tuple(rows)
        said = ", ".join(str(row) for row in self.rows)
        super().__init__(
            say(
                "Like another line: {rows}. Nothing was taken in: confirm that each is a payment of its own.",
                rows=said,
            )
        )


class LineRefused(Refused):
    """A line can't be taken as it was chosen, so none was."""

    def __init__(self, row: int, said: str) -> None:
        self.row = row
        super().__init__(say("Line {row}: {said} Nothing was taken.", row=row, said=said))


class FileTakenIn(Refused):
    """The lines of the file are in the books: it can't be read otherwise any more, nor thrown away."""

    def __init__(self, name: str) -> None:
        super().__init__(say("The lines of {name} were taken in already.", name=name))


@dataclass(frozen=True, slots=True)
class Chosen:
    """A line with whose payment it is and what it settles; what is over stays in credit."""

    line_pk: int
    customer_pk: int
    settles: Mapping[int, Decimal] = field(default_factory=dict)
    """Item to sum."""


@transaction.atomic
def keep_bank_file(*, name: str, content: bytes, by: User, now: datetime) -> BankFile:
    """Keep a file that was handed in, before any of it is taken in; the same bytes are the same file."""
    _one_at_a_time()
    digest = hashlib.sha256(content).hexdigest()
    if known := BankFile.objects.filter(sha256=digest).first():
        return known
    plain = (name.replace("\x00", "") or "statement.csv")[-200:]
    stored = store_file(name=plain, content_type=CSV, content=content, now=now)
    return BankFile.objects.create(name=plain, sha256=digest, content=stored, kept_by=by, kept_at=now)


@transaction.atomic
def drop_bank_file(*, file: BankFile) -> None:
    """Throw away a file of which nothing was taken in. FileTakenIn otherwise."""
    row = _untouched(file)
    stored = row.content
    row.delete()
    stored.delete()
    drop_file_later(stored.place)


@transaction.atomic
def choose_reading(*, file: BankFile, reading: Reading) -> BankFile:
    """Keep how a file is to be read. FileTakenIn once its lines are in the books."""
    row = _untouched(file)
    row.reading = reading.model_dump(mode="json")
    row.save(update_fields=["reading"])
    return row


@transaction.atomic
def enter_bank_lines(
    *,
    file: BankFile,
    reading: Reading,
    heads: Sequence[str],
    lines: Collection[StatementLine],
    confirmed: Collection[int] = (),
    now: datetime,
) -> tuple[BankLine, ...]:
    """Take in the lines of a sound file that are not known, and remember its columns by its heads.

    `confirmed` are the rows of which somebody has said that they are payments of their own: those that stand
    in the file before, and those with day and sum of a line of an earlier file. NotConfirmed,
    NothingNewInFile, FileTakenIn; pressed twice it is FileTakenIn, and nothing is taken in twice.
    """
    _one_at_a_time()
    row = _untouched(file)
    known, near = known_lines(lines), alike_lines(lines)
    new = [line for line in lines if line.fingerprint not in known]
    doubtful = [
        line.row
        for line in new
        if line.amount > ZERO and (line.ordinal > 1 or (line.on, line.amount) in near)
    ]
    if open_doubts := sorted(set(doubtful) - set(confirmed)):
        raise NotConfirmed(open_doubts)
    if not new:
        raise NothingNewInFile(len(lines))
    row.reading = reading.model_dump(mode="json") | {KNOWN: len(lines) - len(new)}
    row.save(update_fields=["reading"])
    BankColumns.objects.update_or_create(
        heads_sha256=heads_fingerprint(heads), defaults={"columns": _remembered(reading), "used_at": now}
    )
    return tuple(add_all(BankLine, [_row(row, line) for line in new]))


@transaction.atomic
def take_bank_lines(
    *, file: BankFile, chosen: Sequence[Chosen], by: User, now: datetime
) -> tuple[Payment, ...]:
    """Take the chosen lines as payments, all or none; a line that was taken gives the payment it became.

    LineRefused names the line that can't be taken.
    """
    _one_at_a_time()
    rows = {row.pk: row for row in BankLine.objects.select_for_update(of=("self",)).filter(file=file)}
    customers = Customer.objects.in_bulk([one.customer_pk for one in chosen])
    if len({one.line_pk for one in chosen} & rows.keys()) < len(chosen):
        raise Refused(say("A line was chosen twice, or is none of this file. Nothing was taken."))
    taken = []
    for one in sorted(chosen, key=lambda choice: rows[choice.line_pk].row):
        line = rows[one.line_pk]
        if line.payment is None:
            _take(line, customers.get(one.customer_pk), one.settles, by, now)
        assert line.payment is not None
        taken.append(line.payment)
    return tuple(taken)


@transaction.atomic
def put_aside(*, lines: Collection[int], note: str, now: datetime) -> int:
    """Put lines aside that are no customer's payments; how many. What was taken stays taken."""
    rows = BankLine.objects.filter(pk__in=lines, state=BankLineState.WAITING)
    return change_all(rows, state=BankLineState.PUT_ASIDE, note=note.replace("\x00", "").strip()[:300])


@transaction.atomic
def take_back(*, lines: Collection[int]) -> int:
    """Let lines wait again that were put aside."""
    rows = BankLine.objects.filter(pk__in=lines, state=BankLineState.PUT_ASIDE)
    return change_all(rows, state=BankLineState.WAITING, note="")


def _take(
    line: BankLine, customer: Customer | None, settles: Mapping[int, Decimal], by: User, now: datetime
) -> None:
    if customer is None:
        raise LineRefused(line.row, say("Choose whose payment it is."))
    if line.state == BankLineState.PUT_ASIDE:
        raise LineRefused(line.row, say("It was put aside: let it wait again first."))
    if line.amount <= ZERO:
        raise LineRefused(line.row, say("It is money that went out."))
    try:
        line.payment = take_payment(
            customer=customer,
            on=line.on,
            amount=line.amount,
            method=PaymentMethod.TRANSFER,
            key=line.fingerprint,
            by=by,
            now=now,
            reference=(line.text or line.payer)[:140],
            allocate=settles,
        )
    except Refused as refused:
        raise LineRefused(line.row, str(refused)) from refused
    except ValidationError as invalid:
        raise LineRefused(line.row, " ".join(invalid.messages)) from invalid
    line.state = BankLineState.TAKEN
    line.save(update_fields=["state", "payment"])


def _untouched(file: BankFile) -> BankFile:
    row = BankFile.objects.select_for_update(of=("self",)).select_related("content").get(pk=file.pk)
    if row.lines.exists():
        raise FileTakenIn(row.name)
    return row


def _row(file: BankFile, line: StatementLine) -> BankLine:
    return BankLine(
        file=file,
        row=line.row,
        on=line.on,
        amount=line.amount,
        payer=line.payer,
        text=line.text,
        fingerprint=line.fingerprint,
    )


def _remembered(reading: Reading) -> dict[str, object]:
    """What holds for the next file with the same heads; where they stand is looked for anew."""
    return reading.model_copy(update={"head_line": None, "charset": "", "separator": ""}).model_dump(
        mode="json"
    )


def _one_at_a_time() -> None:
    """Two files at once could both find a line new: the second waits until the first is in."""
    Counter.objects.get_or_create(kind=GATE, year=0)
    Counter.objects.select_for_update().get(kind=GATE, year=0)
