"""One option laid out as the worked sheet shows it: the sum, the lines by section, what is left."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from decimal import Decimal
from typing import Literal

from catalogue.calc.money import ZERO, round_half_up
from catalogue.calc.said import say, to_say
from catalogue.queries import engine_catalogue
from quotes.calc.ask.request import Edits, Refusal, Request
from quotes.calc.sheet.line_values import Kind, Line, Reason
from quotes.calc.sheet.sentences import honesty
from quotes.calc.sheet.values import Comparison, Option
from quotes.documents.causes import where_it_goes
from quotes.documents.figures import Figures
from quotes.documents.lives import life_used
from quotes.documents.money_figure import MoneyFigure, money_figure
from quotes.documents.reasons import tells
from quotes.documents.steps_table import StepRow, steps_table
from quotes.forms.edits import edits_of
from quotes.queries.listed_line import bought_of
from quotes.views.worksheet.gives import Gives, what_it_gives, what_leaving_gives
from quotes.views.worksheet.own_lines import own_index_of

SECTIONS: tuple[tuple[Kind, str], ...] = (
    ("labour", to_say("Strip and rebuild")),
    ("part", to_say("Parts")),
    ("machine_work", to_say("Machine work sent out")),
    ("consumables", to_say("Consumables")),
    ("discount", to_say("Discount")),
)
Hold = Literal["free", "signed", "never", "none"]


@dataclass(frozen=True, slots=True)
class LineRow:
    """A line with what the desk may do to it.

    `hold`: free to take out; only with a signed refusal; never; or there is nothing to take out.
    """

    line: Line
    hold: Hold
    own_index: int | None = None
    bought: str = ""
    """Of whom a line of our own is bought, and by which number."""


@dataclass(frozen=True, slots=True)
class Section:
    """The lines of one kind, with their sum."""

    kind: Kind
    name: str
    net: Decimal
    rows: tuple[LineRow, ...]


@dataclass(frozen=True, slots=True)
class WithinRow:
    """A component that is put right or comes along without a line of its own."""

    reason: Reason
    hold: Hold
    how: str


@dataclass(frozen=True, slots=True)
class LeftRow:
    """A component that is not renewed: what it may do, what taking it in costs, who signed for it.

    `cost` None: left by hand, and the sums say no more about it.
    """

    state: str
    component: str
    name: str
    sentence: str
    cost: Decimal | None = None
    refusal: Refusal | None = None
    far: bool = False
    """Far from worn: no risk that can be counted."""


@dataclass(frozen=True, slots=True)
class Margin:
    """What the bought lines bring over what they cost, for the owner's eyes. Labour has no cost here."""

    net: Decimal
    cost: Decimal

    @property
    def margin(self) -> Decimal:
        return self.net - self.cost

    @property
    def per_cent(self) -> Decimal:
        return round_half_up(self.margin / self.net * 100, 1) if self.net else ZERO


@dataclass(frozen=True, slots=True)
class WorkedSheet:
    """All that the page draws of one option."""

    option: Option
    edits: Edits
    sections: tuple[Section, ...]
    within: tuple[WithinRow, ...]
    if_needed: tuple[LineRow, ...]
    left: tuple[LeftRow, ...]
    money: MoneyFigure
    steps: tuple[StepRow, ...]
    lives: Figures | None
    """The engine as it came beside the option."""
    causes: Figures
    margin: Margin
    gives: tuple[Gives, ...]
    leaving: tuple[Gives, ...]
    """The same of the engine left as it is."""
    honesty: tuple[str, ...]

    @property
    def left_to_weigh(self) -> tuple[LeftRow, ...]:
        return tuple(row for row in self.left if not row.far)

    @property
    def left_far(self) -> tuple[LeftRow, ...]:
        return tuple(row for row in self.left if row.far)


