"""Accepted options, read from frozen sheets. What the builds in hand take is asked for on every day sheet.

A sheet of a hundred kilobytes takes 4 ms to read, and no sheet changes: those asked for last are kept by each
process, by the fingerprint of their sheet.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from quotes.calc.sheet.values import Option
from quotes.models import Acceptance, Revision

KEPT = 64
"""More than are in hand at most workshops; each weighs a quarter of a megabyte."""
_Key = tuple[int, str, str]
_kept: dict[_Key, Option] = {}


def accepted_option(build: Acceptance) -> Option:
    """The option that was said yes to, as it stood on the sheet. KeyError where it was not on it."""
    return _option(build.revision.sheet, build.tier)


def accepted_options(builds: Iterable[Acceptance]) -> dict[int, Option]:
    """The same of many builds, by their keys, without their sheets read before: one query, or none."""
    keys = {build.pk: (build.revision_id, build.sheet_sha256, build.tier) for build in builds}
    kept = _kept
    found = {key: kept[key] for key in keys.values() if key in kept}
    missing = {key[0]: key for key in keys.values() if key not in found}
    if missing:
        for pk, sheet in Revision.objects.filter(pk__in=missing).values_list("pk", "sheet"):
            found[missing[pk]] = _option(sheet, missing[pk][-1])
        _keep(found)
    return {pk: found[key] for pk, key in keys.items()}


def _keep(found: Mapping[_Key, Option]) -> None:
    """Another dictionary is put in the place of the old one, which somebody else may be reading."""
    global _kept
    together = {**found, **_kept}
    _kept = dict(list((together if len(together) <= KEPT else found).items())[:KEPT])


def _option(sheet: Mapping[str, Any], tier: str) -> Option:
    # Four parts in five of a sheet are other options, which take as long to read.
    for option in sheet["comparison"]["options"]:
        if option["tier"] == tier:
            return Option.model_validate(option)
    raise KeyError(tier)
