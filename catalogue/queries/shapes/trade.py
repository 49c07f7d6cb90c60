"""Shapes of what rests on nothing else: sources, facts, habits, suppliers, engine types and the basis."""

from __future__ import annotations

from catalogue.calc.rows import BasisRow
from catalogue.calc.rows.engines import EngineTypeRow
from catalogue.calc.rows.trade import FactRow, PolicyRow, SourceRow, SupplierRow
from catalogue.models import Basis, EngineType, Fact, Policy, Source, Supplier
from catalogue.queries.shapes.shape import Shape, same, spread

CLASSES = ("session", "weekend", "engine")

BASIS = Shape(
    "basis",
    Basis,
    BasisRow,
    {
        **same("code", "currency", "evidence_r0"),
        **spread("life_quantile", ("miles", "hours_mx")),
        **spread("stopping_share", CLASSES, "stopping_share_by_class"),
        "life_quantile_source": "sources.life_quantile",
        "evidence_r0_source": "sources.evidence_r0",
        "stopping_share_source": "sources.stopping_share_by_class",
    },
    searched=("code",),
)
SOURCES = Shape(
    "sources", Source, SourceRow, same("code", "title", "gives"), searched=("code", "title", "gives")
)
SUPPLIERS = Shape("suppliers", Supplier, SupplierRow, same("code", "name", "kind", "note", "source"))
FACTS = Shape(
    "facts",
    Fact,
    FactRow,
    same("code", "topic", "statement", "values", "formula", "worked_example", "confidence", "source"),
    searched=("code", "topic", "statement"),
)
POLICIES = Shape("policies", Policy, PolicyRow, same("code", "value", "currency"), searched=("code",))
ENGINE_TYPES = Shape(
    "engine_types",
    EngineType,
    EngineTypeRow,
    same(
        "code",
        "name",
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
        "block",
        "case_split",
        "gearbox_access",
        "gearbox_oil",
        "rod_type",
        "pieces",
        "note",
        "source",
        "geometry_source",
    ),
)
