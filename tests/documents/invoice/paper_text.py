"""Reads a PDF back as a person does: the text of its pages, with plain blanks."""

from __future__ import annotations

from io import BytesIO

from pypdf import PdfReader


def pages(content: bytes) -> list[str]:
    reader = PdfReader(BytesIO(content))
    return [" ".join(page.extract_text().replace("\N{NO-BREAK SPACE}", " ").split()) for page in reader.pages]


def text(content: bytes) -> str:
    return " ".join(pages(content))
