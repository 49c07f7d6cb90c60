"""The catalogue as the sums want it, kept for as long as nobody changes it.

Its texts are in the language in hand, so what is kept is kept by language as well.
"""

from __future__ import annotations

from collections.abc import Iterable
from functools import lru_cache

from django.utils.translation import get_language

from catalogue.calc.approved_lives import with_approved
from catalogue.calc.engine import EngineCatalogue
from catalogue.calc.resolve import resolve
from catalogue.calc.rows import CatalogueRows
from catalogue.calc.rows.shown import in_words
from catalogue.calc.said import say
from catalogue.models import EngineType
from catalogue.queries.lives import approved_lives
from catalogue.queries.rows import EmptyCatalogueError, catalogue_rows, version

KEPT_TYPES = 64
"""Engine types whose catalogue is kept ready, over all versions."""

Choices = list[tuple[str, str]]


def engine_catalogue(code: str) -> EngineCatalogue:
    """The catalogue settled for one engine type: one query where nothing has changed since the last time.

    Raises EmptyCatalogueError, or UnknownEngineTypeError with the types there are; both are LookupErrors.
    """
    return _resolved(_version_or_refusal(), _language(), code)


def engine_catalogues(codes: Iterable[str]) -> dict[str, EngineCatalogue]:
    """The same for several types, without those that the catalogue does not have: one query."""
    now, found = version(), {}
    for code in codes if now else ():
        try:
            found[code] = _resolved(now, _language(), code)
        except LookupError:
            continue
    return found


def catalogue_without_changes(code: str) -> EngineCatalogue:
    """The same without the lives that the owner approved on the workshop's own record."""
    return _shipped(_version_or_refusal(), _language(), code)


def current_rows() -> CatalogueRows:
    """Every row of the catalogue: one query where nothing has changed since the last time.

    Raises EmptyCatalogueError where nothing was loaded.
    """
    return _rows(_version_or_refusal(), _language())


def rows_as_written() -> CatalogueRows:
    """The same with every text as it was entered: what is changed by hand must not be a translation."""
    return _rows(_version_or_refusal(), "en")


def _version_or_refusal() -> str:
    now = version()
    if not now:
        raise EmptyCatalogueError
    return now


def _language() -> str:
    return get_language() or "en"


@lru_cache(maxsize=4)
def _rows(at_version: str, language: str) -> CatalogueRows:
    return catalogue_rows() if language == "en" else in_words(_rows(at_version, "en"))


@lru_cache(maxsize=KEPT_TYPES)
def _resolved(at_version: str, language: str, code: str) -> EngineCatalogue:
    return with_approved(resolve(_rows(at_version, language), code), approved_lives())


@lru_cache(maxsize=KEPT_TYPES)
def _shipped(at_version: str, language: str, code: str) -> EngineCatalogue:
    return resolve(_rows(at_version, language), code)


def engine_type_choices() -> Choices:
    """Code and name of every engine type; none before the catalogue is loaded."""
    return [(str(code), say(str(name))) for code, name in EngineType.objects.values_list("code", "name")]


def duty_choices() -> Choices:
    """Code and name of every duty."""
    return [(row.code, row.name) for row in current_rows().duties] if version() else []


def tier_choices() -> Choices:
    """Code and name of every tier, the plainest first."""
    tiers = sorted(current_rows().tiers, key=lambda row: row.rank) if version() else []
    return [(row.code, row.name) for row in tiers]
