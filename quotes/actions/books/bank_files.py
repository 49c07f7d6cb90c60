"""Statements of the bank: kept as files, and their lines taken in, none of them twice."""

from __future__ import annotations

import hashlib
from collections.abc import Collection, Sequence
from datetime import datetime

from django.contrib.auth.models import User
from django.db import transaction

from catalogue.actions.dropping import drop_file_later
from catalogue.calc.money import ZERO
from catalogue.calc.said import say
from quotes.actions.audit.bulk import add_all
from quotes.actions.refused import Refused
from quotes.actions.storing import store_file
from quotes.calc.books.bank_lines import Reading, StatementLine, heads_fingerprint
from quotes.models import BankColumns, BankFile, BankLine, Counter
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


class FileTakenIn(Refused):
    """The lines of the file are in the books: it can't be read otherwise any more, nor thrown away."""

    def __init__(self, name: str) -> None:
        super().__init__(say("The lines of {name} were taken in already.", name=name))


@transaction.atomic
def keep_bank_file(*, name: str, content: bytes, by: User, now: datetime) -> BankFile:
    """Keep a file that was handed in, before any of it is taken in; the same bytes are the same file."""
    one_at_a_time()
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
    one_at_a_time()
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


def one_at_a_time() -> None:
    """Two files at once could both find a line new: the second waits until the first is in."""
    Counter.objects.get_or_create(kind=GATE, year=0)
    Counter.objects.select_for_update().get(kind=GATE, year=0)
