"""What other parts of the site ask of the catalogue."""

from catalogue.calc.settled import UnknownEngineTypeError
from catalogue.queries.resolved import (
    catalogue_without_changes,
    current_rows,
    duty_choices,
    engine_catalogue,
    engine_catalogues,
    engine_type_choices,
    rows_as_written,
    tier_choices,
)
from catalogue.queries.rows import EmptyCatalogueError

__all__ = [
    "EmptyCatalogueError",
    "UnknownEngineTypeError",
    "catalogue_without_changes",
    "current_rows",
    "duty_choices",
    "engine_catalogue",
    "engine_catalogues",
    "engine_type_choices",
    "rows_as_written",
    "tier_choices",
]
