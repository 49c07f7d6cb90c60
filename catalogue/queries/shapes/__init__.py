"""How every kind of row lies in the database."""

from catalogue.queries.shapes.findings import EVENTS, FINDINGS, LIMITS
from catalogue.queries.shapes.shape import Lines, Shape, to_columns, to_dump
from catalogue.queries.shapes.tiers import DUTIES, LOAD_LAWS, TIERS
from catalogue.queries.shapes.trade import BASIS, ENGINE_TYPES, FACTS, POLICIES, SOURCES, SUPPLIERS
from catalogue.queries.shapes.wear import COMPONENTS
from catalogue.queries.shapes.work import MACHINE_WORK, OPERATIONS, PARTS

SHAPES: dict[str, Shape] = {
    shape.kind: shape
    for shape in (
        BASIS,
        SOURCES,
        SUPPLIERS,
        ENGINE_TYPES,
        COMPONENTS,
        OPERATIONS,
        MACHINE_WORK,
        PARTS,
        TIERS,
        LOAD_LAWS,
        DUTIES,
        FINDINGS,
        EVENTS,
        LIMITS,
        FACTS,
        POLICIES,
    )
}
"""By kind, each after those that it points at."""

__all__ = ["SHAPES", "Lines", "Shape", "to_columns", "to_dump"]
