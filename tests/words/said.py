"""What the program says to a reader, found in code, templates and the catalogue that ships."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterable, Iterator
from pathlib import Path

from django.apps import apps
from django.conf import settings
from django.db.models import Model
from django.template.base import Node, Template
from django.templatetags.i18n import BlockTranslateNode, TranslateNode

from catalogue.calc.rows.shown import texts
from catalogue.calc.said import CONTEXT_END
from quotes.actions.audit.plain import told_fields
from quotes.calc.record.field_names import CALLED
from quotes.calc.record.field_words import NAME, plain_name
from quotes.calc.record.inner_names import INSIDE
from quotes.models.audited import AUDITED
from tests.cast import shipped_rows

ROOT = Path(__file__).resolve().parent.parent.parent
Said = str | tuple[str, str]
"""A text, or its forms for one and for many. A text that says where it stands begins with that."""

AREAS = tuple(Path(folder).name for folder in settings.LOCALE_PATHS)
ONE = frozenset({"say", "to_say", "_", "gettext", "gettext_lazy"})
"""Calls that say a text; what they are given first."""
BY_COUNT = frozenset({"say_count", "ngettext", "ngettext_lazy"})
"""Calls that say one of two texts by a count."""
IN_TABLES = {"Help": (0, 1), "TradeWord": (0, 1), "KeyGroup": (0,), "Kind": (0, 1), "Key": (1,)}
"""Values of tables that are said later, by the places of the texts in them."""
PLACES: tuple[tuple[str, str], ...] = (
    (r"(quotes|catalogue)/calc/(bench|work|intake)/|quotes/calc/bench_words", "bench"),
    (r"quotes/calc/(books|invoice)/", "papers"),
    (r"(quotes|catalogue)/calc/", "sums"),
    (r"quotes/documents/|templates/documents/", "papers"),
    (r"templates/quotes/customer[_.]|quotes/views/(customer/|records/customers)", "customer"),
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
    found["sums"].update(f"{NAME}{CONTEXT_END}{words}" for words in names_of_fields())
    for path in code():
        found[area_of(path)].update(said_in_code(path))
    for path in templates():
        found[area_of(path)].update(said_in_template(path))
    return found


def names_of_fields() -> Iterator[str]:
    """What fields are called that the record of changes tells of."""
    yield from (*CALLED.values(), *INSIDE.values())
    for label in AUDITED:
        model: type[Model] = apps.get_model(label)
        for name, _ in told_fields(model):
            yield plain_name(label, name)


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
    there = (ROOT / "templates").rglob("*")
    return sorted(path for path in there if path.suffix in {".html", ".svg", ".txt"})


def said_in_code(path: Path) -> Iterator[Said]:
    for call in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if not isinstance(call, ast.Call):
            continue
        name = getattr(call.func, "id", "")
        if name in BY_COUNT:
            one, many = (next(_written(each)) for each in call.args[:2])
            yield one, many
        if name == "pgettext_lazy":
            yield CONTEXT_END.join(next(_written(each)) for each in call.args[:2])
        for place in (0,) if name in ONE else IN_TABLES.get(name, ()):
            yield from _written(call.args[place]) if place < len(call.args) else ()


def _written(text: ast.expr) -> Iterator[str]:
    """A text as it is written there; both, where one of two is chosen on the spot."""
    if isinstance(text, ast.IfExp):
        yield from (*_written(text.body), *_written(text.orelse))
    elif isinstance(text, ast.Constant) and isinstance(text.value, str):
        yield text.value


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
SPOKEN = re.compile(r"""\b(?:title|placeholder|aria-label|alt|aria-description|data-label)="([^"]*)\"""")
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
