"""What builds were quoted to take: hours, and parts and machine work at what they were to cost the shop."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass, replace
from decimal import Decimal
from typing import Any

from catalogue.calc.money import ZERO
from quotes.models import Acceptance, ExtraWork, WorkedAgain

OPTIONS = "revision__sheet__comparison__options"
Json = Mapping[str, Any]


@dataclass(frozen=True, slots=True)
class Takes:
    """What is agreed takes of the shop."""

    hours: Decimal = ZERO
    parts: Decimal = ZERO
    machine_work: Decimal = ZERO

    def __add__(self, other: Takes) -> Takes:
        return Takes(
            self.hours + other.hours, self.parts + other.parts, self.machine_work + other.machine_work
        )


def quoted_takes(builds: Collection[int]) -> dict[int, Takes]:
    """By build: the option said yes to, the extras ticked with it and the extra work agreed; three queries.

    Extra work that was worked out from the teardown costs what the workings differ by; of work priced by
    hand the hours are known, and what its parts cost where a supplier lists them. Of extras of quotes from
    before their cost was kept only the hours are.
    """
    rows = Acceptance.objects.filter(pk__in=builds).values("pk", "tier", "hours", "extras", OPTIONS)
    found = {row["pk"]: _of_yes(row) for row in rows}
    agreed = ExtraWork.objects.filter(build__in=builds).agreed()
    for build, lines in agreed.values_list("build_id", "lines"):
        found[build] += Takes(hours=_hours(lines), parts=_bought(lines))
    workings = WorkedAgain.objects.filter(extra_work__in=agreed.values("pk")).order_by()
    for build, was, now in workings.values_list("build_id", "option__base__lines", "option__new__lines"):
        before, after = _costs(was), _costs(now)
        found[build] += Takes(
            parts=after.parts - before.parts, machine_work=after.machine_work - before.machine_work
        )
    return found


def _of_yes(row: Json) -> Takes:
    option: Json = next((one for one in row[OPTIONS] if one["tier"] == row["tier"]), {})
    takes = replace(_costs(option.get("lines", ())), hours=row["hours"])
    for component in set(row["extras"]):
        takes += _of_extra(option.get("offered", {}).get(component, {}).get("takes"))
    return takes


def _of_extra(kept: Json | None) -> Takes:
    if kept is None:
        return Takes()
    return Takes(*(Decimal(str(kept[what])) for what in ("hours", "parts", "machine_work")))


def _costs(lines: Iterable[Json]) -> Takes:
    sums = {"part": ZERO, "machine_work": ZERO}
    for line in lines:
        if line["kind"] in sums and line["cost"] is not None:
            sums[line["kind"]] += Decimal(str(line["cost"]))
    return Takes(parts=sums["part"], machine_work=sums["machine_work"])


def _bought(lines: Iterable[Json]) -> Decimal:
    known = (line for line in lines if line["kind"] == "part" and line.get("cost") is not None)
    return sum((Decimal(str(line["cost"])) * Decimal(str(line["quantity"])) for line in known), ZERO)


def _hours(lines: Iterable[Json]) -> Decimal:
    hours = (line for line in lines if line["kind"] == "labour" and line["unit"] == "h")
    return sum((Decimal(str(line["quantity"])) for line in hours), ZERO)
