"""The sentence on top follows the paired comparison and the prices, and sells nothing."""

from __future__ import annotations

from catalogue.calc.money import round_half_up
from quotes.calc.sheet.chance_values import Against
from quotes.calc.sheet.values import Comparison, Option, Range
from quotes.documents.verdict import differences, verdict
from tests.documents.samples import comparison_with, from_hopeless_to_nearly_sure, one_option
from tests.sample_sheet import sample_comparison


def judged(option: Option, **verdicts: str) -> Option:
    against = tuple(
        Against.model_validate(
            {
                "other": other,
                "better_share": 0.9,
                "verdict": word.replace("_", " "),
                "difference": 0.1,
                "difference_low": 0.05,
                "difference_high": 0.15,
                "sentence": "",
            }
        )
        for other, word in verdicts.items()
    )
    return option.model_copy(update={"against": against})


def told(comparison: Comparison) -> str:
    said = verdict(comparison)
    return " ".join((said.lead, *said.rest)).replace("\N{NO-BREAK SPACE}", " ")


def test_options_that_can_not_be_told_apart_stand_in_one_sentence() -> None:
    assert told(sample_comparison()).startswith(
        "Refresh and mild build can't be told apart on finishing your season: "
        "about 19 in 20, likely 18 to 19."
    )


def test_an_option_that_beats_the_others_is_the_likeliest() -> None:
    refresh, mild, full = sample_comparison().options
    comparison = comparison_with(
        judged(refresh, mild="better", full="better"),
        judged(mild, refresh="worse", full="better"),
        judged(full, refresh="worse", mild="worse"),
    )
    assert (
        verdict(comparison).lead
        == "Refresh is the likeliest to finish your season: about 19 in 20, likely 18 to 19."
    )


def test_three_that_can_not_be_told_apart_are_said_so() -> None:
    same = "cannot_be_told_apart"
    refresh, mild, full = sample_comparison().options
    comparison = comparison_with(
        judged(refresh, mild=same, full=same),
        judged(mild, refresh=same, full=same),
        judged(full, refresh=same, mild=same),
    )
    assert verdict(comparison).lead.startswith("All three ways can't be told apart")


def test_a_dearer_option_that_finishes_less_often_is_said_to() -> None:
    assert "but is the least likely to finish: about 16 in 20, likely 15 to 18." in told(sample_comparison())


def test_what_leaving_it_comes_to_is_always_said() -> None:
    for comparison in (sample_comparison(), one_option()):
        assert "Left as it is, the engine finishes about 16 in 20, likely 14 to 17." in told(comparison)


def test_a_refresh_that_buys_nothing_is_said_to() -> None:
    refresh = judged(one_option().options[0], leave_it="cannot_be_told_apart")
    assert "Refresh buys nothing that can be measured on this season" in told(comparison_with(refresh))


def test_before_the_strip_down_a_difference_in_price_is_about() -> None:
    assert "costs about $2,510 more" in told(sample_comparison())
    assert "costs $2,510 more" in told(sample_comparison(firm=True))


def test_a_chance_near_one_is_not_said_to_be_certain() -> None:
    assert "more than 19 in 20" in told(from_hopeless_to_nearly_sure())
    assert "20 in 20" not in told(from_hopeless_to_nearly_sure()).replace("19 in 20", "")


def test_each_tier_is_set_against_the_one_before() -> None:
    mild, full = differences(sample_comparison())
    assert (mild.name, mild.other, mild.adds, mild.more) == (
        "Mild build",
        "refresh",
        ("Camshafts",),
        "+$2,510",
    )
    assert full.adds == ("Connecting rods",)


def test_power_is_set_against_that_of_the_tier_before() -> None:
    refresh, mild, full = sample_comparison().options
    gains = (refresh, 0.0), (mild, 7.0), (full, 16.0)
    options = [each.model_copy(update={"power_gain_pct": _exactly(gain)}) for each, gain in gains]
    assert [each.power for each in differences(comparison_with(*options))] == [
        "about 7\N{NO-BREAK SPACE}% more power",
        "about 8\N{NO-BREAK SPACE}% more power",
    ]
    back = differences(comparison_with(options[2], options[0], options[0]))
    assert [each.power for each in back] == ["about 14\N{NO-BREAK SPACE}% less power", "the same power"]


def _exactly(gain: float) -> Range:
    return Range(low=gain, typical=gain, high=gain)


def test_the_same_work_twice_is_said_to_be_the_same() -> None:
    refresh, mild, _ = sample_comparison().options
    again = refresh.model_copy(update={"tier": mild.tier, "name": mild.name})
    said = told(comparison_with(refresh, again))
    assert "Mild build is the same work as refresh, at the same price." in said
    assert "$0" not in said
    assert [each.same for each in differences(comparison_with(refresh, again, mild))] == [True, False]


def test_what_a_dearer_tier_leaves_out_is_told_too() -> None:
    refresh, mild, _ = sample_comparison().options
    fewer = {code: reason for code, reason in mild.renewed.items() if code != "rod_bolt"}
    (only,) = differences(comparison_with(refresh, mild.model_copy(update={"renewed": fewer})))
    assert only.drops == ("Connecting rod bolts",)


def test_an_opening_that_the_season_needs_stands_in_the_first_sentences() -> None:
    assert "It must be opened again at 1,340 miles." in told(sample_comparison())
    full = sample_comparison().options[2]
    assert "Full power must be opened again at 1,340 miles." in told(comparison_with(full))


def test_an_option_no_better_than_leaving_the_engine_is_said_to_be() -> None:
    refresh, _, full = sample_comparison().options
    comparison = comparison_with(
        judged(refresh, leave_it="better", full="better"),
        judged(full, leave_it="cannot_be_told_apart", refresh="worse"),
    )
    assert "but can't be told apart from leaving the engine as it is" in told(comparison)


def test_money_is_in_the_currency_of_the_comparison() -> None:
    comparison = sample_comparison(currency="EUR", firm=True)
    apart = comparison.options[1].gross.typical - comparison.options[0].gross.typical
    assert f"€{round_half_up(apart, 0):,}" in told(comparison)
