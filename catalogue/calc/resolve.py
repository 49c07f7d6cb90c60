"""Settles the catalogue for one engine type: what it does not have is gone, what depends on it is decided."""

from __future__ import annotations

from catalogue.calc.engine import EngineCatalogue, EngineType, LoadLaw
from catalogue.calc.resolve_builds import duties, findings, tiers
from catalogue.calc.resolve_wear import components
from catalogue.calc.resolve_work import machine_work, operations, parts
from catalogue.calc.rows import CatalogueRows
from catalogue.calc.rows.engines import LoadLawRow
from catalogue.calc.settled import SettledRows, settle


def resolve(rows: CatalogueRows, code: str) -> EngineCatalogue:
    """The catalogue for the engine type `code`.

    Raises UnknownEngineTypeError, which names the codes there are.
    """
    settled = settle(rows, code)
    return EngineCatalogue(
        engine_type=_engine_type(settled),
        currency=rows.currency,
        components=components(settled),
        operations=operations(settled),
        machine_work=machine_work(settled),
        parts=parts(settled),
        tiers=tiers(settled),
        duties=duties(settled),
        findings=findings(settled),
        grade_strength={
            row.code: row.grade_strength
            for row in rows.components
            if row.code in settled.components and row.grade_strength is not None
        },
        load_laws={row.code: _load_law(row, settled) for row in rows.load_laws},
        life_quantile=dict(rows.basis.life_quantile),
        version=rows.version,
    )


def _load_law(row: LoadLawRow, settled: SettledRows) -> LoadLaw:
    exponent = row.exponent
    return LoadLaw(exponent.typical, exponent.low, exponent.high, settled.source(row.source))


def _engine_type(settled: SettledRows) -> EngineType:
    row = settled.engine_type
    return EngineType(
        code=row.code,
        name=row.name,
        cylinders=row.cylinders,
        valves_per_cylinder=row.valves_per_cylinder,
        bore_mm=row.bore_mm,
        stroke_mm=row.stroke_mm,
        displacement_cc=row.displacement_cc,
        compression_ratio=row.compression_ratio,
        rev_limit_rpm=row.rev_limit_rpm,
        power_rpm=row.power_rpm,
        crank_power_hp=row.crank_power_hp,
        rod_length_mm=row.rod_length_mm,
        reciprocating_mass_g=row.reciprocating_mass_g,
        block=row.block,
        case_split=row.case_split,
        gearbox_access=row.gearbox_access,
        rod_type=row.rod_type,
        pieces=dict(row.pieces),
        note=settled.note(row.note),
        source=settled.source(row.source),
    )
