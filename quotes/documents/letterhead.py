"""What every paper but quote and invoice has around it: letterhead, title, foot, and its facts in a strip."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date
from typing import Any, Protocol

from django.template.loader import render_to_string

from quotes.calc.sheet.issued_values import Party
from quotes.documents.words import spoken

LANGUAGE = ""
"""The one in hand."""
Rows = tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class PaperHeading:
    """What the head of a paper document asks for."""

    workshop: Party
    customer: Party
    language: str = field(default_factory=spoken)


class OfEngine(Protocol):
    """A sheet about one engine."""

    @property
    def engine_name(self) -> str: ...

    @property
    def engine_number(self) -> str: ...


def engine_in_words(sheet: OfEngine) -> str:
    """The engine's type, and its number where it has one."""
    return ", ".join(filter(None, (sheet.engine_name, sheet.engine_number)))


def paper_frame(heading: PaperHeading, on: date, *, title: str, foot: str, strip: Rows) -> dict[str, Any]:
    """What `documents/paper.html` draws around the paper of a day."""
    return {
        "heading": heading,
        "at": at_lines(heading.workshop),
        "made": f"{on:%Y-%m-%d}T00:00:00Z",
        "title": title,
        "foot": foot,
        "strip": strip,
    }


def at_lines(shop: Party) -> list[str]:
    """How to reach the workshop, for the head of a document."""
    return [*shop.lines, *filter(None, (shop.telephone, shop.email, shop.tax_registration))]


def paper_style(paper: str) -> str:
    """The style sheet of paper documents on this size of paper."""
    return f"@page {{ size: {paper}; }}\n{render_to_string('documents/paper.css')}"
