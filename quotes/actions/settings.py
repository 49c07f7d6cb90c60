"""Keeping the workshop's settings: all of them or nothing."""

from __future__ import annotations

from datetime import datetime

from django.contrib.auth.models import User
from django.core.exceptions import ValidationError
from django.db import transaction
from django.utils import timezone

from catalogue.calc.said import say
from quotes.actions.refused import StaleDraft
from quotes.actions.saving import save_checked
from quotes.actions.tax_rates import write_tax_codes
from quotes.calc.shop import LINE_KINDS
from quotes.calc.workshop_settings import KIND_NAMES, Settings, settings_changes
from quotes.models import (
    ClassRule,
    ClosedDay,
    LabourRate,
    MarkupBand,
    TaxCode,
    Workshop,
)
from quotes.queries.people import name_of
from quotes.queries.settings import settings_now

KIND_FIELDS = dict(zip(LINE_KINDS, Workshop.TAXABILITY, strict=True))
"""Labour, parts, machine work, consumables: both are in that order."""


@transaction.atomic
def save_settings(
    *, settings: Settings, expected_version: int, by: User | None, now: datetime, demo_style: str = ""
) -> Workshop:
    """Put these settings in place of those that stand; no version is counted where nothing differs.

    StaleDraft where somebody has kept others since `expected_version`, ValidationError by field.
    """
    Workshop.objects.get_or_create(pk=Workshop.ONLY_ID)
    row = Workshop.objects.select_for_update().get(pk=Workshop.ONLY_ID)
    standing = settings_now(row)
    changes = settings_changes(standing, settings)
    if row.version and not changes:
        return row
    if row.version != expected_version:
        raise StaleDraft(changes, row.changed_by, row.version)
    _write_lists(settings)
    codes = write_tax_codes(settings, timezone.localdate(now))
    for name, value in settings.fields.items():
        setattr(row, name, value)
    _point_to_tax_codes(row, settings, codes)
    row.version += 1
    row.changed_at, row.changed_by, row.demo_style = (
        now,
        name_of(by) if by else "",
        demo_style or row.demo_style,
    )
    save_checked(row)
    TaxCode.objects.exclude(code__in=codes).delete()
    return row


def _point_to_tax_codes(row: Workshop, settings: Settings, codes: dict[str, TaxCode]) -> None:
    for kind, field in KIND_FIELDS.items():
        code = settings.taxability.get(kind)
        if code is not None and code not in codes:
            raise ValidationError(
                {
                    field: say(
                        "There is no tax code {code} for {kind}.",
                        code=repr(code),
                        kind=say(KIND_NAMES[kind]),
                    )
                }
            )
        setattr(row, field, codes[code] if code else None)


def _write_lists(settings: Settings) -> None:
    for model in (LabourRate, MarkupBand, ClassRule, ClosedDay):
        model.objects.all().delete()
    for kind, per_hour in settings.labour_rates.items():
        save_checked(LabourRate(kind=kind, per_hour=per_hour))
    for band in settings.markup_bands:
        save_checked(MarkupBand(cost_from=band.cost_from, markup_pct=band.markup_pct))
    for rule in settings.classes:
        allows = {f"allows_{change}": change in rule.allows for change in ClassRule.CHANGES}
        save_checked(ClassRule(code=rule.code, name=rule.name, **allows))
    for days in settings.closed_days:
        save_checked(ClosedDay(first=days.first, last=days.last, note=days.note))
