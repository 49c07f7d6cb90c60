"""Wherever a chance is said the five sentences stand, and no chance is said with a third figure."""

from __future__ import annotations

import re
from functools import cache
from io import BytesIO
from pathlib import Path

import pytest
from django.contrib.auth.models import AnonymousUser
from django.template.loader import render_to_string
from django.test import RequestFactory
from openpyxl import load_workbook
from openpyxl.cell import Cell, MergedCell

from quotes.calc.sheet.issued_values import Sheet
from quotes.calc.sheet.sentences import honesty, honesty_in_general
from quotes.calc.sheet.values import Comparison
from quotes.documents.customer_sheet import customer_sheet
from quotes.documents.paper import quote_context
from quotes.documents.spreadsheet import SHARE
from quotes.documents.table import comparison_table
from quotes.documents.xlsx import quote_workbook
from quotes.views.worksheet.sheet import worked_sheet
from tests.calc.asked import tired_four
from tests.documents.samples import from_hopeless_to_nearly_sure
from tests.sample_sheet import sample_comparison, sample_sheet

ROOT = Path(__file__).resolve().parents[2]
TEMPLATES = ROOT / "templates"
SAYS = re.compile(
    r"\|finishes|\|stops\b|chance|\.likely\b|verdict\.(lead|rest)|table\.say|worked\.gives|origin\.parts"
)
"""What a template that says a chance has in it."""
FIVE = re.compile(r"\{% estimates|in (sheet\.|worked\.)?honesty %\}")
INSIDE = re.compile(r"""\{% (?:include|extends) "([^"]+)\"""")
NO_CHANCE_OF_AN_ENGINE = {
    "quotes/keys.html": "means what is pressed by accident",
    "catalogue/tier.html": "explains the word",
    "site.html": "stands at the foot of every page and gives no figure",
    "quotes/settings.html": "names the settings that chances are reckoned with",
}
"""Templates that name chances and say none."""
WORDS = re.compile(
    r"chance_in_words|chance_with_band|likely_in_words|likely_beside|out_of_twenty|whole_percent|risk_in_words"
    r"|risk_count|risk_band|percent_band"
)
SAID_ON = {
    "quotes/calc/bench/ages/factor_effect.py": "what another factor would do",
    "quotes/calc/learning/standard_quotes.py": "what another life would do",
    "quotes/calc/compare.py": "sentences of the sheet",
    "quotes/calc/origin": "the opened number, and the text of all numbers",
    "quotes/calc/sheet": "sentences of the sheet",
    "quotes/documents": "customer's page, paper, workbook, and the table for the terminal",
    "quotes/queries/bench/ready.py": "a date, no engine",
    "quotes/templatetags/calibration_words.py": "stops expected and seen",
    "quotes/templatetags/sheet_words.py": "filters: seen by the templates",
    "quotes/views/bench/outcomes.py": "how a service went",
    "quotes/views/card/options_table.py": "the card of a new quote",
    "quotes/views/worksheet/gives.py": "the worksheet",
    "quotes/views/worksheet/running.py": "the line at the worksheet's foot",
}
"""Where each module's chances are read. All of these are held to the five sentences below."""


@cache
def source(name: str) -> str:
    return (TEMPLATES / name).read_text()


def names() -> list[str]:
    return sorted(str(path.relative_to(TEMPLATES)) for path in TEMPLATES.rglob("*.html"))


def whole(name: str) -> set[str]:
    """A template with all that it includes and extends."""
    found, waiting = set[str](), [name]
    while waiting:
        one = waiting.pop()
        if one not in found:
            found.add(one)
            waiting += [inside for inside in INSIDE.findall(source(one)) if (TEMPLATES / inside).exists()]
    return found


def pages() -> list[str]:
    """Templates that no other one includes: what is sent as a page, a part of one or a paper."""
    used = {inside for name in names() for inside in INSIDE.findall(source(name))}
    return [name for name in names() if name not in used or name.endswith("follow.html")]


def test_every_page_and_paper_that_says_a_chance_has_the_five_sentences() -> None:
    saying = {
        page: sorted(one for one in whole(page) - NO_CHANCE_OF_AN_ENGINE.keys() if SAYS.search(source(one)))
        for page in pages()
    }
    told = {page: parts for page, parts in saying.items() if parts}
    assert {"quotes/customer.html", "quotes/worksheet.html", "documents/quote.html"} <= told.keys()
    without = {
        page: parts for page, parts in told.items() if not any(map(FIVE.search, map(source, whole(page))))
    }
    assert without == {}, "these say a chance without what it rests on: add {% estimates %}"


