"""The files of words: one for each area and language, in GNU gettext's form."""

from __future__ import annotations

import io
from collections.abc import Iterator
from pathlib import Path

from babel.messages.catalog import Catalog, Message
from babel.messages.pofile import read_po, write_po
from django.conf import settings

from catalogue.calc.said import CONTEXT_END
from tests.words.said import AREAS, ROOT, Said, said_by_area, templates, unmarked

LOCALE = ROOT / "quotes" / "locale"
OTHERS = tuple(code for code, _ in settings.LANGUAGES if code != "en")
KEPT_HEADERS = ('"Language: ', '"Plural-Forms: ', '"Content-Type: ')
"""Of the head of a file. Dates and names would change with every run."""


def path_of(area: str, language: str) -> Path:
    return LOCALE / area / language / "LC_MESSAGES" / "django.po"


def words_of(area: str, language: str) -> Catalog:
    path = path_of(area, language)
    if not path.exists():
        return Catalog(locale=language)
    with path.open("rb") as file:
        return read_po(file, locale=language)


def messages(catalog: Catalog) -> list[Message]:
    return [message for message in catalog if message.id]


def bring_up_to_date() -> Iterator[str]:
    """Writes every file anew; says of each how many texts it has and how many wait for a translation."""
    said = said_by_area()
    for language in OTHERS:
        known = {area: words_of(area, language) for area in AREAS}
        for area in AREAS:
            catalog = Catalog(locale=language)
            for text in said[area]:
                context, bare = _apart(text)
                catalog.add(bare, _translated(text, [known[area], *known.values()]), context=context)
            _write(catalog, path_of(area, language))
            waiting = sum(not translated(message) for message in messages(catalog))
            yield f"{language} {area:10} {len(messages(catalog)):5} texts, {waiting} to translate"


def left() -> Iterator[str]:
    """What stands in templates outside any translation, and what no translation was written for."""
    for path in templates():
        if words := unmarked(path):
            yield f"{path.relative_to(ROOT)}: {len(words)}: {words[0][:60]}"
    for language in OTHERS:
        for area in AREAS:
            for message in messages(words_of(area, language)):
                if not translated(message):
                    yield f"{language} {area}: {message.id}"


def said_as(message: Message) -> Said:
    """The text of a message, beginning with where it stands if it says so."""
    if message.context:
        return f"{message.context}{CONTEXT_END}{message.id}"
    return (message.id[0], message.id[1]) if isinstance(message.id, (tuple, list)) else message.id


def _apart(text: Said) -> tuple[str | None, Said]:
    """Where a text stands, or nothing, and the text without that."""
    if isinstance(text, tuple) or CONTEXT_END not in text:
        return None, text
    context, _, bare = text.partition(CONTEXT_END)
    return context, bare


def translated(message: Message) -> bool:
    return all(message.string) if isinstance(message.string, (tuple, list)) else bool(message.string)


def _translated(text: Said, catalogs: list[Catalog]) -> str | tuple[str, ...]:
    context, bare = _apart(text)
    for catalog in catalogs:
        found = catalog.get(bare if isinstance(bare, str) else bare[0], context)
        if found is not None and found.id == bare and translated(found):
            return tuple(found.string) if isinstance(found.string, (tuple, list)) else str(found.string)
    return "" if isinstance(text, str) else ("", "")


def _write(catalog: Catalog, path: Path) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    for message in messages(catalog):
        # "10 % of" is no place in a text; what Django fills in is named: %(name)s.
        if "%(" not in str(message.id):
            message.flags.discard("python-format")
    whole = io.BytesIO()
    write_po(whole, catalog, width=110, sort_output=True, no_location=True, ignore_obsolete=True)
    head, _, rest = whole.getvalue().decode().partition("\n\n")
    lines = [line for line in head.splitlines() if line.startswith(("msgid", "msgstr", *KEPT_HEADERS))]
    path.write_text(
        "\n".join(lines) + "\n\n" + rest.strip() + "\n" if rest.strip() else "\n".join(lines) + "\n"
    )
