"""Every limit of an engine type with the figures that hold, and whose they are."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from catalogue.queries import current_rows, engine_catalogue
from quotes.calc.bench.teardown.sheet import bounds_of, size_of
from quotes.calc.bench.teardown.verdicts import Bounds
from quotes.queries.bench.teardown.sheet import manual_figures


@dataclass(frozen=True, slots=True)
class LimitShown:
    """One limit, its figures in `unit`; `size` is the bore in mm of which it is a share, where it is one."""

    code: str
    component: str
    name: str
    unit: str
    bounds: Bounds
    size: Decimal | None
    from_manual: bool


def limits_of(type_code: str) -> list[LimitShown]:
    """The limits of this engine type's components; LookupError where there is no such type."""
    catalogue = engine_catalogue(type_code)
    manual = manual_figures(catalogue)
    shown = []
    for row in current_rows().limits:
        if row.component not in catalogue.components:
            continue
        size = size_of(row, catalogue.engine_type)
        bounds = bounds_of(row, manual.get(row.code))
        shown.append(
            LimitShown(
                code=row.code,
                component=catalogue.components[row.component].name,
                name=row.quantity,
                unit=row.unit.partition(" per ")[0] if size is not None else row.unit,
                bounds=bounds.times(size) if size is not None else bounds,
                size=size,
                from_manual=row.code in manual,
            )
        )
    return shown
