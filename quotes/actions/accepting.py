"""The customer's yes: recorded once, to one option of the revision that stands, with what was shown."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass
from datetime import datetime
from decimal import Decimal
from typing import Any

from django.contrib.auth.models import User
from django.core.exceptions import ValidationError
from django.db import transaction
from django.utils import timezone

from catalogue.calc.money import round_half_up
from catalogue.calc.said import say
from quotes.actions.books.calling_off import refuse_called_off
from quotes.actions.drafts import locked
from quotes.actions.files import render_receipt
from quotes.actions.refused import AlreadyAccepted, Lapsed, QuoteClosed, Superseded
from quotes.actions.saving import save_checked
from quotes.calc.money.extras import accepted_gross, extras_of
from quotes.calc.sheet.issued_values import Sheet
from quotes.calc.sheet.values import Option
from quotes.models import Acceptance, Quote, Revision
from quotes.queries.people import name_of
from quotes.queries.sheets import sheet_of


@dataclass(frozen=True, slots=True)
class _Yes:
    """What the customer filled in."""

    tier: str
    extras: list[str]
    name: str
    right: str
    telephone: str
    limit_sum: Decimal
    agreed_terms: bool
    rider_safety_read: bool


def accept(
    *,
    revision: Revision,
    tier: str,
    extras: Collection[str],
    name: str,
    right: str,
    telephone: str,
    limit_sum: Decimal,
    agreed_terms: bool,
    now: datetime,
    rider_safety_read: bool = False,
    papers: bool = True,
) -> Acceptance:
    """Record the yes to one option of the revision that stands, with the sum and fingerprint shown.

    `extras` are components that the option offers. The same yes once more gives the same acceptance.
    Without `papers` the receipt is drawn when somebody asks for it.
    Raises AlreadyAccepted, QuoteClosed, Superseded, Lapsed, or ValidationError with a message by field.
    """
    texts = name.strip(), right.strip(), telephone.strip()
    yes = _Yes(tier, sorted(set(extras)), *texts, limit_sum, agreed_terms, rider_safety_read)
    return _record(revision, yes, now, papers)


@transaction.atomic
def _record(revision: Revision, yes: _Yes, now: datetime, papers: bool) -> Acceptance:
    row = locked(revision.quote)
    if row.accepted_at is not None:
        return _same_again(row.acceptance, revision, yes)
    _refuse_fallen(row, revision, now)
    shown = _shown(sheet_of(revision), yes)
    _refuse_unfit(yes)
    acceptance = save_checked(
        Acceptance(
            quote=row,
            revision=revision,
            name=yes.name,
            right=yes.right,
            telephone=yes.telephone,
            limit_sum=yes.limit_sum,
            sheet_sha256=revision.sheet_sha256,
            agreed_terms=yes.agreed_terms,
            rider_safety_read=yes.rider_safety_read,
            accepted_at=now,
            **shown,
        )
    )
    row.accepted_at, row.asked_at, row.declined_at = now, None, None
    row.save(update_fields=["accepted_at", "asked_at", "declined_at"])
    if papers:
        transaction.on_commit(lambda: render_receipt(acceptance_id=acceptance.pk), robust=True)
    return acceptance


def _same_again(acceptance: Acceptance, revision: Revision, yes: _Yes) -> Acceptance:
    same = (revision.pk, yes.tier, yes.extras, yes.name)
    if same == (acceptance.revision_id, acceptance.tier, acceptance.extras, acceptance.name):
        return acceptance
    raise AlreadyAccepted(acceptance)


def _refuse_fallen(row: Quote, revision: Revision, now: datetime) -> None:
    """QuoteClosed, Superseded or Lapsed where this revision can no longer be said yes to."""
    if row.closed_at is not None:
        raise QuoteClosed
    if row.latest is None or row.latest.pk != revision.pk:
        raise Superseded(row.latest or revision)
    if revision.is_lapsed(timezone.localdate(now)):
        raise Lapsed(revision.valid_until)


def _refuse_unfit(yes: _Yes) -> None:
    if not yes.agreed_terms:
        raise ValidationError({"agreed_terms": say("The terms have to be agreed to for a yes to count.")})
    if yes.limit_sum < 0:
        below = say("{sum} is below nought: 0.00 means that you are asked first.", sum=yes.limit_sum)
        raise ValidationError({"limit_sum": below})


def _shown(sheet: Sheet, yes: _Yes) -> dict[str, Any]:
    """What the sheet said of the option, as it is kept with the yes."""
    option = _option(sheet, yes.tier, yes.extras)
    return {
        "tier": yes.tier,
        "tier_name": option.name,
        "extras": yes.extras,
        "limit_pct": sheet.limit_without_asking_pct,
        "gross": accepted_gross(option, yes.extras, sheet.comparison.decimals),
        "deposit": option.deposit,
        "hours": round_half_up(option.hours),
        "ready_on": option.ready.p80,
    }


def _option(sheet: Sheet, tier: str, wanted: Collection[str]) -> Option:
    try:
        option = sheet.comparison.option(tier)
    except KeyError:
        offered = ", ".join(option.tier for option in sheet.comparison.options)
        raise ValidationError(
            {
                "tier": say(
                    "This quote does not hold {tier}. It holds: {offered}.", tier=repr(tier), offered=offered
                )
            }
        ) from None
    known = {extra.component for extra in extras_of(option)}
    if strange := sorted(set(wanted) - known):
        raise ValidationError(
            {
                "extras": say(
                    "Not offered with {option}: {extras}.", option=option.name, extras=", ".join(strange)
                )
            }
        )
    return option


@transaction.atomic
def mark_done(*, acceptance: Acceptance, by: User, now: datetime) -> Acceptance:
    """Take an accepted build off the bench: its hours no longer stand before new jobs. CalledOffAlready."""
    row = Acceptance.objects.select_for_update().get(pk=acceptance.pk)
    refuse_called_off(row)
    if row.done_at is None:
        row.done_at, row.done_by = now, name_of(by)
        row.save(update_fields=["done_at", "done_by"])
    return row
