"""The pick list: every article that an accepted build takes, worked out from what was accepted.

Each is tied by key to the accepted line that pays for it. An extra ticked at the yes is one line at one price
and several articles: the part, and all that it brings.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from decimal import Decimal

from catalogue.calc.engine import EngineCatalogue, Grade, Part
from catalogue.calc.money import ZERO
from catalogue.calc.said import say
from quotes.calc.invoice.draft import DraftLine
from quotes.calc.invoice.from_yes import ExtraLines
from quotes.calc.money.lines import in_grade
from quotes.calc.scope.implications import Graph, build_graph, close
from quotes.calc.sheet.line_values import Line
from quotes.calc.sheet.values import Option
from quotes.calc.work.bought import to_buy
from quotes.calc.work.work_set import operation_of


@dataclass(frozen=True, slots=True)
class Pick:
    """One article for one build. Cost of one before tax as it was quoted; None where the quote names none."""

    key: str
    component: str
    description: str
    quantity: Decimal
    unit: str
    part: Part | None
    quoted_cost: Decimal | None = None
    because: str = ""

    @property
    def why_this_one(self) -> str:
        """Why this one of several, where the line names which: a grade of oil."""
        named = self.part is not None and self.description.startswith(in_grade(self.part.name, ""))
        return self.because if named else ""


@dataclass(frozen=True, slots=True)
class AgreedWork:
    """What was agreed: the option, components of the extras ticked, and extra work accepted or within."""

    option: Option
    ticked: tuple[str, ...] = ()
    extra_work: tuple[ExtraLines, ...] = ()
    in_chassis: bool = False
    policy_parts: bool = False
    articles: Mapping[str, Part] = field(default_factory=dict)
    """What lines written by hand take of what suppliers list, by the key of the line."""


def pick_list(
    agreed: AgreedWork, catalogue: EngineCatalogue, *, own_parts: Mapping[str, Decimal] | None = None
) -> tuple[Pick, ...]:
    """All articles to be picked or ordered, less what was taken off again and what the customer brings.

    An option that names components the catalogue no longer has still gives their lines, without an article.
    """
    picks = [_of_line(line, agreed, catalogue) for line in agreed.option.lines if line.kind == "part"]
    picks += _of_extras(agreed, catalogue, {pick.component for pick in picks})
    picks += _of_extra_work(agreed, catalogue)
    left = _less(picks, _taken_off(agreed.extra_work))
    left = _brought_along(left, own_parts or {})
    return tuple(pick for pick in left if pick.quantity > ZERO)


def part_for(component: str, option: Option, catalogue: EngineCatalogue, words: str = "") -> Part | None:
    """The article of a component: the one that the line names, else the grade that its tune asks for."""
    return part_named(component, option.tune, catalogue, words)


def part_named(component: str, tune: str, catalogue: EngineCatalogue, words: str) -> Part | None:
    """The same by the option's tune alone."""
    grades: tuple[Grade, ...] = ("performance", "stock")
    known = [catalogue.parts[component, one] for one in grades if (component, one) in catalogue.parts]
    named = [part for part in known if words == part.name or words.startswith(in_grade(part.name, ""))]
    longest = max((len(part.name) for part in named), default=0)
    if len(fitting := [part for part in named if len(part.name) == longest]) == 1:
        return fitting[0]
    tier = catalogue.tiers.get(tune)
    fast = tier is not None and component in tier.performance_grade
    wanted: Grade = "performance" if fast else "stock"
    return catalogue.parts.get((component, wanted)) or catalogue.parts.get((component, "stock"))


def _of_line(line: Line, agreed: AgreedWork, catalogue: EngineCatalogue) -> Pick:
    component = line.component or line.code
    catalogued = part_for(component, agreed.option, catalogue, line.description)
    return Pick(
        key=f"option:{line.key}",
        component=component,
        description=line.description,
        quantity=line.quantity,
        unit=line.unit,
        part=agreed.articles.get(line.key, catalogued),
        quoted_cost=line.cost / line.quantity if line.cost is not None and line.quantity else None,
        because=line.reason,
    )


