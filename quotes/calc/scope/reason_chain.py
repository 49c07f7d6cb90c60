"""From one damage to all that it brings: the chain of reasons, as it is told to a customer.

A chain follows the force: each link is a companion of damage of the link before it. What the finding brings
besides stands after it, and what the metal in the oil asks for is its last link.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from catalogue.calc.engine import EngineCatalogue, Finding
from catalogue.calc.said import say, to_say
from quotes.calc.ask.request import Observed, Request
from quotes.calc.bench.teardown.places import place_in_words
from quotes.calc.scope.damage import Companion, companions, damaged_by, looks
from quotes.calc.scope.implications import OPENS_THE_CASES, Graph, Parents, build_graph, close
from quotes.calc.scope.rules.finding_says import as_observed, demands_of, renewed_by, which_finding
from quotes.calc.sheet.words import listed

DOES = {
    "renew": to_say("{part}, renew"),
    "recondition": to_say("{part}, recondition"),
    "look": to_say("{part}, look"),
    "closed": to_say("{part}, to be looked at once it is opened that far"),
}
PUMP = ("oil_pump", "oil_relief")
OIL_PARTS = (*PUMP, "oil_filter", "engine_oil")
WASHED = "wash_bottom"


@dataclass(frozen=True, slots=True)
class ChainLink:
    """One step of a chain: a component, and what is done about it, a key of DOES."""

    component: str
    name: str
    does: str

    @property
    def text(self) -> str:
        return say(DOES[self.does], part=self.name)


@dataclass(frozen=True, slots=True)
class ReasonChain:
    """What one finding brings. `links` follow the force; `oil` is what it asks for in the oil's way."""

    finding: str
    cause: str
    links: tuple[ChainLink, ...]
    opens: str
    oil: str
    also: tuple[ChainLink, ...]

    @property
    def text(self) -> str:
        """The chain on one line: the damage, its links, how far the engine is opened, the oil."""
        steps = [link.text for link in self.links]
        if steps:
            steps[0] = say("its {link}", link=steps[0])
            steps[-1] = ", ".join(part for part in (steps[-1], self.opens) if part)
        elif self.opens:
            steps = [self.opens]
        return " → ".join([self.cause, *steps, *([self.oil] if self.oil else [])])

    @property
    def also_text(self) -> str:
        """What it brings besides, in one sentence; empty where there is nothing."""
        links = "; ".join(link.text for link in self.also)
        return say("Besides: {links}.", links=links) if links else ""


@dataclass(frozen=True, slots=True)
class PossibleSource:
    """A component that metal of one look may come from, and the operations that would show it."""

    component: str
    name: str
    looked_at_by: tuple[str, ...]


def reason_chains(
    request: Request, catalogue: EngineCatalogue, *, policy_parts: bool
) -> tuple[ReasonChain, ...]:
    """One chain for each finding of the request, in its order.

    `policy_parts`: the workshop renews what may be used again once, such as valve springs.
    """
    graph = build_graph(
        catalogue,
        in_chassis=request.engine.delivered == "in_chassis",
        policy_parts=policy_parts,
        mendable=frozenset(c for c, component in catalogue.components.items() if component.recondition),
    )
    seen = (as_observed(observed) for observed in request.findings)
    return tuple(_chain(each, request, catalogue, graph) for each in seen)


def possible_sources(finding: Finding, catalogue: EngineCatalogue) -> tuple[PossibleSource, ...]:
    """Where metal of this look may come from: what the finding names, else what its looks look at."""
    operations = [catalogue.operations[o] for o in finding.inspect_operations]
    seen = dict.fromkeys(c for operation in operations for c in operation.components)
    codes = finding.any_of or tuple(seen)
    return tuple(
        PossibleSource(
            code,
            catalogue.components[code].name,
            tuple(operation.name for operation in operations if code in operation.components),
        )
        for code in codes
        if code in catalogue.components and not catalogue.components[code].service_item
    )


