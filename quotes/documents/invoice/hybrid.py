"""A page that carries its own XML: PDF/A-3b with `factur-x.xml` embedded, as the Factur-X standard 1.0 asks.

Three things that the PDF maker would get wrong by itself are put right here: the description of Factur-X
stands inside the one rdf:RDF (a second one is never read), each attachment is listed once, and its dates are
those of the document, so that the same sheet gives the same bytes.
"""

from __future__ import annotations

import hashlib
from datetime import datetime
from io import BytesIO
from pathlib import Path
from typing import Any

from lxml import etree  # type: ignore[import-untyped]

from quotes.documents.pdf import FONTS, LinkRefused, own_fonts, page_numbers

NAME = "factur-x.xml"
LEVEL = "EN 16931"
FX = "urn:factur-x:pdfa:CrossIndustryDocument:invoice:1p0#"
RDF = "http://www.w3.org/1999/02/22-rdf-syntax-ns#"
EXTENSION, SCHEMA, PROPERTY = (
    f"http://www.aiim.org/pdfa/ns/{name}" for name in ("extension/", "schema#", "property#")
)
PROFILE_READ_HERE = "srgb, read already"
"""Any name but the one at which the PDF maker opens its own file."""
PROPERTIES = (
    ("DocumentFileName", NAME, "The name of the embedded XML document"),
    ("DocumentType", "INVOICE", "The type of the hybrid document"),
    ("Version", "1.0", "The version of the standard applying to the embedded XML document"),
    ("ConformanceLevel", LEVEL, "The conformance level of the embedded XML document"),
)


def hybrid_pdf(html: str, style: str, xml: bytes, made: datetime) -> bytes:
    """HTML and its style as PDF/A-3b with the XML in it. `made` is naive, in universal time.

    LinkRefused where they point at anything but our own fonts.
    """
    from weasyprint import CSS, HTML, Attachment  # type: ignore[import-untyped]
    from weasyprint.text.fonts import FontConfiguration  # type: ignore[import-untyped]
    from weasyprint.urls import FatalURLFetchingError  # type: ignore[import-untyped]

    fetcher, fonts, base = own_fonts(), FontConfiguration(), FONTS.as_uri() + "/"
    attached = Attachment(
        string=xml,
        name=NAME,
        description="Factur-X invoice",
        relationship="Alternative",
        created=made,
        modified=made,
    )
    options: dict[str, Any] = {
        "pdf_variant": "pdf/a-3b",
        "pdf_identifier": hashlib.sha256(html.encode() + xml).digest()[:16],
        "attachments": [attached],
    }
    try:
        sheet = CSS(string=style + page_numbers(html), base_url=base, url_fetcher=fetcher, font_config=fonts)
        page = HTML(string=html, base_url=base, url_fetcher=fetcher)
        document = page.render(stylesheets=[sheet], font_config=fonts, color_profiles=_colours(), **options)
        document.metadata.generate_rdf_metadata = _described(document.metadata.generate_rdf_metadata)
        content: bytes = document.write_pdf(finisher=_list_once, output_intent=PROFILE_READ_HERE, **options)
    except FatalURLFetchingError as refused:
        raise LinkRefused(str(refused)) from refused
    return content


def _colours() -> dict[str, Any]:
    """The profile of the colours, which PDF/A asks for: the PDF maker brings it, but leaves its file open."""
    import weasyprint.pdf  # type: ignore[import-untyped]
    from weasyprint.css import ColorProfile  # type: ignore[import-untyped]

    name = "sRGB2014.icc"
    content = (Path(weasyprint.pdf.__file__).parent / name).read_bytes()
    components = (["r"], ["g"], ["b"])
    return {"srgb": ColorProfile(BytesIO(content), name, "relative-colorimetric", components)}


def _list_once(document: Any, pdf: Any) -> None:
    """An attachment is listed in /AF by its own code and again by that of PDF/A."""
    listed = pdf.catalog.get("AF")
    if listed:
        listed[:] = dict.fromkeys(listed)


def _described(generate: Any) -> Any:
    """The metadata's own generator, with the Factur-X descriptions put into its one rdf:RDF."""

    def generated(*given: Any) -> bytes:
        rdf = etree.fromstring(generate(*given))
        rdf.append(_values())
        rdf.append(_extension_schema())
        whole: bytes = etree.tostring(rdf)
        return whole

    return generated


def _values() -> Any:
    described = etree.Element(f"{{{RDF}}}Description", {f"{{{RDF}}}about": ""}, nsmap={"fx": FX})
    for name, value, _ in PROPERTIES:
        etree.SubElement(described, f"{{{FX}}}{name}").text = value
    return described


def _extension_schema() -> Any:
    """PDF/A allows properties of one's own only where the file says what they are."""
    names = {"pdfaExtension": EXTENSION, "pdfaSchema": SCHEMA, "pdfaProperty": PROPERTY}
    described = etree.Element(f"{{{RDF}}}Description", {f"{{{RDF}}}about": ""}, nsmap=names)
    bag = etree.SubElement(etree.SubElement(described, f"{{{EXTENSION}}}schemas"), f"{{{RDF}}}Bag")
    schema = _resource(bag)
    etree.SubElement(schema, f"{{{SCHEMA}}}schema").text = "Factur-X PDFA Extension Schema"
    etree.SubElement(schema, f"{{{SCHEMA}}}namespaceURI").text = FX
    etree.SubElement(schema, f"{{{SCHEMA}}}prefix").text = "fx"
    listed = etree.SubElement(etree.SubElement(schema, f"{{{SCHEMA}}}property"), f"{{{RDF}}}Seq")
    for name, _, words in PROPERTIES:
        entry = _resource(listed)
        said = {"name": name, "valueType": "Text", "category": "external", "description": words}
        for part, text in said.items():
            etree.SubElement(entry, f"{{{PROPERTY}}}{part}").text = text
    return described


def _resource(parent: Any) -> Any:
    return etree.SubElement(parent, f"{{{RDF}}}li", {f"{{{RDF}}}parseType": "Resource"})
