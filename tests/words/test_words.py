"""Every language says all that the program says, with the same places in it."""

from __future__ import annotations

import re

import pytest
from django.utils import translation

from catalogue.actions.entries import in_every_language
from catalogue.calc.rows.habits import habit_in_words
from catalogue.calc.said import say, say_count, say_figure
from quotes.calc.defaults import TERMS
from quotes.queries.starting_words import starting_words
from tests.words.files import OTHERS, messages, said_as, translated, words_of
from tests.words.said import AREAS, ROOT, said_by_area, templates, unmarked

PLACE = re.compile(r"%\(\w+\)s|\{\w*\}|%s|%d")
AREA_AND_LANGUAGE = [(area, language) for area in AREAS for language in OTHERS]


def texts(of: object) -> list[str]:
    return [str(each) for each in of] if isinstance(of, (tuple, list)) else [str(of)]


def test_the_files_hold_what_is_said_and_nothing_else() -> None:
    said = said_by_area()
    for area, language in AREA_AND_LANGUAGE:
        written = {tuple(texts(said_as(message))) for message in messages(words_of(area, language))}
        assert written == {tuple(texts(each)) for each in said[area]}, f"{area}: run python -m tests.words"


@pytest.mark.parametrize(("area", "language"), AREA_AND_LANGUAGE)
def test_every_text_is_translated(area: str, language: str) -> None:
    assert [message.id for message in messages(words_of(area, language)) if not translated(message)] == []


@pytest.mark.parametrize(("area", "language"), AREA_AND_LANGUAGE)
def test_a_translation_has_the_places_of_the_text(area: str, language: str) -> None:
    for message in messages(words_of(area, language)):
        wanted = {place for text in texts(message.id) for place in PLACE.findall(text)}
        for text in filter(None, texts(message.string)):
            assert set(PLACE.findall(text)) == wanted or (
                message.pluralizable and set(PLACE.findall(text)) <= wanted
            ), message.id


def test_a_text_has_the_same_translation_everywhere() -> None:
    for language in OTHERS:
        found: dict[tuple[object, object], set[str]] = {}
        for message in (message for area in AREAS for message in messages(words_of(area, language))):
            found.setdefault((message.context, str(message.id)), set()).add(str(message.string))
        assert [text for text, said in found.items() if len(said) > 1] == []


def test_words_of_templates_stand_where_a_translation_reaches_them() -> None:
    out_of_reach = {path.relative_to(ROOT).as_posix(): unmarked(path) for path in templates()}
    assert {name: words for name, words in out_of_reach.items() if words} == {}


def test_a_sentence_of_the_sums_follows_the_language_in_hand() -> None:
    with translation.override("de"):
        assert say_figure(1234.5, 2) == "1.234,50"
        assert say("{count} of {all}", count=3, all=20) == "3 von 20"
    assert say_figure(1234.5, 2) == "1,234.50"
    assert say_count("{count} hour", "{count} hours", 2) == "2 hours"


def test_a_shipped_name_is_found_by_what_each_language_calls_it() -> None:
    words = in_every_language(["piston ring set", "P-RING"])

    assert words[:2] == ["piston ring set", "P-RING"]
    with translation.override("de"):
        assert say("piston ring set") in words[2:]
    assert in_every_language([""]) == []


def test_terms_to_start_from_follow_the_language_of_the_paper_until_somebody_rewrites_them() -> None:
    with translation.override("de"):
        german = starting_words(TERMS[0])
        assert german == say(TERMS[0]) != TERMS[0]
        assert starting_words("Nur auf Rechnung.") == "Nur auf Rechnung."
    assert starting_words(german.replace(" ", "  ")) == TERMS[0]


def test_a_habit_of_the_trade_is_told_in_the_language_in_hand() -> None:
    named, titles = {"single450": "450er Einzylinder"}, {"S45": "Terms of a workshop"}
    kept = {
        "restocking_pct": {"typical": 15},
        "amount": {"single450": 250},
        "source": "S45; sums from memory",
    }
    with translation.override("de"):
        told = habit_in_words(kept, named, titles)
        assert told["Gebühr der Rücknahme, %"] == {"üblich": 15}
        assert told["Betrag"] == {"450er Einzylinder": 250}
        assert "Terms of a workshop; Beträge aus dem Gedächtnis" in " ".join(map(str, told.values()))
        assert len(habit_in_words(kept, named)) == len(told) - 1
