"""The lines of an option, each with why it is there, and those priced but not included."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal

from catalogue.calc.engine import Duty
from catalogue.calc.said import say, say_count
from quotes.calc.ask.request import Observed
from quotes.calc.money.lines import in_grade, machine_work_line, part_line
from quotes.calc.money.priced import Priced
from quotes.calc.scope.decide import Scope
from quotes.calc.scope.implications import Node
from quotes.calc.scope.must import why
from quotes.calc.scope.rules.finding_says import which_finding
from quotes.calc.sheet.line_values import Line
from quotes.calc.sheet.reasons import state_of, why_sent_out
from quotes.calc.sheet.unit_words import as_written

OIL = "engine_oil"
CRACK_TESTS = {"mpi_crank": "crankshaft", "mpi_rod": "con_rod"}
"""Machine work that may condemn what it looks at, and the component then renewed."""


def sheet_lines(scope: Scope) -> tuple[Line, ...]:
    """All lines of the option in their sections, with state and reason."""
    return tuple(_explained(scope, line) for line in scope.pricing.lines(scope.plan))


def _explained(scope: Scope, line: Priced) -> Line:
    if line.code.startswith("own-"):
        return line.line("worth it", "own", line.edited or say("Added by the workshop."))
    if line.kind == "part":
        return _part(scope, line)
    if line.kind == "machine_work":
        return line.line(*why_sent_out(scope, line.code))
    if line.kind == "labour":
        operations = scope.case.catalogue.operations
        count = sum(operations[o].kind == line.code for o in scope.plan.operations)
        return line.line("must", "work", say_count("{count} operation.", "{count} operations.", count))
    if line.kind == "discount":
        return line.line("worth it", "discount", scope.case.edits.discount_reason or say("Discount."))
    rule = scope.case.shop.consumables
    sentence = say(
        "{percent} % of work, at least {least}, at most {most}.",
        percent=as_written(rule.labour_pct),
        least=as_written(rule.least),
        most=as_written(rule.most),
    )
    return line.line("must", "consumables", sentence)


def _part(scope: Scope, line: Priced) -> Line:
    node: Node = ("new", line.component or line.code)
    if node not in scope.plan.parents:
        return line.line("must", "single_use", say("Single-use: never refitted once disturbed."))
    found = why(scope.case, scope.plan.seeds, scope.plan.parents, node)
    explained = line.line(state_of(scope, node), found.code, found.sentence)
    return _which_oil(explained, scope.case.duty) if line.code == OIL else explained


def _which_oil(line: Line, duty: Duty) -> Line:
    """The oil's line with the grade that this use takes, and why that one."""
    if not duty.oil:
        return line
    because = f"{line.reason} {duty.oil}: {duty.oil_why}." if duty.oil_why else line.reason
    return line.model_copy(update={"description": in_grade(line.description, duty.oil), "reason": because})


def if_needed_lines(scope: Scope) -> tuple[Line, ...]:
    """Priced and not included, until a measurement asks for it."""
    found = {line.key: line for line in (*_by_finding(scope), *_by_crack_test(scope))}
    own = (
        line.line("offered", "own", line.edited or say("If needed."))
        for line in scope.pricing.own_if_needed()
    )
    return (*found.values(), *own)


def _by_finding(scope: Scope) -> Iterator[Line]:
    catalogue, request = scope.case.catalogue, scope.case.request
    for observed in (*request.findings, *request.events):
        seen = observed if isinstance(observed, Observed) else Observed(id=observed)
        finding = which_finding(seen, catalogue)
        for code in finding.machine_work_if_needed:
            if code in catalogue.machine_work and code not in scope.plan.machine_work:
                work = catalogue.machine_work[code]
                line = machine_work_line(work, work.quantity, scope.case.shop)
                yield line.line(
                    "offered",
                    "if_needed",
                    say("If the measurement asks for it: {finding}.", finding=finding.name),
                )


def _by_crack_test(scope: Scope) -> Iterator[Line]:
    for test, component in CRACK_TESTS.items():
        part = scope.case.part(component)
        if test not in scope.plan.machine_work or component in scope.plan.new or part is None:
            continue
        name = scope.case.catalogue.components[component].name
        line = part_line(part, None, scope.case.shop)
        yield line.line("offered", "if_needed", say("If the {part} fails its crack test.", part=name))


def if_needed_sum(lines: tuple[Line, ...]) -> Decimal:
    """What the lines that are not included come to, net."""
    return sum((line.net for line in lines), Decimal(0))
