"""What the program says to a reader, found in code, templates and the catalogue that ships."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from pathlib import Path

from babel.messages.extract import extract_from_file
from django.conf import settings
from django.template.base import Node, Template
from django.templatetags.i18n import BlockTranslateNode, TranslateNode

from catalogue.calc.rows.shown import texts
from tests.cast import shipped_rows

ROOT = Path(__file__).resolve().parent.parent.parent
Said = str | tuple[str, str]
"""A text, or its forms for one and for many. A text that says where it stands begins with that."""
CONTEXT_END = "\x04"
"""Between where a text stands and the text, as gettext has it."""

AREAS = tuple(Path(folder).name for folder in settings.LOCALE_PATHS)
Keywords = dict[str, tuple[int | tuple[int, int] | tuple[int, str], ...] | None]
"""What calls a text, and at which of its places; the first where it is not said."""

CALLS: Keywords = {
    "say": None,
    "to_say": None,
    "say_count": (1, 2),
    "_": None,
    "gettext": None,
    "gettext_lazy": None,
    "ngettext": (1, 2),
    "ngettext_lazy": (1, 2),
}
IN_TABLES: tuple[Keywords, ...] = (
    {"Help": (1,), "TradeWord": (1,), "KeyGroup": (1,), "Kind": (1,)},
    {"Help": (2,), "TradeWord": (2,), "Key": (2,), "Kind": (2,)},
)
"""Values of tables that are said later, by the place of the text in them."""
PLACES: tuple[tuple[str, str], ...] = (
    (r"(quotes|catalogue)/calc/(bench|work|intake)/|quotes/calc/bench_words", "bench"),
    (r"quotes/calc/(books|invoice)/", "papers"),
    (r"(quotes|catalogue)/calc/", "sums"),
    (r"quotes/documents/|templates/documents/", "papers"),
    (r"templates/quotes/customer[_.]|quotes/views/customer[_.]", "customer"),
    (r"templates/quotes/bench/|quotes/\w+/bench", "bench"),
    (r"templates/quotes/books/|quotes/\w+/books", "books"),
    (r"templates/catalogue/|catalogue/", "catalogue"),
    (r"", "desk"),
)
"""Where a text belongs by the path of its file: the first that fits."""


def said_by_area() -> dict[str, set[Said]]:
    """All that is said, by the area whose file of words holds it."""
    found: dict[str, set[Said]] = {area: set() for area in AREAS}
    found["trade"] = set(texts(shipped_rows()))
    for path in code():
        found[area_of(path)].update(said_in_code(path))
    for path in templates():
        found[area_of(path)].update(said_in_template(path))
    return found


def area_of(path: Path) -> str:
    inside = path.relative_to(ROOT).as_posix()
    return next(area for pattern, area in PLACES if re.match(pattern, inside))


def code() -> list[Path]:
    return sorted(
        path
        for app in ("quotes", "catalogue")
        for path in (ROOT / app).rglob("*.py")
        if "migrations" not in path.parts
    )


def templates() -> list[Path]:
    return sorted(path for path in (ROOT / "templates").rglob("*") if path.suffix in {".html", ".txt"})


def said_in_code(path: Path) -> Iterator[Said]:
    for calls in (CALLS, *IN_TABLES):
        for _, text, _, _ in extract_from_file("python", str(path), keywords=calls):
            yield text if isinstance(text, str) else (text[0], text[1])


def said_in_template(path: Path) -> Iterator[Said]:
    text = path.read_text(encoding="utf-8")
    yield from map(_as_looked_up, IN_A_TAG.findall(text))
    yield from _said_by(_nodes(Template(text)))


def _nodes(template: Template) -> Iterable[Node]:
    return template.nodelist.get_nodes_by_type(Node)


def _said_by(nodes: Iterable[Node]) -> Iterator[Said]:
    for node in nodes:
        if isinstance(node, TranslateNode):
            text = node.filter_expression.var
            said = _as_looked_up(text if isinstance(text, str) else str(text.literal))
            context = node.message_context
            yield f"{context.var}{CONTEXT_END}{said}" if context else said
        elif isinstance(node, BlockTranslateNode):
            singular, _ = node.render_token_list(node.singular)
            if node.plural:
                plural, _ = node.render_token_list(node.plural)
                yield singular, plural
            else:
                yield singular


def _as_looked_up(text: str) -> str:
    """Django doubles the per cent sign of a text in a template before it looks for a translation."""
    return text.replace("%", "%%")


SKIPPED = re.compile(
    r"{#.*?#}|<!--.*?-->|<(script|style)\b.*?</\1>|{% block body_attributes %}.*?{% endblock %}", re.DOTALL
)
BLOCK = re.compile(r"{%\s*blocktrans(?:late)?\b.*?{%\s*endblocktrans(?:late)?\s*%}", re.DOTALL)
IN_A_TAG = re.compile(r"""\b_\("([^"]+)"\)""")
"""As in `default:_("no number")`."""
TAGS = re.compile(r"{%.*?%}|{{.*?}}", re.DOTALL)
SPOKEN = re.compile(r"""\b(?:title|placeholder|aria-label|alt|aria-description)="([^"]*)\"""")
HTML = re.compile(r"<[^>]*>")
WORD = re.compile(r"[^\W\d_]{2,}")


def unmarked(path: Path) -> list[str]:
    """Words of a template that no translation reaches."""
    text = BLOCK.sub(" ", SKIPPED.sub(" ", path.read_text(encoding="utf-8")))
    text = TAGS.sub("\x00", text)
    shown = [
        *HTML.sub("\x00", text).split("\x00"),
        *(part for each in SPOKEN.findall(text) for part in each.split("\x00")),
    ]
    without_entities = (re.sub(r"&\w+;", " ", part).strip() for part in shown)
    return [part for part in without_entities if WORD.search(part)]
