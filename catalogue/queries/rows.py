"""The catalogue's rows, read from the database in a fixed number of queries."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from typing import Any

from catalogue.calc.rows import CatalogueRows
from catalogue.calc.rows.kinds import Row
from catalogue.models import CatalogueVersion
from catalogue.queries.shapes import SHAPES, Shape, to_dump
from catalogue.queries.shapes.shape import merge

TRIES = 5
"""How often the rows are read again because somebody changed them meanwhile."""


class EmptyCatalogueError(LookupError):
    """Nothing has been loaded yet."""

    def __init__(self) -> None:
        super().__init__("the catalogue is empty: load it with manage.py load_catalogue")


class BusyCatalogueError(RuntimeError):
    """The catalogue changed each time while it was being read."""


def version() -> str:
    """What tells one state of the catalogue from every other; empty before the first load."""
    # There is one row at most, so it is not put in order.
    row = next(iter(CatalogueVersion.objects.filter(id=1)), None)
    return "" if row is None else str(row)


def catalogue_rows() -> CatalogueRows:
    """Every row, all of one version.

    Raises EmptyCatalogueError where nothing was loaded, BusyCatalogueError where it would not hold still.
    """
    for _ in range(TRIES):
        before = version()
        raw: dict[str, Any] = {kind: rows_of(shape) for kind, shape in SHAPES.items()}
        if version() == before:
            break
    else:
        raise BusyCatalogueError("the catalogue is being changed just now: try again in a moment")
    if not raw["basis"]:
        raise EmptyCatalogueError
    return CatalogueRows.model_construct(**{**raw, "basis": raw["basis"][0], "version": before})


def rows_of(shape: Shape, codes: Iterable[str] | None = None) -> tuple[Row, ...]:
    """The rows of one kind, or those with the given codes, in their order."""
    entries = shape.model._default_manager.order_by("place", "code")
    if codes is not None:
        entries = entries.filter(code__in=list(codes))
    dumps = {
        str(line["code"]): to_dump(shape, line) for line in entries.values(*shape.columns, *shape.packed)
    }
    _add_lines(shape, dumps, all_of_them=codes is None)
    return tuple(shape.row.model_validate(dump) for dump in dumps.values())


def _add_lines(shape: Shape, dumps: dict[str, dict[str, Any]], *, all_of_them: bool) -> None:
    for lines in shape.lines:
        table = lines.model._default_manager.all()
        if not all_of_them:
            table = table.filter(**{f"{lines.owner}__in": list(dumps)})
        found: dict[str, list[dict[str, Any]]] = defaultdict(list)
        for line in table.values(lines.owner, *lines.columns):
            found[str(line[lines.owner])].append(line)
        for code, dump in dumps.items():
            merge(dump, lines.join(found.get(code, [])))
