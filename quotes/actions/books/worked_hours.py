"""Hours spent on a build: entered by operation, person and day, and corrected until they are invoiced."""

from __future__ import annotations

from datetime import date, datetime
from decimal import Decimal

from django.contrib.auth.models import User
from django.core.exceptions import ValidationError
from django.db import transaction
from django.db.models import Sum
from django.utils import timezone

from catalogue.calc.money import ZERO
from catalogue.calc.said import say
from quotes.actions.books.refused import HoursInvoiced
from quotes.actions.saving import save_checked
from quotes.calc.invoice.credit import left_to_credit
from quotes.models import Acceptance, Invoice, WorkedHours
from quotes.queries.books.credits import credits_of, sheet_of_invoice
from quotes.queries.people import name_of

A_DAY = Decimal(24)


@transaction.atomic
def enter_hours(
    *,
    build: Acceptance,
    operation: str,
    person: User,
    on: date,
    hours: Decimal,
    by: User,
    now: datetime,
    note: str = "",
) -> WorkedHours:
    """Write down what one person spent on one operation of a build on one day, in hours.

    `operation` is a code of the catalogue, or empty for work that has none. ValidationError by field for a
    day to come and for more than 24 hours of one person on one day, as of a clock left running.
    """
    _lock(build)
    row = WorkedHours(build=build, operation=operation.strip(), person=person, on=on, note=note.strip())
    return keep_hours(row=row, hours=hours, by=by, now=now)


@transaction.atomic
def correct_hours(
    *, worked: WorkedHours, hours: Decimal, by: User, now: datetime, note: str = ""
) -> WorkedHours | None:
    """Put other hours in the place of those written down; nought takes them off, and None comes back.

    HoursInvoiced once an invoice asks for this build's work by the clock, as long as that stands.
    """
    build = build_of_hours(worked)
    if build is not None:
        _lock(build)
    row = WorkedHours.objects.select_for_update(of=("self",)).get(pk=worked.pk)
    if build is not None and (invoiced := _invoiced_by_the_clock(build.pk)):
        raise HoursInvoiced(invoiced.number)
    if hours == ZERO:
        row.delete()
        return None
    row.note = note.strip() or row.note
    return keep_hours(row=row, hours=hours, by=by, now=now)


def build_of_hours(worked: WorkedHours) -> Acceptance | None:
    """The build that hours belong to: their own, or what the job they were spent on has become."""
    return worked.build or Acceptance.objects.filter(quote__job=worked.job_id).first()


def _lock(build: Acceptance) -> None:
    Acceptance.objects.select_for_update(of=("self",)).get(pk=build.pk)


def keep_hours(*, row: WorkedHours, hours: Decimal, by: User, now: datetime) -> WorkedHours:
    """Keep a row with these hours; ValidationError for a day to come or a day of more than 24 hours."""
    today = timezone.localdate(now)
    if row.on > today:
        raise ValidationError(
            {
                "on": say(
                    "{on} has not come yet: hours are written down up to {today}.", on=row.on, today=today
                )
            }
        )
    others = WorkedHours.objects.filter(person=row.person, on=row.on).exclude(pk=row.pk)
    already = others.aggregate(total=Sum("hours"))["total"] or ZERO
    if ZERO < hours <= A_DAY < already + hours:
        left = A_DAY - already
        raise ValidationError(
            {
                "hours": say(
                    "{hours} h: {name} has {already} h on {on} already; at most {left} are left of the "
                    "day. Was a clock left running?",
                    hours=f"{hours:f}",
                    name=name_of(row.person),
                    already=f"{already.normalize():f}",
                    on=row.on,
                    left=f"{left.normalize():f}",
                )
            }
        )
    row.hours, row.entered_by, row.entered_at = hours, name_of(by), now
    return save_checked(row)


def _invoiced_by_the_clock(build_id: int) -> Invoice | None:
    """An invoice that asks for work by the clock and of whose work not all was credited."""
    rests = Invoice.objects.of_build(build_id).filter(kind="invoice", draft__content__labour_by="clocked")
    for invoice in rests.order_by("pk"):
        sheet = sheet_of_invoice(invoice)
        left = left_to_credit(sheet, credits_of(invoice))
        if any(line.kind == "labour" and line.number in left for line in sheet.lines):
            return invoice
    return None
