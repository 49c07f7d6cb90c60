"""Where the numbers of an option come from, as plain text that any editor opens (Markdown)."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from catalogue.calc.said import say
from quotes.calc.origin.values import Origin
from quotes.documents.words import NO_BREAK

STEP = "  "


def origins_text(title: str, said: Iterable[str], figures: Sequence[Origin]) -> str:
    """A heading, sentences about the whole, and every figure with its parts as a nested list."""
    lines = [f"# {title}", ""]
    for sentence in said:
        lines += [sentence, ""]
    for figure in figures:
        lines += [f"## {figure.title}: {figure.value}" if figure.value else f"## {figure.title}", ""]
        lines += _told(figure, "")
        for part in figure.parts:
            lines += _listed(part, 0)
        lines.append("")
    return "\n".join(lines).replace(NO_BREAK, " ")


def _listed(origin: Origin, depth: int) -> Iterator[str]:
    value = f": {origin.value}" if origin.value else ""
    rule = f" ({origin.rule.rstrip('.')})" if origin.rule else ""
    source = f" [{origin.source}]" if origin.source else ""
    yield f"{STEP * depth}- {origin.title}{value}{rule}{source}"
    for part in origin.parts:
        yield from _listed(part, depth + 1)


def _told(origin: Origin, indent: str) -> Iterator[str]:
    for text in (origin.rule, say("Source: {source}", source=origin.source) if origin.source else ""):
        if text:
            yield f"{indent}{text}"
            yield ""
