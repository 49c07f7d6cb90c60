"""Every figure's help: each key that a page names is written, and each that is written stands on a page."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from quotes.calc.help.registry import AREAS, HELP
from quotes.calc.help.trade import TRADE_WORDS

TEMPLATES = Path(__file__).resolve().parent.parent.parent / "templates"
TAG = re.compile(r"\{% help ([^%]*)%\}")
LONGEST = 240


def keys_named() -> dict[str, set[str]]:
    """Keys by the page on which they stand."""
    pages = {str(page.relative_to(TEMPLATES)): page.read_text() for page in TEMPLATES.rglob("*.html")}
    named = {page: set(re.findall(r'"([^"]+)"', " ".join(TAG.findall(text)))) for page, text in pages.items()}
    return {page: keys for page, keys in named.items() if keys}


def test_every_key_that_a_page_names_is_written() -> None:
    unknown = {page: keys - HELP.keys() for page, keys in keys_named().items() if keys - HELP.keys()}

    assert unknown == {}


def test_every_sentence_stands_on_a_page() -> None:
    assert HELP.keys() - set().union(*keys_named().values()) == set()


@pytest.mark.parametrize(
    "area",
    ["worksheet/sum", "new_quote/options", "customer_numbers", "books/build", "books/overdue", "bench/jobs",
     "learning/lives", "learning/life", "bench/calibration"],
)  # fmt: skip
def test_the_figures_of_every_area_are_helped(area: str) -> None:
    assert keys_named()[f"quotes/{area}.html"]


def test_each_is_one_short_sentence() -> None:
    long = [key for key, one in HELP.items() if len(one.sentence) > LONGEST or not one.sentence.endswith(".")]

    assert long == []


def test_no_key_and_no_word_is_written_twice() -> None:
    assert len(HELP) == sum(len(area) for _, area in AREAS)
    words = [one.word for one in TRADE_WORDS]
    assert sorted(set(words)) == sorted(words)
