"""The settings as they stand, defaults where nothing has been kept."""

from __future__ import annotations

from quotes.calc.workshop_settings import Closed, Settings
from quotes.models import ClassRule, ClosedDay, TaxCode, Workshop
from quotes.queries.workshop import class_rule_value, labour_rates, markup_bands, tax_code_value, taxability

NOT_SET_ON_THE_PAGE = frozenset(
    {"id", "demo_style", "version", "changed_at", "changed_by", *Workshop.TAXABILITY}
)
FIELDS = tuple(
    field.name for field in Workshop._meta.concrete_fields if field.name not in NOT_SET_ON_THE_PAGE
)
"""Names of the workshop's own fields that the owner sets."""


def settings_now(workshop: Workshop | None = None) -> Settings:
    """All settings as one value."""
    workshop = workshop or Workshop.objects.get_or_default()
    codes = tuple(tax_code_value(row) for row in TaxCode.objects.with_components())
    known = {code.code for code in codes}
    return Settings(
        fields={name: getattr(workshop, name) for name in FIELDS},
        tax_codes=codes,
        taxability={kind: code for kind, code in taxability(workshop).items() if code in known},
        labour_rates=labour_rates(),
        markup_bands=markup_bands(),
        classes=tuple(class_rule_value(row) for row in ClassRule.objects.all()),
        closed_days=tuple(Closed(row.first, row.last, row.note) for row in ClosedDay.objects.all()),
    )
