"""The must list: what the rules demand, closed over everything it brings, each with its reason."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from catalogue.calc.said import say
from quotes.calc.scope.case import Case
from quotes.calc.scope.damage import looks
from quotes.calc.scope.implications import OPENS_THE_CASES, Graph, Node, Parents, chain, close
from quotes.calc.scope.rules import RULES, tier_changes
from quotes.calc.scope.rules.base import Must, ReasonCode


@dataclass(frozen=True)
class MustList:
    """The closed list. `seeds` are the rules' own demands; `parents` says what brought the rest."""

    seeds: Mapping[Node, Must]
    parents: Parents
    pieces: Mapping[str, int]
    """Pieces of machine work that the rules ask for."""
    fixed: frozenset[Node]
    """What holds whatever way in is taken in the end."""

    @property
    def nodes(self) -> frozenset[Node]:
        return frozenset(self.parents)


@dataclass(frozen=True, slots=True)
class Why:
    """Reason code, sentence, and the chain of names from the first cause."""

    code: ReasonCode
    sentence: str
    chain: tuple[str, ...]


def must_list(case: Case, graph: Graph, *, heed_leave: bool = True) -> MustList:
    """Everything that has to be done to this engine in this tier.

    What is to stay as it is is left out, unless `heed_leave` is off.
    """

    def wanted(must: Must) -> bool:
        return not (heed_leave and _is_left(case, must.node))

    demands = [must for rule in RULES for must in rule(case) if wanted(must)]
    found = _closed(case, graph, demands)
    if OPENS_THE_CASES in found.parents:
        demands += [must for must in tier_changes.once_open(case) if wanted(must)]
        found = _closed(case, graph, demands)
    seen = [must for must in looks(case.request, case.catalogue, graph, found.parents) if wanted(must)]
    return _closed(case, graph, [*demands, *seen]) if seen else found


def _is_left(case: Case, node: Node) -> bool:
    return node[0] in {"new", "done"} and node[1] in case.leave


def _closed(case: Case, graph: Graph, demands: Iterable[Must]) -> MustList:
    seeds: dict[Node, Must] = {}
    pieces: dict[str, int] = {}
    for must in demands:
        node = graph.settle(must.node)
        seeds.setdefault(node, must)
        if node[0] == "out":
            asked = case.catalogue.machine_work[node[1]].quantity if must.pieces is None else must.pieces
            pieces[node[1]] = max(pieces.get(node[1], 0), asked)
    fixed = frozenset(close(graph, seeds, ways_in=False))
    return MustList(seeds=seeds, parents=close(graph, seeds), pieces=pieces, fixed=fixed)


def why(case: Case, seeds: Mapping[Node, Must], parents: Parents, node: Node) -> Why:
    """Why a node is on a list that was closed from `seeds`."""
    if node in seeds:
        return Why(seeds[node].code, seeds[node].sentence, ())
    steps = chain(parents, node)
    names = tuple(name_of(case, step) for step in steps)
    before = steps[-2] if len(steps) > 1 else steps[-1]
    component = case.catalogue.components.get(node[1])
    if before[0] == "work" and node[0] == "new":
        single = component is not None and component.single_use == "yes"
        sentence = say("Always renewed once undone.")
        if single:
            sentence = say("Single-use: never refitted once disturbed.")
        return Why("single_use", sentence, names)
    giver = case.catalogue.components.get(before[1])
    if giver is not None and node[1] in giver.comes_with:
        return Why("comes_with", say("Comes with the {part}.", part=giver.name), names)
    return Why("companion", say("Goes with the {part}.", part=name_of(case, before)), names)


def name_of(case: Case, node: Node) -> str:
    """The word for a node: a component's, an operation's or a machine work's name."""
    kind, code = node
    if kind == "work":
        return case.catalogue.operations[code].name
    if kind == "out":
        return case.catalogue.machine_work[code].name
    return case.catalogue.components[code].name