def test_it_is_known_where_every_module_s_chances_are_read() -> None:
    """A module that is not among them is new: put it here, and the five sentences on its page or paper."""
    modules = [*(ROOT / "quotes").rglob("*.py"), *(ROOT / "catalogue").rglob("*.py")]
    saying = {str(path.relative_to(ROOT)) for path in modules if WORDS.search(path.read_text())}
    assert {name for name in saying if not name.startswith(tuple(SAID_ON))} == set()
    assert {place for place in SAID_ON if not any(name.startswith(place) for name in saying)} == set()


def test_there_are_five_in_general_as_well() -> None:
    seen = honesty_in_general(3, 1.2)
    assert len(seen) == len(honesty(sample_comparison())) == 5
    assert seen[3:] == honesty(sample_comparison())[3:]
    assert "3 strip-downs of our own" in seen[1]


def plain(html: str) -> str:
    """The text of a page, without its drawings' coordinates."""
    return re.sub(r"\s+", " ", re.sub(r"<[^>]+>", " ", re.sub(r"<style.*?</style>", "", html, flags=re.S)))


def worksheets(comparison: Comparison) -> str:
    """The worked sheet of every option, as it is shown before it is kept."""
    looks = RequestFactory().get("/")
    looks.user = AnonymousUser()
    pages = []
    for option in comparison.options:
        asked = tired_four(tiers=(option.tier,))
        told = {
            "tier": option.tier,
            "comparison": comparison,
            "worked": worked_sheet(comparison, asked, option.tier, {}),
            "others": [],
            "sees_margin": True,
        }
        pages.append(render_to_string("quotes/worksheet/worked.html", told, looks))
    return plain(" ".join(pages))


def workbook(sheet: Sheet) -> str:
    """Every cell of the workbook."""
    book = load_workbook(BytesIO(quote_workbook(sheet)))
    cells = (cell for page in book for row in page.iter_rows() for cell in row if cell.value is not None)
    return " ".join(map(in_full, cells))


def in_full(cell: Cell | MergedCell) -> str:
    """A cell with all the figures that it holds, whatever its format shows of them."""
    if cell.number_format == SHARE and isinstance(cell.value, float):
        return f"{100 * cell.value:.10g} %"
    return str(cell.value)


@pytest.fixture(params=["as usual", "from hopeless to nearly sure"], scope="module")
def said(request: pytest.FixtureRequest) -> dict[str, str]:
    """The texts of one comparison, wherever it is drawn without a database."""
    comparison = sample_comparison() if request.param == "as usual" else from_hopeless_to_nearly_sure()
    sheet = sample_sheet(comparison=comparison)
    page = {**customer_sheet(sheet), "sheet": sheet, "opened": {"token": "x"}}
    names = ("glance", "picture", "steps", "numbers", "reasons", "rests")
    parts = [f"customer_{name}" for name in names]
    return {
        "page": plain(" ".join(render_to_string(f"quotes/{part}.html", page) for part in parts)),
        "paper": plain(render_to_string("documents/quote.html", quote_context(sheet))),
        "terminal": comparison_table(comparison),
        "worksheet": worksheets(comparison),
        "workbook": workbook(sheet),
    }


def test_the_five_sentences_stand_wherever_a_comparison_is_drawn(said: dict[str, str]) -> None:
    for place, text in said.items():
        assert "This is no promise and no warranty" in text, place
        assert "8 estimates in 10" in text, place


def test_no_chance_is_said_with_a_third_figure_or_as_certain(said: dict[str, str]) -> None:
    for place, text in said.items():
        assert re.findall(r"\d[.,]\d+ in (?:20|100|200)\b", text) == [], place
        assert re.findall(r"\b(?:20 in 20|0 in 20|100 in 100|200 in 200)\b", text) == [], place
        for figure in re.finditer(r"\d[.,]\d+\s%", text):
            around = text[max(0, figure.start() - 40) : figure.end() + 12].lower()
            assert re.search(r"tax|vat|discount|state|city|county|of net", around), (place, around)
