"""The sheet of a job's strip-down, with what has been read on it so far."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from catalogue.calc.engine import EngineCatalogue
from catalogue.calc.said import say
from catalogue.queries import current_rows
from quotes.calc.bench.teardown.places import all_places
from quotes.calc.bench.teardown.sheet import ManualFigures, SheetGroup, SheetRow, scales, teardown_sheet
from quotes.models import Job, ManualLimit, Measured
from quotes.queries.bench.jobs import catalogue_of


@dataclass(frozen=True, slots=True)
class JobSheet:
    """The groups, both leak-down scales with the one in use, and names of every place and component."""

    groups: tuple[SheetGroup, ...]
    scales: tuple[tuple[str, str], ...]
    scale: str
    places: tuple[str, ...]
    components: Mapping[str, str]

    def row(self, code: str) -> SheetRow | None:
        rows = (row for group in self.groups for row in group.rows)
        return next((row for row in rows if row.code == code), None)


def job_sheet(job: Job, *, scale: str = "") -> JobSheet:
    """The sheet of the job's engine type. `scale` names the leak-down scale, where none was read yet."""
    catalogue = catalogue_of(job)
    limits = current_rows().limits
    known = scales(limits)
    codes = [code for code, _ in known]
    read = Measured.objects.standing().filter(job=job, quantity__in=codes).values_list("quantity", flat=True)
    chosen = read.first() or (scale if scale in codes else "") or (codes[0] if codes else "")
    return JobSheet(
        groups=teardown_sheet(catalogue, limits, manual_figures(catalogue), leak_down=chosen),
        scales=known,
        scale=chosen,
        places=all_places(catalogue.engine_type),
        components={one.code: one.name for one in catalogue.components.values()},
    )


def manual_figures(catalogue: EngineCatalogue) -> dict[str, ManualFigures]:
    """What the workshop entered from the maker's manual of this engine type, by code of the limit."""
    rows = ManualLimit.objects.standing().filter(type_code=catalogue.engine_type.code)
    return {
        row.limit_code: ManualFigures(
            limit=row.limit,
            standard_low=row.standard_low,
            standard_high=row.standard_high,
            watch=row.watch,
            source=manual_source(row),
        )
        for row in rows
    }


def manual_source(row: ManualLimit) -> str:
    """Whose figure it is, as it is printed."""
    return say("{manual}, page {page}", manual=row.manual, page=row.page) if row.page else row.manual


def standing_readings(job: Job) -> dict[tuple[str, str], Measured]:
    """The reading that stands, by row of the sheet and place; free ones under their name."""
    rows = Measured.objects.standing().filter(job=job).exclude(when="machined").select_related("instrument")
    return {(row.quantity or f"{row.component}:{row.name}", row.place): row for row in rows}


def key_of(row: SheetRow) -> str:
    """What a row's readings stand under in `standing_readings`."""
    return row.limit or f"{row.component}:{row.name}"
