"""The tables of the catalogue's lists."""

from __future__ import annotations

from functools import cached_property
from typing import Any

import django_tables2 as tables
from django.utils.safestring import SafeString
from django.utils.text import capfirst
from django.utils.translation import gettext_lazy as _
from django.utils.translation import pgettext_lazy

from catalogue.calc.outlined import in_short
from catalogue.calc.rows.habits import habit_in_words, key_in_english
from catalogue.calc.said import say
from catalogue.queries import engine_type_choices, tier_choices
from catalogue.tables.columns import (
    ChoiceColumn,
    CodeColumn,
    HoursColumn,
    MoneyColumn,
    NameColumn,
    NumberColumn,
    OtherColumn,
    SaidColumn,
    TextColumn,
    TradeColumn,
    link,
)
from catalogue.tables.drawn import rows_drawn

TEMPLATE = "catalogue/table.html"
ATTRIBUTES = {
    "class": "folds",
    "role": "table",
    "thead": {"role": "rowgroup"},
    "tbody": {"role": "rowgroup"},
}
"""A style that lays a table out anew takes its roles away: they are said."""


class EntryTable(tables.Table):
    """A list that folds on a phone: each row a name, and under it what is known, word by word."""

    def __init__(self, *args: Any, **more: Any) -> None:
        # Tables do not inherit what their parent's Meta says.
        super().__init__(*args, attrs=ATTRIBUTES, template_name=TEMPLATE, **more)

    def drawn(self) -> SafeString:
        return rows_drawn(self)


class PartTable(EntryTable):
    name = NameColumn(_("Part"), "parts")
    code = TextColumn(_("Number"))
    engine_type = TradeColumn(_("Engine type"), "nowrap", order_by=("engine_type__place", "code"))
    grade = ChoiceColumn(_("Grade"))
    quantity = NumberColumn(_("In a set"))
    unit = SaidColumn(_("Unit"))
    cost = MoneyColumn(_("Cost"))
    list_price = MoneyColumn(_("List price"))
    supplier = TradeColumn(_("Supplier"))
    lead_typical = NumberColumn(_("Days"))
    lead_slow = NumberColumn(_("Slow, days"))


class ComponentTable(EntryTable):
    name = NameColumn(_("Component"), "components")
    group = CodeColumn(_("Group"))
    judged_by = ChoiceColumn(_("Judged by"))
    consequence_class = ChoiceColumn(_("If it goes"))
    life_miles = NumberColumn(_("Life, miles"))
    life_hours = NumberColumn(_("Life, motocross h"))
    life_confidence = ChoiceColumn(_("Sure of it"))
    weibull_shape = NumberColumn(_("Shape"))
    stops = NumberColumn(_("Stops it, share"))
    rider_hazards = TextColumn(_("Rider safety"))

    def render_rider_hazards(self, value: str) -> str:
        return "; ".join(say(hazard) for hazard in value.splitlines())

    value_rider_hazards = render_rider_hazards


class OperationTable(EntryTable):
    name = NameColumn(_("Operation"), "operations")
    kind = ChoiceColumn(_("Kind of work"))


class MachineWorkTable(EntryTable):
    name = NameColumn(_("Machine work"), "machine_work")
    unit = ChoiceColumn(_("Priced by the"))
    cost_low = MoneyColumn(_("Low"))
    cost_typical = MoneyColumn(_("Typical"))
    cost_high = MoneyColumn(_("High"))
    lead_typical_days = NumberColumn(_("Days"))
    lead_slow_days = NumberColumn(_("Slow, days"))
    vendor = OtherColumn(_("Done by"), "suppliers", order_by=("vendor__name", "code"))


class TierTable(EntryTable):
    name = NameColumn(_("Tier"), "tiers")
    purpose = TradeColumn(_("What it is for"))
    compression_delta = NumberColumn(_("Compression, points up"))
    rev_limit_delta_pct = NumberColumn(_("Revs, per cent up"))
    power_gain_pct_low = NumberColumn(_("Power, per cent up, low"))
    power_gain_pct_typical = NumberColumn(_("typical"))
    power_gain_pct_high = NumberColumn(_("high"))
    opens_bottom_end = TextColumn(_("Opens the bottom end"))

    def render_opens_bottom_end(self, value: bool) -> str:
        return say("yes") if value else say("no")

    value_opens_bottom_end = render_opens_bottom_end


class LoadLawTable(EntryTable):
    name = NameColumn(_("Load"), "load_laws")
    exponent_typical = NumberColumn(_("Life falls with this power of it"))
    exponent_low = NumberColumn(_("published from"))
    exponent_high = NumberColumn(pgettext_lazy("catalogue", "to"))
    note = SaidColumn(_("Note"))


