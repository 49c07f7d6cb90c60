"""The maker's figures, as the workshop enters them from its manual, and its instruments."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime
from decimal import Decimal

from django.contrib.auth.models import User
from django.core.exceptions import ValidationError
from django.db import transaction

from catalogue.calc.rows.wear import LimitRow
from catalogue.calc.said import say, to_say
from catalogue.queries import current_rows
from quotes.actions.saving import checked, save_checked
from quotes.models import Instrument, ManualLimit
from quotes.queries.people import name_of


@dataclass(frozen=True, slots=True)
class LimitFigures:
    """What the manual says of one limit, in the catalogue's unit of it, with its title and page."""

    limit: Decimal
    manual: str
    page: str = ""
    standard_low: Decimal | None = None
    standard_high: Decimal | None = None
    watch: Decimal | None = None


@transaction.atomic
def enter_limit(*, type_code: str, code: str, figures: LimitFigures, by: User, now: datetime) -> ManualLimit:
    """Put the manual's figure before the default. The one before it stays on record, with its end.

    ValidationError by field: a limit that the catalogue does not know, figures out of order.
    Readings keep what they were held against.
    """
    known = {row.code: row for row in current_rows().limits}
    if code not in known:
        raise ValidationError({"limit": say("{code} is no limit of the catalogue.", code=repr(code))})
    _refuse(figures, known[code])
    row = ManualLimit(
        type_code=type_code,
        limit_code=code,
        standard_low=figures.standard_low,
        standard_high=figures.standard_high,
        limit=figures.limit,
        watch=figures.watch,
        manual=figures.manual.strip(),
        page=figures.page.strip(),
        entered_at=now,
        entered_by=by,
    )
    checked(row, exclude=("until",))
    take_off_limit(type_code=type_code, code=code, by=by, now=now)
    row.save()
    return row


@transaction.atomic
def take_off_limit(*, type_code: str, code: str, by: User, now: datetime) -> None:
    """End the manual's figure: the default stands again."""
    standing = ManualLimit.objects.standing().select_for_update(of=("self",))
    for row in standing.filter(type_code=type_code, limit_code=code):
        row.until, row.until_by = now, name_of(by)
        row.save(update_fields=["until", "until_by"])


PAST_STANDARD = {
    "above": to_say("{limit} is below the standard {new}."),
    "below": to_say("{limit} is above the standard {new}."),
}


def _refuse(figures: LimitFigures, row: LimitRow) -> None:
    sign = 1 if row.bad_when == "above" else -1
    faults = {}
    low, high = figures.standard_low, figures.standard_high
    new = high if row.bad_when == "above" else low
    if low is not None and high is not None and low > high:
        faults["standard_low"] = say(
            "{low} is above {high}: the standard goes from low to high.", low=low, high=high
        )
    if new is not None and sign * (figures.limit - new) < 0:
        faults["limit"] = say(PAST_STANDARD[row.bad_when], limit=figures.limit, new=new)
    if figures.watch is not None and sign * (figures.limit - figures.watch) < 0:
        faults["watch"] = say("{watch} is past the limit {limit}.", watch=figures.watch, limit=figures.limit)
    if not figures.manual.strip():
        faults["manual"] = say("Nothing is given: the title of the manual it stands in.")
    if faults:
        raise ValidationError(faults)


@transaction.atomic
def keep_instrument(
    *,
    instrument: Instrument | None,
    name: str,
    unit: str,
    checked_on: date | None,
    check_due_on: date | None,
    note: str = "",
    out_of_use: bool = False,
) -> Instrument:
    """Write down an instrument, or that it was checked or put away. ValidationError by field."""
    row = instrument or Instrument()
    row.name, row.unit, row.note = name.strip(), unit, note.strip()
    row.checked_on, row.check_due_on, row.out_of_use = checked_on, check_due_on, out_of_use
    if checked_on and check_due_on and check_due_on < checked_on:
        raise ValidationError(
            {
                "check_due_on": say(
                    "{due} is before the day of the check, {checked}.", due=check_due_on, checked=checked_on
                )
            }
        )
    return save_checked(row)
