"""The tables of the catalogue's lists."""

from __future__ import annotations

from typing import Any

import django_tables2 as tables

from catalogue.calc.numbers import figure
from catalogue.tables.columns import (
    ChoiceColumn,
    CodeColumn,
    HoursColumn,
    MoneyColumn,
    NameColumn,
    NumberColumn,
    OtherColumn,
    TextColumn,
)

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
        super().__init__(*args, attrs=ATTRIBUTES, row_attrs={"role": "row"}, template_name=TEMPLATE, **more)


class PartTable(EntryTable):
    name = NameColumn("Part", "parts")
    code = TextColumn("Number")
    engine_type = TextColumn("Engine type", "nowrap", order_by=("engine_type__place", "code"))
    grade = ChoiceColumn("Grade")
    quantity = NumberColumn("In a set")
    unit = TextColumn("Unit")
    cost = MoneyColumn("Cost")
    list_price = MoneyColumn("List price")
    supplier = TextColumn("Supplier")
    lead_typical = NumberColumn("Days")
    lead_slow = NumberColumn("Slow, days")


class ComponentTable(EntryTable):
    name = NameColumn("Component", "components")
    group = CodeColumn("Group")
    judged_by = ChoiceColumn("Judged by")
    consequence_class = ChoiceColumn("If it goes")
    life_miles = NumberColumn("Life, miles")
    life_hours = NumberColumn("Life, motocross h")
    life_confidence = TextColumn("Sure of it")
    weibull_shape = NumberColumn("Shape")
    stops = NumberColumn("Stops it, share")
    rider_hazards = TextColumn("Rider safety")

    def render_rider_hazards(self, value: str) -> str:
        return "; ".join(value.splitlines())

    value_rider_hazards = render_rider_hazards


class OperationTable(EntryTable):
    name = NameColumn("Operation", "operations")
    kind = ChoiceColumn("Kind of work")


class MachineWorkTable(EntryTable):
    name = NameColumn("Machine work", "machine_work")
    unit = ChoiceColumn("Priced by the")
    cost_low = MoneyColumn("Low")
    cost_typical = MoneyColumn("Typical")
    cost_high = MoneyColumn("High")
    lead_typical_days = NumberColumn("Days")
    lead_slow_days = NumberColumn("Slow, days")
    vendor = OtherColumn("Done by", "suppliers", order_by=("vendor__name", "code"))


class TierTable(EntryTable):
    name = NameColumn("Tier", "tiers")
    purpose = TextColumn("What it is for")
    compression_delta = NumberColumn("Compression, points up")
    rev_limit_delta_pct = NumberColumn("Revs, per cent up")
    power_gain_pct_low = NumberColumn("Power, per cent up, low")
    power_gain_pct_typical = NumberColumn("typical")
    power_gain_pct_high = NumberColumn("high")
    opens_bottom_end = TextColumn("Opens the bottom end")

    def render_opens_bottom_end(self, value: bool) -> str:
        return "yes" if value else "no"

    value_opens_bottom_end = render_opens_bottom_end


class LoadLawTable(EntryTable):
    name = NameColumn("Load", "load_laws")
    exponent_typical = NumberColumn("Life falls with this power of it")
    exponent_low = NumberColumn("published from")
    exponent_high = NumberColumn("to")
    note = TextColumn("Note")


class DutyTable(EntryTable):
    name = NameColumn("Duty", "duties")
    basis = ChoiceColumn("Lives go by")
    season_events = NumberColumn("Meetings a season")
    season_miles_typical = NumberColumn("Miles a season")
    season_hours_typical = NumberColumn("Hours a season")
    severity_inertia = NumberColumn("Inertia")
    severity_gas = NumberColumn("Gas")
    severity_heat = NumberColumn("Heat")
    severity_shifts = NumberColumn("Shifts")
    severity_launches = NumberColumn("Launches")
    severity_dirt = NumberColumn("Dirt")
    severity_time = NumberColumn("Time")


class EngineTypeTable(EntryTable):
    name = NameColumn("Engine type", "engine_types")
    cylinders = NumberColumn("Cylinders")
    bore_mm = NumberColumn("Bore, mm")
    stroke_mm = NumberColumn("Stroke, mm")
    displacement_cc = NumberColumn("Volume, cc")
    compression_ratio = NumberColumn("Compression")
    rev_limit_rpm = NumberColumn("Rev limit")
    crank_power_hp = NumberColumn("Power, hp")
    block = ChoiceColumn("Block")
    rod_type = ChoiceColumn("Rods")


class FindingTable(EntryTable):
    name = NameColumn("What is seen", "findings")
    component = OtherColumn("On", "components", order_by=("component__name", "code"))
    grade = ChoiceColumn("What it asks")
    cause = TextColumn("Usual cause")
    opens = OtherColumn("Opens", "operations", order_by=("opens__name", "code"))


class EventTable(EntryTable):
    name = NameColumn("What was told", "events")
    same_as_finding = OtherColumn(
        "Same as the finding", "findings", order_by=("same_as_finding__name", "code")
    )
    note = TextColumn("Note")


class LimitTable(EntryTable):
    quantity = NameColumn("What is measured", "limits")
    component = OtherColumn("On", "components", order_by=("component__name", "code"))
    unit = TextColumn("Unit")
    standard_low = NumberColumn("New, from")
    standard_high = NumberColumn("New, to")
    watch = NumberColumn("Watch from")
    limit = NumberColumn("Limit")
    bad_when = ChoiceColumn("Bad when")
    from_manual = TextColumn("From")

    def render_from_manual(self, value: bool) -> str:
        return "your manual" if value else "default, not from your manual"

    value_from_manual = render_from_manual


class SupplierTable(EntryTable):
    name = NameColumn("Supplier", "suppliers")
    kind = ChoiceColumn("Delivers")
    part_count = NumberColumn("Parts offered")
    work_count = NumberColumn("Kinds of work done")
    note = TextColumn("Note")


class SourceTable(EntryTable):
    title = NameColumn("Page", "sources")
    code = TextColumn("Mark")
    gives = TextColumn("What it gives")


class FactTable(EntryTable):
    statement = NameColumn("Fact", "facts")
    topic = TextColumn("Topic")
    formula = TextColumn("Formula")
    confidence = ChoiceColumn("Sure of it")


class PolicyTable(EntryTable):
    code = NameColumn("Habit", "policies")
    value = TextColumn("What is usual", orderable=False)

    def render_value(self, value: Any) -> str:
        return in_short(value)

    value_value = render_value


def in_short(value: Any) -> str:
    """A nested value on one line."""
    if value is None:
        return "none"
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, dict):
        return "; ".join(f"{str(key).replace('_', ' ')}: {in_short(part)}" for key, part in value.items())
    if isinstance(value, list):
        return " / ".join(in_short(part) for part in value)
    return figure(value) if isinstance(value, int | float) else str(value)


def outline(value: Any) -> list[tuple[str, str]]:
    """A nested value as rows of name and words: one for each entry, and for each item of a list."""
    if not isinstance(value, dict):
        return [("", in_short(value))]
    rows = []
    for key, part in value.items():
        name = str(key).replace("_", " ").capitalize()
        items = part if isinstance(part, list) else [part]
        rows += [(name if not place else "", in_short(item)) for place, item in enumerate(items)]
    return rows


def hours_columns(engine_types: list[tuple[str, str]]) -> list[tuple[str, HoursColumn]]:
    """A column of hours for each engine type, in its order."""
    return [
        (f"hours_{place}", HoursColumn(f"{name}, h")) for place, (_, name) in enumerate(engine_types, start=1)
    ]
