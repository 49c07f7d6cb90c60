"""The season as planned, as page and paper draw it."""

from __future__ import annotations

from functools import lru_cache

from django.template.loader import render_to_string

from quotes.calc.compare import compare
from quotes.calc.sheet.values import Comparison
from quotes.documents.glance import glance
from quotes.documents.questions import questions
from quotes.documents.season import season_tables
from tests.calc.asked import asked, ran
from tests.calc.small import SHOP
from tests.cast import shipped


@lru_cache
def comparison() -> Comparison:
    """A full power season of sprints, opened twice; a refresh is run through."""
    request = asked("four600", ran(4000), amount=None, unit=None, duty="sprint", tiers=("refresh", "full"))
    return compare(request, shipped("four600"), SHOP)


def plain(words: str) -> str:
    return words.replace("\N{NO-BREAK SPACE}", " ")


def test_only_what_is_opened_on_the_way_has_a_table() -> None:
    assert [table.name for table in season_tables(comparison())] == ["Full power"]


def test_each_opening_says_when_what_and_how_likely() -> None:
    (table,) = season_tables(comparison())
    start, springs, _ = table.rows
    assert (start.at, start.done, start.parts) == ("Start", "The build", "")
    assert plain(start.dates) == "ready 15 Jun 2027"
    assert (springs.at, springs.done) == ("600 miles", "The valve train")
    assert plain(springs.dates) == "about 15 Oct 2027, ready 20 Oct 2027"
    assert springs.parts.startswith("head gasket, valve spring, valve stem seal, oil filter and 2 more")
    assert (springs.chance, springs.likely) == ("about 19 in 20", "likely 18 to 19")


def test_at_a_glance_the_chance_stands_beside_what_its_openings_come_to() -> None:
    """A refresh is run through: its price is the whole."""
    _, refresh, full = glance(comparison())
    assert full.lines[0] == "Opened twice on the way, $22,301 in all."
    assert not any("on the way" in line for line in refresh.lines)


def test_the_whole_stands_under_it_with_what_running_through_would_be() -> None:
    (table,) = season_tables(comparison())
    assert (table.whole.at, table.whole.done) == ("All 1,800 miles", "The whole season")
    assert table.whole.chance == "about 17 in 20"
    assert table.notes[-1] == "Run through without an opening, full power finishes about 15 in 20."


def test_side_by_side_every_option_is_asked_what_the_season_comes_to() -> None:
    (row,) = [row for row in questions(comparison()) if row.code == "planned_gross"]
    leave, refresh, full = row.cells
    assert leave.words == "\N{EN DASH}"
    assert (refresh.note, refresh.value) == ("not opened", comparison().option("refresh").gross.typical)
    assert (full.note, full.value) == ("2 openings", comparison().option("full").planned_gross.typical)


def test_where_nothing_is_opened_nothing_is_drawn() -> None:
    for template in ("documents/quote/season.html", "quotes/customer_season.html"):
        assert render_to_string(template, {"seasons": ()}).strip() == ""
        drawn = render_to_string(template, {"seasons": season_tables(comparison())})
        assert "The season as planned" in drawn
        assert drawn.count("<tr") == 1 + 3 + 1


def test_the_worksheet_shows_the_season_of_the_option_that_is_open() -> None:
    drawn = {
        tier: render_to_string(
            "quotes/worksheet/season.html",
            {"worked": {"option": comparison().option(tier)}, "comparison": comparison()},
        )
        for tier in ("refresh", "full")
    }
    assert drawn["refresh"].strip() == ""
    assert "Opened twice in 1,800 miles" in drawn["full"]
    assert drawn["full"].count('role="row"') == 1 + 3 + 1