def _chain(seen: Observed, request: Request, catalogue: EngineCatalogue, graph: Graph) -> ReasonChain:
    alone = request.model_copy(update={"findings": (seen,), "events": ()})
    finding = which_finding(seen, catalogue)
    held = _held(alone, catalogue, graph, seen)
    damaged = damaged_by(alone, catalogue)
    about = {each.component: each for each in companions(damaged, catalogue, graph, held)}
    renewed = [c for c in renewed_by(finding, seen) if c in catalogue.components and c not in damaged]
    oil = _oil(finding, renewed, about, held, catalogue)
    in_oil = OIL_PARTS if oil else ()
    line = _along_the_force(damaged, [c for c in about if c not in in_oil], catalogue)
    rest = [c for c in dict.fromkeys((*renewed, *about)) if c not in line and c not in in_oil]
    return ReasonChain(
        finding=finding.code,
        cause=_cause(finding, seen, damaged, catalogue),
        links=tuple(_links(line, about, catalogue)),
        opens=_opens(finding, held, catalogue),
        oil=oil,
        also=tuple(_links(rest, about, catalogue)),
    )


def _held(request: Request, catalogue: EngineCatalogue, graph: Graph, seen: Observed) -> Parents:
    """Everything that one finding brings, its companions looked at."""
    first = [must.node for must in demands_of(seen, request, catalogue)]
    held = close(graph, first)
    more = [must.node for must in looks(request, catalogue, graph, held)]
    return close(graph, [*first, *more]) if more else held


def _along_the_force(
    damaged: tuple[str, ...], candidates: list[str], catalogue: EngineCatalogue
) -> tuple[str, ...]:
    """Companions one after the other, each a companion of the one before."""
    line: list[str] = []
    at = damaged[0] if damaged else ""
    while at:
        onward = catalogue.components[at].companions_on_damage
        at = next((c for c in candidates if c in onward and c not in line), "")
        if at:
            line.append(at)
    return tuple(line)


def _links(
    codes: Iterable[str], about: Mapping[str, Companion], catalogue: EngineCatalogue
) -> Iterable[ChainLink]:
    for code in codes:
        does = about[code].does if code in about else "renew"
        yield ChainLink(code, catalogue.components[code].name, does)


def _cause(finding: Finding, seen: Observed, damaged: tuple[str, ...], catalogue: EngineCatalogue) -> str:
    where = [catalogue.components[code].name for code in damaged[:1]]
    return ", ".join([*where, *([place_in_words(seen.place)] if seen.place else []), finding.name])


def _opens(finding: Finding, held: Parents, catalogue: EngineCatalogue) -> str:
    if OPENS_THE_CASES in held:
        return say("cases open")
    if not finding.opens:
        return ""
    return say("opened to “{operation}”", operation=catalogue.operations[finding.opens].name)


def _oil(
    finding: Finding,
    renewed: list[str],
    about: Mapping[str, Companion],
    held: Parents,
    catalogue: EngineCatalogue,
) -> str:
    """What the oil's way asks for, where the finding changes the oil: pump, galleries, filter and oil."""
    if "engine_oil" not in renewed:
        return ""
    concerned = [c for c in OIL_PARTS if c in catalogue.components and (c in renewed or c in about)]
    if "oil_pump_inspect" in finding.inspect_operations and "oil_pump" not in concerned:
        concerned.insert(0, "oil_pump")
    new = [c for c in concerned if ("new", c) in held]
    pump = [catalogue.components[c].name for c in new if c in PUMP]
    looked_at = [catalogue.components[c].name for c in concerned if c in PUMP and c not in new]
    fluids = [catalogue.components[c].name for c in new if c not in PUMP]
    metal = WASHED in finding.inspect_operations
    steps = (
        say(DOES["renew"], part=listed(pump)) if pump else "",
        say(DOES["look"], part=listed(looked_at)) if looked_at else "",
        say("galleries, wash") if metal else "",
        say(DOES["renew"], part=listed(fluids)),
    )
    told = "; ".join(step for step in steps if step)
    return say("metal in the oil: {steps}", steps=told) if metal else say("in the oil: {steps}", steps=told)
