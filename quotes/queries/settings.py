"""The settings as they stand, defaults where nothing has been kept."""

from __future__ import annotations

from quotes.calc.workshop_settings import Closed, Settings
from quotes.models import ClassRule, ClosedDay, Workshop
from quotes.queries.tax_rates import tax_rates
from quotes.queries.workshop import class_rule_value, labour_rates, markup_bands, taxability

NOT_SET_ON_THE_PAGE = frozenset(
    {"id", "demo_style", "version", "changed_at", "changed_by", "shop_factor", *Workshop.TAXABILITY}
)
FIELDS = tuple(
    field.name for field in Workshop._meta.concrete_fields if field.name not in NOT_SET_ON_THE_PAGE
)
"""Names of the workshop's own fields that the owner sets."""


def settings_now(workshop: Workshop | None = None) -> Settings:
    """All settings as one value."""
    workshop = workshop or Workshop.objects.get_or_default()
    rates = tax_rates()
    return Settings(
        fields={name: getattr(workshop, name) for name in FIELDS},
        tax_codes=tuple(each[-1].code for each in rates.values()),
        taxability={kind: code for kind, code in taxability(workshop).items() if code in rates},
        labour_rates=labour_rates(),
        markup_bands=markup_bands(),
        classes=tuple(class_rule_value(row) for row in ClassRule.objects.all()),
        closed_days=tuple(Closed(row.first, row.last, row.note) for row in ClosedDay.objects.all()),
        tax_rates=rates,
    )