def _of_extras(agreed: AgreedWork, catalogue: EngineCatalogue, held: Collection[str]) -> list[Pick]:
    """The articles of the extras that the option does not hold already, each under the extra's key."""
    ticked_parts = [code for code in dict.fromkeys(agreed.ticked) if code in catalogue.components]
    if not ticked_parts:
        return []
    found: dict[str, Pick] = {}
    graph = _graph(agreed, catalogue)
    before = operations_of(agreed.option, catalogue)
    for ticked in ticked_parts:
        for component, quantity in _brought(ticked, graph, catalogue, before).items():
            part = part_for(component, agreed.option, catalogue)
            if component in held or component in found or part is None:
                continue
            found[component] = Pick(
                key=f"extra:{ticked}:1",
                component=component,
                description=part.name,
                quantity=Decimal(part.quantity if quantity is None else quantity),
                unit=part.unit,
                part=part,
                because=say("Ticked at the yes: {name}.", name=catalogue.components[ticked].name),
            )
    return list(found.values())


def _graph(agreed: AgreedWork, catalogue: EngineCatalogue) -> Graph:
    mendable = frozenset(code for code, one in catalogue.components.items() if one.recondition)
    return build_graph(
        catalogue, in_chassis=agreed.in_chassis, policy_parts=agreed.policy_parts, mendable=mendable
    )


def operations_of(option: Option, catalogue: EngineCatalogue) -> frozenset[str]:
    return frozenset(option.operations) & catalogue.operations.keys()


def _brought(
    component: str, graph: Graph, catalogue: EngineCatalogue, before: frozenset[str]
) -> dict[str, int | None]:
    """What renewing a component takes beside the option's work: full sets, and single pieces."""
    seeds = [("new", component), *(("work", code) for code in sorted(before))]
    closed = close(graph, seeds)  # type: ignore[arg-type]
    renewed = [code for kind, code in closed if kind == "new"]
    pieces: dict[str, int | None] = {}
    for code in sorted({code for kind, code in closed if kind == "work"} - before):
        for use in operation_of(catalogue, code).consumes:
            if use.quantity is not None and use.rule == "always":
                pieces[use.component] = (pieces.get(use.component) or 0) + use.quantity
    return to_buy(catalogue, renewed, pieces)


def _of_extra_work(agreed: AgreedWork, catalogue: EngineCatalogue) -> Iterable[Pick]:
    for key, line in _part_lines(agreed.extra_work):
        if line.quantity > ZERO:
            listed = agreed.articles.get(key)
            part = listed or _catalogued(key, line, agreed, catalogue)
            yield Pick(
                key=key,
                component=line.component or (listed.component if listed else ""),
                description=line.description,
                quantity=line.quantity,
                unit=line.unit,
                part=part,
                quoted_cost=line.cost if listed or part is None else part.cost,
                because=say("Extra work."),
            )


def _catalogued(key: str, line: DraftLine, agreed: AgreedWork, catalogue: EngineCatalogue) -> Part | None:
    part = part_for(line.component or "", agreed.option, catalogue, line.description)
    if _replaces(key, line, agreed.extra_work) and part and part.name != line.description:
        return None  # Another article than the catalogue's: its substitute knows how it is bought.
    return part


def _replaces(key: str, line: DraftLine, extra_work: Sequence[ExtraLines]) -> bool:
    """Whether the same extra work takes the component's old article off."""
    same = (other for at, other in _part_lines(extra_work) if at.rpartition(":")[0] == key.rpartition(":")[0])
    return any(other.quantity < ZERO and other.component == line.component for other in same)


def _part_lines(extra_work: Sequence[ExtraLines]) -> Iterable[tuple[str, DraftLine]]:
    for extra in extra_work:
        for number, line in enumerate(extra.lines, start=1):
            if line.kind == "part":
                yield f"work:{extra.index}:{number}", line


def _taken_off(extra_work: Sequence[ExtraLines]) -> list[DraftLine]:
    return [line for _, line in _part_lines(extra_work) if line.quantity < ZERO]


def _brought_along(picks: Sequence[Pick], own_parts: Mapping[str, Decimal]) -> list[Pick]:
    """The picks without the pieces that the customer brings."""
    rest = dict(own_parts)
    left = []
    for pick in picks:
        off = min(rest.get(pick.component, ZERO), pick.quantity)
        rest[pick.component] = rest.get(pick.component, ZERO) - off
        left.append(replace(pick, quantity=pick.quantity - off))
    return left


def _less(picks: Sequence[Pick], taken_off: Iterable[DraftLine]) -> list[Pick]:
    """The picks with what extra work took off again: the same words first, then the same component."""
    left = list(picks)
    for line in taken_off:
        rest = -line.quantity
        for number in sorted(range(len(left)), key=lambda n: left[n].description != line.description):
            pick = left[number]
            same = pick.component == line.component if line.component else False
            if rest and (same or pick.description == line.description):
                off = min(rest, pick.quantity)
                left[number] = replace(pick, quantity=pick.quantity - off)
                rest -= off
    return left
