"""The command that asks the published rules: files and numbers in, one line a finding, and the exit code."""

from __future__ import annotations

from io import StringIO
from pathlib import Path

import pytest
from django.core.management import call_command

from quotes.documents.invoice import InvoiceFiles, einvoice_check
from quotes.documents.invoice.einvoice_check import CheckerMissing, NotAnInvoice, findings
from quotes.documents.invoice.embedded import embedded_xml


def asked(capsys: pytest.CaptureFixture[str], *what: str | Path) -> tuple[int, list[str], str]:
    """The exit code, the lines of findings, and what stands on the error stream."""
    out, err = StringIO(), StringIO()
    code = 0
    try:
        call_command("check_einvoice", *map(str, what), stdout=out, stderr=err)
    except SystemExit as left:
        code = int(str(left.code))
    assert capsys.readouterr() == ("", "")
    return code, out.getvalue().splitlines(), err.getvalue()


@pytest.fixture
def files(forty: InvoiceFiles, tmp_path: Path) -> Path:
    """A folder with the hybrid PDF, its XML, and that XML with one line dearer by one."""
    assert forty.xml is not None
    (tmp_path / "sound.pdf").write_bytes(forty.pdf)
    (tmp_path / "sound.xml").write_bytes(forty.xml)
    total = b"<ram:DuePayableAmount>"
    (tmp_path / "spoiled.xml").write_bytes(forty.xml.replace(total, total + b"1"))
    return tmp_path


def test_nothing_is_found_in_a_pdf_or_its_xml(capsys: pytest.CaptureFixture[str], files: Path) -> None:
    pdf, xml = files / "sound.pdf", files / "sound.xml"

    assert asked(capsys, pdf, xml) == (0, [f"{pdf}: no finding", f"{xml}: no finding"], "")


def test_each_finding_is_a_line_with_the_file_who_found_it_and_the_rule(
    capsys: pytest.CaptureFixture[str], files: Path
) -> None:
    spoiled = files / "spoiled.xml"
    code, lines, errors = asked(capsys, files / "sound.xml", spoiled)

    assert (code, errors) == (1, "")
    assert len(lines) == 2
    assert lines[1].startswith(f"{spoiled}: Factur-X EN 16931: BR-CO-16: Amount due for payment")
    assert lines[1].endswith("SpecifiedTradeSettlementHeaderMonetarySummation[1])")


def test_what_can_not_be_checked_is_said_and_weighs_more_than_a_finding(
    capsys: pytest.CaptureFixture[str], files: Path
) -> None:
    (files / "note.txt").write_text("Oil on the left cover")
    (files / "cut.pdf").write_bytes(b"%PDF-1.7\n1 0 obj")
    code, lines, errors = asked(capsys, files / "note.txt", files / "spoiled.xml", files / "cut.pdf")

    assert code == 2
    assert len(lines) == 1
    assert f"{files / 'note.txt'}: is no XML" in errors
    assert f"{files / 'cut.pdf'}: is no PDF that can be read" in errors


def test_a_pdf_without_xml_in_it_is_named_so(sales: InvoiceFiles) -> None:
    assert sales.xml is None
    with pytest.raises(NotAnInvoice, match=r"a PDF without factur-x\.xml in it"):
        embedded_xml(sales.pdf)


def test_the_xml_comes_out_of_the_pdf_byte_for_byte(forty: InvoiceFiles) -> None:
    assert embedded_xml(forty.pdf) == forty.xml


def test_a_missing_checker_is_said_with_the_way_to_get_it(
    capsys: pytest.CaptureFixture[str], files: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(einvoice_check, "checker_is_installed", lambda: False)
    einvoice_check._compiled.cache_clear()

    with pytest.raises(CheckerMissing):
        findings((files / "sound.xml").read_bytes())
    code, lines, errors = asked(capsys, files / "sound.xml")
    assert (code, lines) == (2, [])
    assert "pip install saxonche" in errors


def test_a_sheet_of_rules_that_asks_nothing_is_no_sound_invoice(
    forty: InvoiceFiles, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A silent validator would find nothing in anything."""
    from saxonche import PySaxonProcessor  # type: ignore[import-not-found]

    processor = PySaxonProcessor(license=False)
    silent = processor.new_xslt30_processor().compile_stylesheet(
        stylesheet_text=(
            '<xsl:stylesheet version="3.0" xmlns:xsl="http://www.w3.org/1999/XSL/Transform">'
            '<xsl:template match="/"><svrl:output xmlns:svrl="http://purl.oclc.org/dsdl/svrl"/></xsl:template>'
            "</xsl:stylesheet>"
        )
    )
    monkeypatch.setattr(einvoice_check, "_compiled", lambda: (processor, silent))
    assert forty.xml is not None
    with pytest.raises(NotAnInvoice, match="asks nothing"):
        findings(forty.xml)
