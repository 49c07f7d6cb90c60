"""From one damage to all that it brings: the chain of reasons, and companions that are looked at."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from catalogue.calc.engine import EngineCatalogue, Finding
from quotes.calc.ask.request import Observed, Request
from quotes.calc.compare import compare
from quotes.calc.scope.graph_of import graph_of
from quotes.calc.scope.must import must_list, why
from quotes.calc.scope.reason_chain import ReasonChain, possible_sources, reason_chains
from tests.calc.asked import asked, ran
from tests.calc.scope.rules.demands import case_of
from tests.calc.small import SHOP
from tests.cast import shipped

TYPES = ("single450", "twin650", "four600", "four1000")
JUMPS_OUT_OF_FOURTH = Observed(id="dogs_rounded", component="gear_4")


def seen_on(engine_type: str, *findings: Observed) -> Request:
    return asked(engine_type, ran(10), findings=findings)


def chains_of(request: Request, catalogue: EngineCatalogue) -> tuple[ReasonChain, ...]:
    return reason_chains(request, catalogue, policy_parts=SHOP.renew_policy_parts)


def every_finding(catalogue: EngineCatalogue) -> Iterator[tuple[Finding, Observed]]:
    """Each finding of the catalogue, on the last component that it may name where it has to name one."""
    for finding in catalogue.findings.values():
        if finding.counts_as(event=False):
            named = finding.any_of[-1] if finding.any_of and finding.component in finding.renew else None
            yield finding, Observed(id=finding.code, component=named)


@pytest.mark.parametrize("engine_type", TYPES)
def test_rounded_dogs_bring_fork_drum_selector_open_cases_and_the_oils_way(engine_type: str) -> None:
    """Common practice, no source."""
    (chain,) = chains_of(seen_on(engine_type, JUMPS_OUT_OF_FOURTH), shipped(engine_type))
    assert chain.text == (
        "gear pair 4 with dogs, rounded dogs, jumps out of gear"
        " → its shift forks (set of three), renew"
        " → shift drum, look"
        " → selector shaft, ratchet, detent arm and spring, renew, cases open"
        " → metal in the oil: oil pump, look; galleries, wash; oil filter and engine oil, renew"
    )
    assert chain.also_text == "Besides: gearbox circlips and washers (set), renew; gearbox bearings, look."


def test_what_lies_behind_more_than_the_job_opens_is_named_and_not_included() -> None:
    request = seen_on("four600", Observed(id="leak_intake"))
    (chain,) = chains_of(request, shipped("four600"))
    assert "piston, to be looked at once it is opened that far" in chain.also_text
    case = case_of(request)
    assert ("work", "pistons_out") not in must_list(case, graph_of(case)).nodes


def test_an_option_says_what_it_does_not_look_at() -> None:
    request = asked("single450", ran(10, "h", "motocross"), amount=25, unit="h", duty="motocross")
    damaged = request.model_copy(update={"findings": (Observed(id="leak_intake"),), "tiers": ("refresh",)})
    option = compare(damaged, shipped("single450"), SHOP).option("refresh")
    said = [note for note in option.notes if note.startswith("For the intake valve, found damaged")]
    assert len(said) == 1
    assert said[0].endswith("does not open the engine that far: connecting rod.")


def test_a_companion_that_is_looked_at_says_which_damage_asks_for_it() -> None:
    case = case_of(seen_on("single450", Observed(id="piston_scuffed")))
    musts = must_list(case, graph_of(case))
    found = why(case, musts.seeds, musts.parents, ("work", "head_flat_check"))
    assert (found.code, found.sentence) == ("companion", "As piston: found damaged.")


@pytest.mark.parametrize("engine_type", TYPES)
def test_every_companion_of_every_damage_stands_in_its_chain(engine_type: str) -> None:
    catalogue = shipped(engine_type)
    for finding, seen in every_finding(catalogue):
        (chain,) = chains_of(seen_on(engine_type, seen), catalogue)
        told = {link.component for link in (*chain.links, *chain.also)}
        told |= {c for c in catalogue.components if catalogue.components[c].name in chain.oil}
        damaged = seen.component or finding.component or ""
        expected = {c for c in finding.renew if c in catalogue.components and c != finding.component}
        if damaged in finding.renew or seen.component:
            expected |= {
                c for c in catalogue.components[damaged].companions_on_damage if c in catalogue.components
            }
        assert expected - {damaged} <= told, (finding.code, expected - told)


@pytest.mark.parametrize("engine_type", TYPES)
def test_whatever_a_chain_calls_renewed_or_looked_at_is_on_the_must_list(engine_type: str) -> None:
    catalogue = shipped(engine_type)
    for finding, seen in every_finding(catalogue):
        request = seen_on(engine_type, seen)
        (chain,) = chains_of(request, catalogue)
        case = case_of(request)
        nodes = must_list(case, graph_of(case)).nodes
        for link in (*chain.links, *chain.also):
            looked_at_by = catalogue.components[link.component].inspection_operations
            if link.does == "renew":
                assert ("new", link.component) in nodes, (finding.code, link)
            elif link.does == "look":
                assert all(("work", o) in nodes for o in looked_at_by), (finding.code, link)


@pytest.mark.parametrize(
    ("finding", "first", "never"),
    [
        ("metal_magnetic", "gear_1", "piston"),
        ("metal_shell", "crankshaft", "gear_1"),
        ("metal_aluminium", "piston", "rod_bearing"),
        ("metal_in_filter", "rod_bearing", "oil_filter"),
    ],
)
def test_metal_points_to_where_it_may_come_from_by_its_look(finding: str, first: str, never: str) -> None:
    """A magnet picks up gears and cams, not shells or pistons: common practice, no source."""
    catalogue = shipped("four600")
    sources = [each.component for each in possible_sources(catalogue.findings[finding], catalogue)]
    assert sources[0] == first
    assert never not in sources


def test_metal_whose_source_is_not_known_calls_no_part_damaged() -> None:
    catalogue = shipped("four600")
    (chain,) = chains_of(seen_on("four600", Observed(id="metal_aluminium")), catalogue)
    assert chain.links == ()
    assert chain.text.startswith("bright flakes, not magnetic, light → ")
