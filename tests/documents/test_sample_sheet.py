"""The sample sheet hangs together, so that what is drawn from it can be believed."""

from __future__ import annotations

from tests.sample_sheet import sample_sheet


def test_the_lines_of_each_sample_option_add_up_to_its_net() -> None:
    for option in sample_sheet().comparison.options:
        assert sum(line.net for line in option.lines) == option.net.typical


def test_the_tax_groups_of_each_sample_option_add_up_to_its_sums() -> None:
    for option in sample_sheet().comparison.options:
        assert sum(group.taxable for group in option.tax_groups) == option.net.typical
        assert sum(group.tax for group in option.tax_groups) == option.tax.typical


def test_the_ladder_passes_through_each_sample_option() -> None:
    for option in sample_sheet().comparison.options:
        (step,) = [step for step in option.ladder if step.is_option]
        assert (step.gross, step.chance) == (option.gross.typical, option.chance.value)


def test_the_sample_sheet_survives_being_stored() -> None:
    sheet = sample_sheet()
    assert type(sheet).model_validate_json(sheet.model_dump_json()) == sheet
