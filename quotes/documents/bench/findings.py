"""The findings report on page and paper: what was seen, worst first, and what was measured."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from django.template.loader import render_to_string

from quotes.calc.bench.findings_sheet import FindingShown, FindingsSheet, ReadingShown
from quotes.documents.booking import LANGUAGE, PaperHeading, at_lines, paper_style
from quotes.documents.pdf import photo_address, printed
from quotes.documents.words import long_day


def findings_pdf(sheet: FindingsSheet, pictures: Mapping[str, bytes]) -> bytes:
    """The report; `pictures` are JPEGs by fingerprint, and one that is not there is left out."""
    addresses = {sha256: photo_address(content) for sha256, content in pictures.items()}
    html = render_to_string("documents/bench/findings.html", findings_context(sheet, addresses))
    return printed(html, paper_style(sheet.paper))


def findings_context(sheet: FindingsSheet, addresses: Mapping[str, str]) -> dict[str, Any]:
    """Everything that the report says, in words; `addresses` of its photos by fingerprint."""
    made = long_day(sheet.on, LANGUAGE)
    engine = ", ".join(filter(None, (sheet.engine_name, sheet.engine_number)))
    return {
        "heading": PaperHeading(sheet.workshop, sheet.customer),
        "title": f"Findings {sheet.number}: {engine}",
        "foot": f"{sheet.workshop.name} · Findings {sheet.number} · {made}",
        "at": at_lines(sheet.workshop),
        "made": f"{sheet.on:%Y-%m-%d}T00:00:00Z",
        "strip": (
            ("Report", sheet.number),
            ("Issued on", made),
            ("Engine", engine),
            ("Job", sheet.job_number),
        ),
        "sheet": sheet,
        "lead": _lead(sheet),
        "findings": [_finding(one, addresses) for one in sheet.findings],
        "not_within": [row for row in sheet.readings if row.verdict in ("past", "watch")],
        "within": together([row for row in sheet.readings if row.verdict not in ("past", "watch")]),
    }


def _lead(sheet: FindingsSheet) -> str:
    """The whole of it in two sentences: how much was found, and whether it must be spoken about."""
    judged = [one.judged for one in sheet.findings]
    renew = sum(judged.count(word) for word in ("companions", "renew"))
    past = sum(row.verdict == "past" for row in sheet.readings)
    found = (
        _count(renew, "thing to renew", "things to renew"),
        _count(judged.count("until"), "that serves for now", "that serve for now"),
        _count(past, "reading past its limit", "readings past their limits"),
    )
    said = ", ".join(filter(None, found)) or "nothing that must be renewed"
    stop = "Before we go on we must speak with you. " if "stop" in judged else ""
    return f"{stop}We have stripped and measured your engine: {said}."


def _count(many: int, one: str, more: str) -> str:
    return f"{many} {one if many == 1 else more}" if many else ""


def _finding(one: FindingShown, addresses: Mapping[str, str]) -> dict[str, Any]:
    where = ", ".join(filter(None, (one.component, one.place)))
    return {
        "finding": one,
        "title": sentence(one.seen),
        "where": where,
        "rows": [(label, sentence(words)) for label, words in _rows(one) if words],
        "photos": [
            (addresses[photo.sha256], photo.words or f"Photo: {one.seen}")
            for photo in one.photos
            if photo.sha256 in addresses
        ],
    }


def _rows(one: FindingShown) -> tuple[tuple[str, str], ...]:
    return (
        ("Serves", one.until),
        ("Why", one.cause),
        ("Good to know", one.consequence),
        ("Measured", "; ".join(one.read)),
        ("It brings with it", " ".join(filter(None, (sentence(one.chain), one.besides)))),
        ("It may come from", ", ".join(one.sources)),
        ("Looked for by", "; ".join(one.shown_by)),
    )


def together(rows: Sequence[ReadingShown]) -> list[ReadingShown]:
    """Readings of one quantity against one limit on one row: the figures in the order of their places."""
    same: dict[tuple[str, ...], list[ReadingShown]] = {}
    for row in rows:
        same.setdefault(
            (row.component, row.name, row.standard, row.limit, row.source, row.verdict), []
        ).append(row)
    return [_as_one(of) for of in same.values()]


def _as_one(rows: Sequence[ReadingShown]) -> ReadingShown:
    if len(rows) == 1:
        return rows[0]
    places = f"{rows[0].place} to {rows[-1].place}, {len(rows)} places"
    units = {row.read.partition(" ")[2] for row in rows}
    figures = [row.read.partition(" ")[0] if len(units) == 1 else row.read for row in rows]
    read = " ".join(filter(None, (", ".join(figures), *(units if len(units) == 1 else ()))))
    return rows[0].model_copy(update={"place": places, "read": read})


def sentence(words: str) -> str:
    """With a capital and a full stop; nothing stays nothing."""
    words = words.strip()
    if not words:
        return ""
    return words[:1].upper() + words[1:] + ("" if words.endswith((".", "!", "?")) else ".")
