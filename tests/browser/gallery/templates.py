"""Which pages are drawn with another head or table than the shared ones, read from the templates."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

FOLDER = Path(__file__).resolve().parents[3] / "templates"
HEADS = frozenset({"page.html", "quotes/customer_base.html", "quotes/sign_in_base.html"})
"""What draws the head of a page: the workshop's, the customer's, and for who is not signed in."""
EXTENDS = re.compile(r'^\{% extends "([^"]+)" %\}')
TABLE = re.compile(r'<table\b(?:[^>]*? class="([^"{]*)([^"]*)")?[^>]*>')
TABLES = frozenset(
    """changes folds facts tell told day lines rules asked season figures sums steps margin glance money-day
    small-facts hours-of revisions gives after-lead apart""".split()  # noqa: SIM905
)
"""The ways a table is drawn; each says in the style sheet what becomes of it on a phone."""


def templates() -> Iterator[tuple[str, str]]:
    """Every template of a page or a part of one, by its name; papers are drawn elsewhere."""
    for path in sorted(FOLDER.rglob("*.html")):
        name = path.relative_to(FOLDER).as_posix()
        if not name.startswith("documents/"):
            yield name, path.read_text()


def stems(name: str, texts: dict[str, str]) -> list[str]:
    """What a template stands on, from the nearest down."""
    found: list[str] = []
    while (extends := EXTENDS.match(texts.get(name, ""))) is not None:
        name = extends[1]
        found.append(name)
    return found


def other_heads() -> list[str]:
    """Pages that draw their head themselves."""
    texts = dict(templates())
    pages = [name for name in texts if stems(name, texts) and name not in HEADS]
    return [name for name in pages if not HEADS.intersection(stems(name, texts)) or "<h1" in texts[name]]


def other_tables() -> list[str]:
    """Tables that are drawn in no shared way, or whose heads do not say what they head."""
    found = []
    for name, text in templates():
        for table in TABLE.finditer(text):
            drawn = re.sub(r"{%.*?%}", " ", (table[1] or "") + (table[2] or "")).split()
            if drawn and not TABLES.intersection(drawn):
                found.append(f"{name}: {table[0]}")
        heads = re.findall(r"<th\b[^>]*>", text)
        found += [f"{name}: {head}" for head in heads if "scope=" not in head and "attrs" not in head]
    return found


def unnamed() -> list[str]:
    """Buttons and links without a word in them or a name for who does not see them."""
    found = []
    for name, text in templates():
        for tag, attributes, inside in re.findall(r"<(a|button)\b([^>]*)>(.*?)</\1>", text, re.S):
            words = re.sub(r"<[^>]*>", "", inside).strip() or re.search(r' alt="[^"]', inside)
            if not words and "aria-label" not in attributes and "data-on=" not in attributes:
                found.append(f"{name}: <{tag}{attributes}>")
    return found
