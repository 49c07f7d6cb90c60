"""Lines of the bank's statements: taken as payments, or put aside."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import datetime
from decimal import Decimal

from django.contrib.auth.models import User
from django.core.exceptions import ValidationError
from django.db import transaction

from catalogue.calc.money import ZERO
from catalogue.calc.said import say
from quotes.actions.audit.bulk import change_all
from quotes.actions.books.bank_files import one_at_a_time
from quotes.actions.books.payments import take_payment
from quotes.actions.refused import Refused
from quotes.models import BankFile, BankLine, BankLineState, Customer, Payment, PaymentMethod


class LineRefused(Refused):
    """A line can't be taken as it was chosen, so none was."""

    def __init__(self, row: int, said: str) -> None:
        self.row = row
        super().__init__(say("Line {row}: {said} Nothing was taken.", row=row, said=said))


@dataclass(frozen=True, slots=True)
class Chosen:
    """A line with whose payment it is and what it settles; what is over stays in credit."""

    line_pk: int
    customer_pk: int
    settles: Mapping[int, Decimal] = field(default_factory=dict)
    """Item to sum."""


@transaction.atomic
def take_bank_lines(
    *, file: BankFile, chosen: Sequence[Chosen], by: User, now: datetime
) -> tuple[Payment, ...]:
    """Take the chosen lines as payments, all or none; a line that was taken gives the payment it became.

    LineRefused names the line that can't be taken.
    """
    one_at_a_time()
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
