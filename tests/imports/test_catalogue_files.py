"""The catalogue's files are refused with file, entry, field and reason, one line for each fault."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from catalogue.imports.read import CatalogueError, read_catalogue
from tests.cast import FIXTURES, shipped_rows


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A copy of the shipped files that a test may spoil."""
    return shutil.copytree(FIXTURES / "catalogue", tmp_path / "catalogue")


def spoil(folder: Path, file: str, old: str, new: str) -> None:
    path = folder / file
    text = path.read_text(encoding="utf-8")
    assert old in text, f"{old!r} is not in {file}"
    path.write_text(text.replace(old, new, 1), encoding="utf-8")


def lines_of(folder: Path) -> list[str]:
    with pytest.raises(CatalogueError) as refused:
        read_catalogue(folder)
    return str(refused.value).splitlines()


def test_the_shipped_files_read_without_a_fault(folder: Path) -> None:
    assert read_catalogue(folder) == shipped_rows()


@pytest.mark.parametrize(
    ("file", "old", "new", "line"),
    [
        (
            "components.yaml", "companions_on_renewal: [circlip]", "companions_on_renewal: [circlips]",
            "components.yaml: rings: companions_on_renewal: no component 'circlips'",
        ),
        (
            "components.yaml", "{gas: 0.35, heat: 0.2,", "{gas: 0.25, heat: 0.2,",
            "components.yaml: rings: drivers: the shares add up to 0.9, not to 1",
        ),
        (
            "components.yaml",
            "{typical: 4500, low: 2000, high: 8000}",
            "{typical: 4500, low: 5000, high: 8000}",
            "components.yaml: rings: lives.miles: low 5000, typical 4500, high 8000 are not in order",
        ),
        (
            "components.yaml", "single_use: policy", "single_use: sometimes",
            "components.yaml: rings: single_use: is one of 'yes', 'no' or 'policy', not 'sometimes'",
        ),
        (
            "components.yaml", "life_source: S12; S16", "life_source: S12; S99",
            "components.yaml: rings: source: no source 'S99' in the register",
        ),
        (
            "operations.yaml",
            "per_piece: {piece: cylinder, hours: 0.1}",
            "per_piece: {piece: pot, hours: 0.1}",
            "operations.yaml: pistons_out: per_piece: single450 does not say how many 'pot' it has",
        ),
        (
            "operations.yaml", "requires: [intake_check, drain_fluids]", "requires: [intake_check, drain]",
            "operations.yaml: engine_out: requires: no operation 'drain'",
        ),
        (
            "operations.yaml", "attribute: delivered\n        equals: in_chassis_multi",
            "attribute: delivered\n        equals: on_a_pallet",
            "operations.yaml: head_off: requires_if: delivered is one of in_chassis, "
            "in_chassis_multi, loose, "
            "not 'on_a_pallet'",
        ),
        (
            "operations.yaml", "hours: {single450: 0.5,", "hours: {single450: -0.5,",
            "operations.yaml: intake_check: hours.single450: must be at least 0, not -0.5",
        ),
        (
            "machine_work.yaml", "\n    unit: cylinder", "\n    unit: pot",
            "machine_work.yaml: replate: unit: is one of 'cylinder', 'valve', 'rod', "
            "'gear_pair', 'head', 'crank' or 'engine', not 'pot'",
        ),
        (
            "machine_work.yaml", "lead_days: {typical: 15, slow: 35}", "lead_days: {typical: 15, slow: 5}",
            "machine_work.yaml: replate: lead_slow_days: slow 5 is quicker than typical 15",
        ),
        (
            "parts.yaml", "list_price: {single450: 48,", "list_price: {single450: -48,",
            "parts.yaml: SINGLE450-RINGS: list_price: must be at least 0, not -48",
        ),
        (
            "parts.yaml", "list_price: {single450: 48,", "list_price: {single450: about 48,",
            "parts.yaml: rings: stock.list_price.single450: a price is a number, not 'about 48'",
        ),
        (
            "parts.yaml", "quantity: {single450: 1,", "quantity: {",
            "parts.yaml: SINGLE450-RINGS: quantity: is missing",
        ),
        (
            "parts.yaml", "component: rings", "component: rinks",
            "parts.yaml: rinks: stock: no supplier in suppliers.yaml delivers it",
        ),
        (
            "parts.yaml", "currency: USD", "currency: EUR",
            "machine_work.yaml: currency: 'USD' here but 'EUR' in parts.yaml",
        ),
        (
            "suppliers.yaml", "groups: [bottom_end]", "groups: [bottom_end, clutch]",
            "suppliers.yaml: crank_line: delivers: 'clutch_friction' in stock grade is also main_parts's",
        ),
        (
            "tiers.yaml", "code: mild\n", "code: refresh\n",
            "tiers.yaml: refresh: code: is there 2 times; a code names one entry",
        ),
        (
            "tiers.yaml", "rank: 1", "rank: 0",
            "tiers.yaml: refresh, mild: rank: 2 tiers share the rank 0",
        ),
        (
            "tiers.yaml", "life_factors: {inertia: 1, gas: 1,", "life_factors: {gas: 1,",
            "tiers.yaml: refresh: life_factors: no figure for inertia",
        ),
        (
            "limits.yaml", "limit: 0.4\n    watch: 0.3", "limit: 0.1\n    watch: 0.3",
            "limits.yaml: ring_gap_top_worn: limit: 0.1 is under the standard 0.2",
        ),
        (
            "findings.yaml", "opens: cases_split", "opens: casing_split",
            "findings.yaml: metal_in_filter: opens: no operation 'casing_split'",
        ),
        (
            "duties.yaml", "    basis: miles", "    basis: furlongs",
            "duties.yaml: endurance: basis: is one of 'miles' or 'hours_mx', not 'furlongs'",
        ),
    ],
)  # fmt: skip
def test_one_fault_is_one_line(folder: Path, file: str, old: str, new: str, line: str) -> None:
    spoil(folder, file, old, new)
    assert line in lines_of(folder)