class DutyTable(EntryTable):
    name = NameColumn(_("Duty"), "duties")
    basis = ChoiceColumn(_("Lives go by"))
    season_events = NumberColumn(_("Meetings a season"))
    season_miles_typical = NumberColumn(_("Miles a season"))
    season_hours_typical = NumberColumn(_("Hours a season"))
    severity_inertia = NumberColumn(_("Inertia"))
    severity_gas = NumberColumn(_("Gas"))
    severity_heat = NumberColumn(_("Heat"))
    severity_shifts = NumberColumn(_("Shifts"))
    severity_launches = NumberColumn(_("Launches"))
    severity_dirt = NumberColumn(_("Dirt"))
    severity_time = NumberColumn(_("Time"))


class EngineTypeTable(EntryTable):
    name = NameColumn(_("Engine type"), "engine_types")
    cylinders = NumberColumn(_("Cylinders"))
    bore_mm = NumberColumn(_("Bore, mm"))
    stroke_mm = NumberColumn(_("Stroke, mm"))
    displacement_cc = NumberColumn(_("Volume, cc"))
    compression_ratio = NumberColumn(_("Compression"))
    rev_limit_rpm = NumberColumn(_("Rev limit"))
    crank_power_hp = NumberColumn(_("Power, hp"))
    block = ChoiceColumn(_("Block"))
    rod_type = ChoiceColumn(_("Rods"))


class FindingTable(EntryTable):
    name = NameColumn(_("What is seen"), "findings")
    component = OtherColumn(
        pgettext_lazy("catalogue", "On"), "components", order_by=("component__name", "code")
    )
    grade = ChoiceColumn(_("What it asks"))
    cause = TradeColumn(_("Usual cause"))
    opens = OtherColumn(_("Opens"), "operations", order_by=("opens__name", "code"))


class EventTable(EntryTable):
    name = NameColumn(_("What was told"), "events")
    same_as_finding = OtherColumn(
        _("Same as the finding"), "findings", order_by=("same_as_finding__name", "code")
    )
    note = SaidColumn(_("Note"))


class LimitTable(EntryTable):
    quantity = NameColumn(_("What is measured"), "limits")
    component = OtherColumn(
        pgettext_lazy("catalogue", "On"), "components", order_by=("component__name", "code")
    )
    unit = TextColumn(_("Unit"))
    standard_low = NumberColumn(_("New, from"))
    standard_high = NumberColumn(_("New, to"))
    watch = NumberColumn(_("Watch from"))
    limit = NumberColumn(_("Limit"))
    bad_when = ChoiceColumn(_("Bad when"))
    from_manual = TextColumn(pgettext_lazy("catalogue", "From"))

    def render_from_manual(self, value: bool) -> str:
        return say("your manual") if value else say("default, not from your manual")

    value_from_manual = render_from_manual


class SupplierTable(EntryTable):
    name = NameColumn(_("Supplier"), "suppliers")
    kind = ChoiceColumn(_("Delivers"))
    part_count = NumberColumn(_("Parts offered"))
    work_count = NumberColumn(_("Kinds of work done"))
    note = TextColumn(_("Note"))


class SourceTable(EntryTable):
    title = NameColumn(_("Page"), "sources")
    code = TextColumn(_("Mark"))
    gives = TextColumn(_("What it gives"))


class FactTable(EntryTable):
    statement = NameColumn(_("Fact"), "facts")
    topic = SaidColumn(_("Topic"))
    formula = TextColumn(_("Formula"))
    confidence = ChoiceColumn(_("Sure of it"))


class PolicyTable(EntryTable):
    code = NameColumn(_("Habit"), "policies")
    value = TextColumn(_("What is usual"), orderable=False)

    def render_code(self, value: str, record: Any) -> SafeString:
        return link("policies", record.pk, capfirst(say(key_in_english(value))))

    def render_value(self, value: Any) -> str:
        return in_short(habit_in_words(value, self.names))

    value_value = render_value

    @cached_property
    def names(self) -> dict[str, str]:
        """What engine types and tiers are called, by which some sums are told."""
        return dict([*engine_type_choices(), *tier_choices()])


def hours_columns(engine_types: list[tuple[str, str]]) -> list[tuple[str, HoursColumn]]:
    """A column of hours for each engine type, in its order."""
    return [
        (f"hours_{place}", HoursColumn(f"{name}, h")) for place, (_, name) in enumerate(engine_types, start=1)
    ]