def worked_sheet(
    comparison: Comparison,
    request: Request,
    tier: str,
    names: Mapping[str, str],
    *,
    refuses_unsafe: bool = False,
) -> WorkedSheet:
    """The worked sheet of one option. `names` are the catalogue's names of components.

    KeyError where the tier was not worked out.
    """
    option = comparison.option(tier)
    edits = edits_of(request, tier)
    return WorkedSheet(
        option=option,
        edits=edits,
        sections=tuple(_sections(option, edits, refuses_unsafe)),
        within=tuple(_within(option, refuses_unsafe)),
        if_needed=tuple(_own(line, edits) for line in option.if_needed),
        left=tuple(_left(option, request, names)),
        money=money_figure(comparison),
        steps=steps_table(option, comparison),
        lives=life_used((comparison.leave_it, option)),
        causes=where_it_goes((comparison.leave_it, option)),
        margin=margin_of(option.lines),
        gives=tuple(what_it_gives(option)),
        leaving=tuple(what_leaving_gives(comparison.leave_it)),
        honesty=honesty(comparison),
    )


def component_names(engine_type: str) -> dict[str, str]:
    """What the catalogue calls the components of an engine type, by code."""
    components = engine_catalogue(engine_type).components
    return {code: component.name for code, component in components.items()}


def hold_of(option: Option, component: str | None, *, refuses_unsafe: bool) -> Hold:
    """Whether a component that is in may be taken out: must lines and rider-safety ones need a signature."""
    if component is None:
        return "none"
    why: Reason | None = option.renewed.get(component) or option.reconditioned.get(component)
    if why is None:
        return "none"
    if why.rider_safety:
        return "never" if refuses_unsafe else "signed"
    return "signed" if why.state == "must" else "free"


def margin_of(lines: Iterable[Line]) -> Margin:
    """Net less cost over the lines whose cost is known."""
    bought = [line for line in lines if line.cost is not None]
    return Margin(
        net=sum((line.net for line in bought), ZERO), cost=sum((line.cost or ZERO for line in bought), ZERO)
    )


def _sections(option: Option, edits: Edits, refuses_unsafe: bool) -> Iterable[Section]:
    shown: set[str] = set()
    for kind, name in SECTIONS:
        rows: list[LineRow] = []
        for line in (each for each in option.lines if each.kind == kind):
            hold = hold_of(option, line.component, refuses_unsafe=refuses_unsafe)
            if line.component in shown:
                hold = "none"  # a component has one box, on its first line
            elif line.component:
                shown.add(line.component)
            index = own_index_of(line, edits)
            rows.append(LineRow(line, hold, index, _bought(index, edits)))
        if rows:
            yield Section(kind, say(name), sum((row.line.net for row in rows), ZERO), tuple(rows))


def _within(option: Option, refuses_unsafe: bool) -> Iterable[WithinRow]:
    """Reconditioned parts, and those that come with another: their price stands in other lines."""
    lined = {line.component for line in option.lines}
    for how, reasons in (
        (to_say("renewed"), option.renewed),
        (to_say("reconditioned"), option.reconditioned),
    ):
        for code, reason in reasons.items():
            if code not in lined:
                yield WithinRow(reason, hold_of(option, code, refuses_unsafe=refuses_unsafe), how)


def _own(line: Line, edits: Edits) -> LineRow:
    index = own_index_of(line, edits)
    return LineRow(line, "none", index, _bought(index, edits))


def _bought(index: int | None, edits: Edits) -> str:
    return "" if index is None else bought_of(edits.own_lines[index])


def _left(option: Option, request: Request, names: Mapping[str, str]) -> Iterable[LeftRow]:
    """What is offered, what is left, and what was left by hand and has no risk worked out."""
    signed = {refusal.component: refusal for refusal in request.refusals}
    for state, risks in ((to_say("offered"), option.offered), (to_say("left"), option.left)):
        for code, risk in risks.items():
            yield LeftRow(
                state,
                code,
                risk.name,
                risk.sentence,
                risk.cost_to_renew,
                signed.get(code),
                far=state == "left" and not tells(risk),
            )
    for code in edits_of(request, option.tier).leave:
        if code not in option.offered and code not in option.left:
            yield LeftRow("left", code, names.get(code, code), say("Left by hand."), None, signed.get(code))