def test_a_loop_is_found_on_the_types_that_have_it(folder: Path) -> None:
    spoil(
        folder,
        "operations.yaml",
        "requires: [top_cover_off]\n    after: [valve_clearance_check]",
        "requires: [top_cover_off, cylinder_off]\n    after: [valve_clearance_check]",
    )
    lines = lines_of(folder)
    assert [line.split(": ")[3].split(" ")[1] for line in lines] == ["single450", "twin650"]
    assert "wait for each other in a loop: " in lines[0]
    assert {"cams_out", "head_off", "cylinder_off"} <= set(lines[0].split(": ")[-1].split(" before "))


def test_several_faults_are_told_at_once(folder: Path) -> None:
    spoil(folder, "tiers.yaml", "rank: 1", "rank: 0")
    spoil(folder, "findings.yaml", "opens: cases_split", "opens: casing_split")
    spoil(folder, "components.yaml", "{gas: 0.35, heat: 0.2,", "{gas: 0.25, heat: 0.2,")
    assert {line.split(":")[0] for line in lines_of(folder)} == {
        "tiers.yaml", "findings.yaml", "components.yaml",
    }  # fmt: skip


@pytest.mark.parametrize(
    ("content", "line"),
    [
        (None, "duties.yaml: there is no such file"),
        ("duties: [", "duties.yaml: while parsing a flow node"),
        ("- a list", "duties.yaml: the file does not hold a list of entries under a heading"),
        ("duties: []\nduties: []\n", "duties.yaml: line 2: 'duties' is written twice"),
        ("other: []\n", "duties.yaml: duties: there is no list under this heading"),
        ("duties: [word]\n", "duties.yaml: duties: an entry is not a list of fields"),
    ],
)
def test_a_file_that_is_no_catalogue_file_is_named(folder: Path, content: str | None, line: str) -> None:
    path = folder / "duties.yaml"
    path.unlink()
    if content is not None:
        path.write_text(content, encoding="utf-8")
    assert any(found.startswith(line) for found in lines_of(folder))


def test_a_name_with_a_nul_or_of_ten_thousand_letters_is_refused(folder: Path) -> None:
    spoil(folder, "components.yaml", "name: piston ring set", 'name: "piston\\0 ring"')
    spoil(folder, "tiers.yaml", "name: Refresh", "name: " + "R" * 10_000)
    lines = lines_of(folder)
    assert any(
        line == "components.yaml: rings: name: holds a character that can't be stored (NUL)" for line in lines
    )
    assert any(
        line.startswith("tiers.yaml: refresh: name: is 10000 letters long; 200 are allowed") for line in lines
    )
