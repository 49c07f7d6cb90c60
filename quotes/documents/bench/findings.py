"""The findings report on page and paper: what was seen, worst first, and what was measured."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from catalogue.calc.said import say, say_count
from quotes.calc.bench.teardown.findings_sheet import FindingShown, FindingsSheet, ReadingShown
from quotes.documents.letterhead import LANGUAGE, PaperHeading, engine_in_words, paper_frame, paper_style
from quotes.documents.pdf import photo_address, printed
from quotes.documents.speech import paper_in
from quotes.documents.words import long_day


def findings_pdf(sheet: FindingsSheet, pictures: Mapping[str, bytes]) -> bytes:
    """The report; `pictures` are JPEGs by fingerprint, and one that is not there is left out."""
    addresses = {sha256: photo_address(content) for sha256, content in pictures.items()}
    html = paper_in(
        sheet.language, "documents/bench/findings.html", lambda: findings_context(sheet, addresses)
    )
    return printed(html, paper_style(sheet.paper))


def findings_context(sheet: FindingsSheet, addresses: Mapping[str, str]) -> dict[str, Any]:
    """Everything that the report says, in words; `addresses` of its photos by fingerprint."""
    made = long_day(sheet.on, LANGUAGE)
    engine = engine_in_words(sheet)
    return paper_frame(
        PaperHeading(sheet.workshop, sheet.customer),
        sheet.on,
        title=say("Findings {number}: {engine}", number=sheet.number, engine=engine),
        foot=say(
            "{workshop} · Findings {number} · {made}",
            workshop=sheet.workshop.name,
            number=sheet.number,
            made=made,
        ),
        strip=(
            (say("Report"), sheet.number),
            (say("Issued on"), made),
            (say("Engine"), engine),
            (say("Job"), sheet.job_number),
        ),
    ) | {
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
    found = ", ".join(_counted(renew, judged.count("until"), past)) or say("nothing that must be renewed")
    if "stop" in judged:
        return say(
            "Before we go on we must speak with you. We have stripped and measured your engine: {found}.",
            found=found,
        )
    return say("We have stripped and measured your engine: {found}.", found=found)


def _counted(renew: int, serve: int, past: int) -> Iterator[str]:
    if renew:
        yield say_count("{count} thing to renew", "{count} things to renew", renew)
    if serve:
        yield say_count("{count} that serves for now", "{count} that serve for now", serve)
    if past:
        yield say_count("{count} reading past its limit", "{count} readings past their limits", past)


def _finding(one: FindingShown, addresses: Mapping[str, str]) -> dict[str, Any]:
    where = ", ".join(filter(None, (one.component, one.place)))
    return {
        "finding": one,
        "title": sentence(one.seen),
        "where": where,
        "rows": [(label, sentence(words)) for label, words in _rows(one) if words],
        "photos": [
            (addresses[photo.sha256], photo.words or say("Photo: {seen}", seen=one.seen))
            for photo in one.photos
            if photo.sha256 in addresses
        ],
    }


def _rows(one: FindingShown) -> tuple[tuple[str, str], ...]:
    return (
        (say("Serves"), one.until),
        (say("Why"), one.cause),
        (say("Good to know"), one.consequence),
        (say("Measured"), "; ".join(one.read)),
        (say("It brings with it"), " ".join(filter(None, (sentence(one.chain), one.besides)))),
        (say("It may come from"), ", ".join(one.sources)),
        (say("Looked for by"), "; ".join(one.shown_by)),
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
    places = say(
        "{first} to {last}, {count} places", first=rows[0].place, last=rows[-1].place, count=len(rows)
    )
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
