"""Engine types: families of engines with one geometry and one catalogue."""

from __future__ import annotations

from django.db import models

from catalogue.models.base import Entry, name_field, one_of, positive, text_field
from catalogue.models.choices import Block, CaseSplit, GearboxAccess, GearboxOil, RodType


class EngineType(Entry):
    """Lengths in mm, volumes in cc, masses in g per cylinder, revs a minute."""

    name = name_field()
    cylinders = models.PositiveSmallIntegerField()
    valves_per_cylinder = models.PositiveSmallIntegerField()
    bore_mm = models.FloatField("bore, mm")
    stroke_mm = models.FloatField("stroke, mm")
    displacement_cc = models.FloatField("displacement, cc")
    compression_ratio = models.FloatField("compression ratio")
    rev_limit_rpm = models.FloatField("rev limit")
    power_rpm = models.FloatField("revs of peak power")
    crank_power_hp = models.FloatField("power at the crank, hp")
    rod_length_mm = models.FloatField("rod length, mm")
    reciprocating_mass_g = models.FloatField("reciprocating mass a cylinder, g")
    block = models.CharField(max_length=20, choices=Block)
    case_split = models.CharField("how the cases part", max_length=20, choices=CaseSplit)
    gearbox_access = models.CharField("way into the gearbox", max_length=20, choices=GearboxAccess)
    gearbox_oil = models.CharField(
        "what the gearbox runs in", max_length=20, choices=GearboxOil, default=GearboxOil.ENGINE
    )
    rod_type = models.CharField("rods", max_length=20, choices=RodType)
    pieces = models.JSONField(default=dict)
    """How many of each piece the hours per piece count."""
    note = text_field()
    source = text_field()
    geometry_source = text_field()

    class Meta(Entry.Meta):
        constraints = [
            positive(
                "engine_type",
                "cylinders",
                "valves_per_cylinder",
                "bore_mm",
                "stroke_mm",
                "displacement_cc",
                "compression_ratio",
                "rev_limit_rpm",
                "power_rpm",
                "crank_power_hp",
                "rod_length_mm",
                "reciprocating_mass_g",
            ),
            one_of("engine_type", "block", Block),
            one_of("engine_type", "case_split", CaseSplit),
            one_of("engine_type", "gearbox_access", GearboxAccess),
            one_of("engine_type", "gearbox_oil", GearboxOil),
            one_of("engine_type", "rod_type", RodType),
        ]
