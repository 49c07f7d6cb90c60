"""Reads the catalogue's files into checked rows: bytes in, rows or a list of faults out, no database."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import Any

from pydantic import ValidationError

from catalogue.calc.checks import check
from catalogue.calc.fault import Fault
from catalogue.calc.row_faults import row_faults
from catalogue.calc.rows import CatalogueRows
from catalogue.imports.shapes import shaped
from catalogue.imports.yaml_file import FileFault, load_file

FILES = {
    "sources": "sources.yaml",
    "suppliers": "suppliers.yaml",
    "engine_types": "engine_types.yaml",
    "components": "components.yaml",
    "operations": "operations.yaml",
    "machine_work": "machine_work.yaml",
    "parts": "parts.yaml",
    "tiers": "tiers.yaml",
    "duties": "duties.yaml",
    "findings": "findings.yaml",
    "limits": "limits.yaml",
    "facts": "facts.yaml",
    "policies": "policies.yaml",
}
"""File of each kind of row. Events live with the findings, what all rests on with the components,
how life falls with load with the tiers."""


class CatalogueError(ValueError):
    """The files can't be loaded; `faults` say why, each with file, entry, field and reason."""

    def __init__(self, faults: tuple[Fault, ...]) -> None:
        self.faults = faults
        super().__init__("\n".join(line(fault) for fault in faults))


def read_catalogue(folder: Path) -> CatalogueRows:
    """The rows of the catalogue in `folder`, checked against each other.

    Raises CatalogueError with every fault found.
    """
    files, faults = _load(folder)
    if faults:
        raise CatalogueError(faults)
    raw, faults = shaped(files)
    if faults:
        raise CatalogueError(faults)
    try:
        rows = CatalogueRows.model_validate(raw)
    except ValidationError as error:
        raise CatalogueError(_in_words(error, raw)) from None
    if found := check(rows):
        raise CatalogueError(found)
    return rows


def _load(folder: Path) -> tuple[dict[str, dict[str, Any]], tuple[Fault, ...]]:
    files: dict[str, dict[str, Any]] = {}
    faults: list[Fault] = []
    for kind, name in FILES.items():
        try:
            files[kind] = load_file(folder / name)
        except FileFault as fault:
            faults.append(Fault(kind, "", "", str(fault)))
    return files, tuple(faults)


def _in_words(error: ValidationError, raw: Mapping[str, Any]) -> tuple[Fault, ...]:
    return tuple(_fault(place, reason, raw) for place, reason in row_faults(error))


def _fault(place: tuple[str | int, ...], reason: str, raw: Mapping[str, Any]) -> Fault:
    """One fault of the row model as kind, entry, field and reason."""
    kind, *rest = place
    entry = ""
    if rest and isinstance(rest[0], int):
        row = raw[str(kind)][rest.pop(0)]
        entry = str(row.get("code") or row.get("number") or "") if isinstance(row, dict) else ""
    return Fault(str(kind), entry, ".".join(str(step) for step in rest), reason)


def file_of(kind: str) -> str:
    """The file that holds rows of this kind."""
    return FILES.get(
        {"events": "findings", "basis": "components", "load_laws": "tiers"}.get(kind, kind), kind
    )


def line(fault: Fault) -> str:
    """The fault as one line: file, entry, field and reason."""
    return ": ".join(part for part in (file_of(fault.kind), fault.entry, fault.field, fault.reason) if part)
