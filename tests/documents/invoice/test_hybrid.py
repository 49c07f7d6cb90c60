"""The hybrid file from the outside: PDF/A-3b, the XML in it once and byte for byte, our own faces only."""

from __future__ import annotations

import hashlib
from collections.abc import Iterator
from io import BytesIO
from typing import Any

import pikepdf
import pytest
from lxml import etree  # type: ignore[import-untyped]

from quotes.documents.invoice import InvoiceFiles, invoice_files
from quotes.documents.invoice.cii import cii_xml
from quotes.documents.invoice.embedded import embedded_xml
from tests.documents.invoice.sheets import forty_lines, line, sheet

RDF = "{http://www.w3.org/1999/02/22-rdf-syntax-ns#}"
FX = "{urn:factur-x:pdfa:CrossIndustryDocument:invoice:1p0#}"
PDFA = "{http://www.aiim.org/pdfa/ns/id/}"


@pytest.fixture(scope="module")
def opened(forty: InvoiceFiles) -> Iterator[pikepdf.Pdf]:
    with pikepdf.open(BytesIO(forty.pdf)) as pdf:
        yield pdf


@pytest.fixture(scope="module")
def described(opened: pikepdf.Pdf) -> Any:
    return etree.fromstring(opened.Root.Metadata.read_bytes())


def told(described: Any, name: str) -> list[str]:
    """What is said under a name, as an element or as an attribute."""
    elements = [element.text for element in described.iter(name)]
    return elements + [element.get(name) for element in described.iter() if element.get(name) is not None]


def test_the_description_stands_in_the_one_rdf_that_readers_see(described: Any) -> None:
    roots = list(described.iter(f"{RDF}RDF"))

    assert len(roots) == 1
    assert list(roots[0].iter(f"{FX}DocumentFileName")) != []


def test_the_description_is_that_of_factur_x_in_the_profile_of_the_standard(described: Any) -> None:
    assert {
        name: told(described, FX + name)
        for name in ("DocumentFileName", "DocumentType", "Version", "ConformanceLevel")
    } == {
        "DocumentFileName": ["factur-x.xml"],
        "DocumentType": ["INVOICE"],
        "Version": ["1.0"],
        "ConformanceLevel": ["EN 16931"],
    }


def test_its_own_properties_are_declared_as_pdf_a_asks(described: Any) -> None:
    schema = "{http://www.aiim.org/pdfa/ns/schema#}"
    declared = told(described, "{http://www.aiim.org/pdfa/ns/property#}name")

    assert told(described, f"{schema}prefix") == ["fx"]
    assert told(described, f"{schema}namespaceURI") == [FX.strip("{}")]
    assert set(declared) == {"DocumentFileName", "DocumentType", "Version", "ConformanceLevel"}


def test_it_is_pdf_a_3b_with_an_output_intent(opened: pikepdf.Pdf, described: Any) -> None:
    (intent,) = opened.Root.OutputIntents

    assert (told(described, f"{PDFA}part"), told(described, f"{PDFA}conformance")) == (["3"], ["B"])
    assert intent.S == "/GTS_PDFA1"
    assert b"sRGB" in intent.DestOutputProfile.read_bytes()


def test_the_xml_is_attached_once_as_another_form_of_the_page(opened: pikepdf.Pdf) -> None:
    (associated,) = opened.Root.AF

    assert list(opened.attachments) == ["factur-x.xml"]
    assert [str(associated.UF), str(associated.AFRelationship)] == ["factur-x.xml", "/Alternative"]
    assert associated.EF.F.Subtype == "/text/xml"


def test_the_xml_reads_back_byte_for_byte(opened: pikepdf.Pdf, forty: InvoiceFiles) -> None:
    assert forty.xml == cii_xml(forty_lines())
    assert opened.attachments["factur-x.xml"].get_file().read_bytes() == forty.xml
    assert embedded_xml(forty.pdf) == forty.xml


def faces(pdf: pikepdf.Pdf) -> dict[str, bool]:
    """The name of every font, without the letters of its subset, and whether its outlines are inside."""
    found = {}
    for page in pdf.pages:
        for font in page.Resources.Font.values():
            inner = font.DescendantFonts[0] if "/DescendantFonts" in font else font
            inside = any(f"/FontFile{kind}" in inner.FontDescriptor for kind in ("", "2", "3"))
            found[str(inner.BaseFont).split("+")[-1].lstrip("/")] = inside
    return found


@pytest.mark.parametrize("name", ["forty", "sales"])
def test_every_font_is_inside_and_they_are_our_two_faces(name: str, request: pytest.FixtureRequest) -> None:
    files: InvoiceFiles = request.getfixturevalue(name)
    with pikepdf.open(BytesIO(files.pdf)) as pdf:
        fonts = faces(pdf)

    assert all(fonts.values())
    assert {font.replace("-", " ").split()[0] for font in fonts} == {"B612", "Besley"}


def test_the_same_sheet_gives_the_same_bytes(forty: InvoiceFiles) -> None:
    again = invoice_files(forty_lines())

    assert hashlib.sha256(again.pdf).digest() == hashlib.sha256(forty.pdf).digest()
    assert again.xml == forty.xml


def test_a_workshop_with_sales_tax_gets_a_plain_page(sales: InvoiceFiles) -> None:
    assert sales.xml is None
    with pikepdf.open(BytesIO(sales.pdf)) as pdf:
        assert len(pdf.attachments) == 0
        assert [float(side) for side in pdf.pages[0].MediaBox] == [0, 0, 612, 792]


def test_a_currency_of_three_decimals_gets_a_plain_page_too() -> None:
    fine = invoice_files(sheet(line("1", "1.2345"), currency="KWD", decimals=3))

    assert fine.xml is None
