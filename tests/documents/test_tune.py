"""The tune on page and paper: power, piston speed, loads and width in words, and the owner's table."""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import date
from decimal import Decimal

import pytest

from quotes.calc.ask.request import MeasuredPower
from quotes.calc.compare import compare
from quotes.calc.sheet.values import Comparison
from quotes.calc.tune.given import BadGeometry
from quotes.documents.loads_page import factors_of, figures_of, loads_of_tier, strengths_of
from quotes.documents.questions import questions
from quotes.documents.tune import TuneTable, tune_table
from quotes.documents.tune_sheet import figure_rows, width_rows
from quotes.documents.words import NO_BREAK
from tests.calc.asked import asked, ran
from tests.calc.small import SHOP
from tests.cast import shipped
from tests.sample_sheet import sample_comparison

READ = MeasuredPower(figure=Decimal("84.5"), unit="kW", on=date(2026, 11, 20), dyno="back wheel")
FOUR = shipped("four600")


@pytest.fixture(scope="module")
def comparison() -> Comparison:
    """A 600 four with its power measured, refreshed and at full power, good for the whole season."""
    request = asked(
        "four600", ran(1500), amount=500, tiers=("refresh", "full"), engine={"measured_power": READ}
    )
    return compare(request, FOUR, SHOP)


def table_of(comparison: Comparison) -> TuneTable:
    found = tune_table(comparison)
    assert found is not None
    return found


def said(table: TuneTable, asked_for: str) -> list[tuple[str, str]]:
    (row,) = [row for row in table.rows if row.asked == asked_for]
    return [(cell.words.replace(NO_BREAK, " "), cell.note.replace(NO_BREAK, " ")) for cell in row.cells]


def test_what_was_measured_is_told_from_what_is_estimated(comparison: Comparison) -> None:
    table = table_of(comparison)
    assert table.heads == ("Leave it", "Refresh", "Full power")
    assert said(table, "Power at its peak") == [
        ("113 hp (84 kW)", "measured"),
        ("113 hp (84 kW)", "measured"),
        ("about 131 hp (98 kW)", "125 to 138 hp, estimated on what was measured"),
    ]
    assert any("20 November 2026 on back wheel" in note for note in table.notes)


def test_what_it_gives_names_the_power_that_was_measured(comparison: Comparison) -> None:
    (row,) = [row for row in questions(comparison) if row.code == "power"]
    notes = [cell.note.replace(NO_BREAK, " ") for cell in row.cells]
    assert notes == ["113 hp (84 kW), measured", "113 hp (84 kW), measured", "10 to 22 %, expected"]


def test_loads_and_piston_speed_are_said_in_whole_figures(comparison: Comparison) -> None:
    table = table_of(comparison)
    assert said(table, "Mean piston speed")[2] == ("24 m/s", "at 17,120 a minute")
    assert said(table, "Load by revs, against standard")[1:] == [
        ("as standard", ""),
        ("14 % more", ""),
    ]
    assert said(table, "Load by gas pressure, against standard")[2] == ("15 % more", "")


def test_no_chance_of_the_block_has_a_third_figure(comparison: Comparison) -> None:
    _, refresh, (words, note) = said(table_of(comparison), "Finishes, its loads reckoned otherwise")
    assert refresh == ("no odds", "the standard tune")
    assert re.fullmatch(r"\d\d to \d\d %", words)
    assert re.fullmatch(r"as reckoned \d\d %", note)


def test_a_sheet_from_before_has_no_block() -> None:
    assert tune_table(sample_comparison()) is None


def test_the_desk_sees_the_chance_by_every_other_way_in_whole_per_cent(comparison: Comparison) -> None:
    figures = comparison.option("full").tune_figures
    assert figures is not None
    assert figures.width is not None
    rows = {what: words.replace(NO_BREAK, " ") for what, words, _ in width_rows(figures.width)}
    assert len(rows) == 7
    assert all(re.fullmatch(r"(over )?\d\d( to \d\d)? %", words) for words in rows.values())
    told = dict(figure_rows(figures))
    assert told["Load by revs, of standard"] == "1.14"
    assert ("Life it leaves, by geometry", "0.26") in figure_rows(figures)
    assert ("Life it leaves, the trade says", "0.25") in figure_rows(figures)
    assert told["Compression"] == "14.5 to 1"


def test_the_owner_s_table_has_standard_and_tuned_side_by_side() -> None:
    rows = {row.what: row for row in figures_of(FOUR.engine_type, FOUR.tiers["full"])}
    assert (rows["Compression"].standard, rows["Compression"].changed) == ("13.0 to 1", "14.5 to 1")
    assert rows["Swept volume"].changed.replace(NO_BREAK, " ") == "599 cm³"
    assert rows["Power at the crank"].changed.replace(NO_BREAK, " ") == "137 hp (102 kW), 130 to 144 hp"
    assert rows["Fuel at full power"].standard.replace(NO_BREAK, " ") == "24 to 29 kg an hour"
    assert "By revs 1.14" in loads_of_tier(FOUR.engine_type, FOUR.tiers["full"])


def test_the_owner_s_table_has_the_trade_beside_geometry() -> None:
    revs, gas, heat = factors_of(FOUR, FOUR.tiers["full"])[:3]
    assert (revs.less, revs.ours, revs.more, revs.trade) == ("0.30", "0.26", "0.23", "0.25")
    assert (gas.cause, gas.ours, gas.trade) == ("gas pressure", "0.65", "0.55")
    assert gas.apart.replace(NO_BREAK, " ") == "\N{MINUS SIGN}16 %"
    assert (heat.ours, heat.trade) == ("", "0.50")
    assert "1.15 of a stock part's load: " in strengths_of(FOUR, FOUR.tiers["full"])
    assert strengths_of(FOUR, FOUR.tiers["refresh"]) == ""


def test_figures_that_fit_no_engine_are_refused_with_their_name() -> None:
    wrong = replace(FOUR.engine_type, rod_length_mm=20.0)
    with pytest.raises(BadGeometry, match=r"rod_length_m is 0\.02"):
        figures_of(wrong, FOUR.tiers["full"])
