"""The customer's leave to strip: taken once, before anything is undone, and kept as it was agreed."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import asdict, dataclass
from datetime import datetime
from decimal import Decimal
from functools import partial

from django.contrib.auth.models import User
from django.core.exceptions import ValidationError
from django.db import transaction
from django.utils import timezone, translation

from catalogue.calc.said import say
from quotes.actions.bench.jobs import locked_job, move
from quotes.actions.bench.papers import kept_pdf
from quotes.actions.bench.refused import LeaveStands, NotInTheShop
from quotes.actions.saving import save_checked
from quotes.calc.ask.fingerprint import fingerprint
from quotes.calc.bench.said import exact
from quotes.calc.bench.teardown.leave_sheet import LeaveSheet
from quotes.calc.bench.teardown.price import TeardownSums
from quotes.models import IfNot, Job, SaidHow, Step, StoredFile, TeardownLeave, TeardownPrice
from quotes.queries.bench.teardown.leave import leave_sheet
from quotes.queries.people import name_of


@dataclass(frozen=True, slots=True)
class LeaveGiven:
    """What was agreed and who said so. Sums with tax, in the workshop's currency."""

    price: Decimal
    put_back_price: Decimal
    deposit: Decimal
    if_not: str
    name: str
    how: str
    right: str = ""
    telephone: str = ""
    credited_if_ahead: bool = True


@transaction.atomic
def give_leave(*, job: Job, given: LeaveGiven, by: User, now: datetime) -> TeardownLeave:
    """Keep the leave and move the job on; the same once more gives the leave that stands.

    LeaveStands where another was given, NotInTheShop, or ValidationError by field.
    """
    row = locked_job(job)
    if row.left_at is not None:
        raise NotInTheShop(row.number)
    if standing := TeardownLeave.objects.filter(job=row).first():
        if all(getattr(standing, name) == value for name, value in asdict(given).items()):
            return standing
        raise LeaveStands(row.number, standing.name)
    _refuse_unsaid(given)
    sheet = _sheet(row, given, by, now)
    leave = save_checked(
        TeardownLeave(
            job=row,
            **asdict(given),
            sheet=sheet.model_dump(mode="json"),
            sheet_sha256=fingerprint(sheet),
            given_at=now,
            written_by=by,
        )
    )
    move(job=job, step=Step.LEAVE_GIVEN, by=by, now=now)
    return leave


def _sheet(row: Job, given: LeaveGiven, by: User, now: datetime) -> LeaveSheet:
    return leave_sheet(
        row,
        TeardownSums(given.price, given.put_back_price, given.deposit),
        timezone.localdate(now),
        credited_if_ahead=given.credited_if_ahead,
        if_not=given.if_not,
        name=given.name.strip(),
        right=given.right.strip(),
        how=_how(row, given),
        telephone=given.telephone.strip(),
        written_by=name_of(by),
    )


def _how(row: Job, given: LeaveGiven) -> str:
    with translation.override(row.customer.reads):
        return str(SaidHow(given.how).label)


def _refuse_unsaid(given: LeaveGiven) -> None:
    faults = {}
    if given.how not in SaidHow.values:
        faults["how"] = say(
            "“{given}” is not one of: {allowed}.", given=given.how, allowed=", ".join(SaidHow.values)
        )
    if given.if_not not in IfNot.values:
        faults["if_not"] = say(
            "“{given}” is not one of: {allowed}.", given=given.if_not, allowed=", ".join(IfNot.values)
        )
    if not given.name.strip():
        faults["name"] = say("Nothing is given: write the full name of who gives leave.")
    if given.how == SaidHow.TELEPHONE and not given.telephone.strip():
        faults["telephone"] = say("Nothing is given: write the number that was called.")
    if given.deposit > given.price:
        faults["deposit"] = say(
            "{deposit} is more than the price of the strip-down, {price}.",
            deposit=exact(given.deposit),
            price=exact(given.price),
        )
    if faults:
        raise ValidationError(faults)


def leave_file(*, leave: TeardownLeave) -> StoredFile:
    """The stored paper of a leave, drawn now where that has not been done yet."""
    sheet = LeaveSheet.model_validate(leave.sheet)
    return kept_pdf(leave, f"{sheet.number}-leave-to-strip.pdf", partial(drawn_leave, sheet))


def drawn_leave(sheet: LeaveSheet) -> bytes:
    """The leave as PDF, with a place to sign where nobody has given it."""
    from quotes.documents.bench.leave import leave_pdf  # takes a second to import

    return leave_pdf(sheet)


@transaction.atomic
def save_teardown_prices(*, prices: Mapping[str, TeardownSums]) -> None:
    """Keep what the owner asks for a strip-down of each engine type; ValidationError by field."""
    for code, sums in prices.items():
        row = TeardownPrice.objects.filter(type_code=code).first() or TeardownPrice(type_code=code)
        row.price, row.put_back_price, row.deposit = sums.price, sums.put_back, sums.deposit
        save_checked(row)
