"""The price of a plan: its lines with low, typical and high, its sums, its taxes."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from decimal import Decimal
from functools import cached_property

from catalogue.calc.money import ZERO
from quotes.calc.money.by_hand import changed, own_line
from quotes.calc.money.lines import WORK_IN_WORDS, consumables_line, labour_line, machine_work_line, part_line
from quotes.calc.money.price import labour_rate, machine_work_unit_price
from quotes.calc.money.priced import Priced, tax_code_for
from quotes.calc.money.totals import Totals, totals, with_discount
from quotes.calc.scope.case import Case
from quotes.calc.scope.implications import Node
from quotes.calc.scope.plan import Plan
from quotes.calc.sheet.line_values import RenewalCost
from quotes.calc.shop import LineKind
from quotes.calc.work.work_set import hours_by_kind


class Pricing:
    """Prices of one case. Single prices are worked out once; a plan's are sums of them."""

    def __init__(self, case: Case) -> None:
        self.case = case
        self.shop = case.shop

    @cached_property
    def _articles(self) -> Mapping[str, Priced]:
        found: dict[str, Priced] = {}
        for code in self.case.catalogue.components:
            part = self.case.part(code)
            if part is not None:
                found[code] = self.case.priced.line(part, self.shop)
        return found

    def article(self, component: str) -> Decimal | None:
        """Net price of a full renewal's parts in the grade of this option; None where nothing is sold."""
        priced = self._articles.get(component)
        return None if priced is None else priced.net

    def piece(self, component: str) -> Decimal | None:
        """Net price of one unit of the part."""
        priced = self._articles.get(component)
        return None if priced is None else priced.unit_price

    def operation(self, code: str) -> Decimal:
        """Net price of a labour operation, not rounded."""
        operation = self.case.catalogue.operations[code]
        return operation.hours * labour_rate(operation.kind, self.shop)

    def machine_work_piece(self, code: str) -> Decimal:
        """Net price of one piece of a machine work."""
        return machine_work_unit_price(self.case.catalogue.machine_work[code].cost, self.shop)

    @cached_property
    def quick(self) -> Mapping[Node, float]:
        """Net price of a node by itself, to weigh it by: a full set, an operation, a whole machine work."""
        catalogue = self.case.catalogue
        prices: dict[Node, float] = {("new", c): float(p.net) for c, p in self._articles.items()}
        prices.update({("work", o): float(self.operation(o)) for o in catalogue.operations})
        for code, work in catalogue.machine_work.items():
            prices["out", code] = float(self.machine_work_piece(code)) * work.quantity
        return prices

    def taken_by(self, nodes: Collection[Node]) -> RenewalCost:
        """What nodes by themselves cost the shop, as `quick` prices them, and the hours that they take."""
        catalogue = self.case.catalogue
        works = [catalogue.machine_work[code] for kind, code in nodes if kind == "out"]
        operations = [catalogue.operations[code] for kind, code in nodes if kind == "work"]
        costs = [self._articles[c].cost for kind, c in nodes if kind == "new" and c in self._articles]
        return RenewalCost(
            parts=sum((cost for cost in costs if cost is not None), ZERO),
            machine_work=sum((machine_work_line(w, w.quantity, self.shop).cost or ZERO for w in works), ZERO),
            hours=sum((operation.hours for operation in operations), ZERO),
        )

    def lines(self, plan: Plan) -> tuple[Priced, ...]:
        """All lines: labour by kind of work, parts, machine work, consumables, own lines, discount."""
        lines = [*self._labour(plan.operations), *self._parts(plan), *self._machine_work(plan)]
        lines = [self._by_hand(line) for line in lines]
        own = [own_line(o, n, self.shop) for n, o in enumerate(self.case.edits.own_lines, 1) if o.included]
        consumables = consumables_line([*lines, *own], self.shop)
        lines += [self._by_hand(consumables)] if consumables is not None else []
        edits = self.case.edits
        return with_discount([*lines, *own], edits.discount_pct, edits.discount_reason, self.shop)

    def own_if_needed(self) -> tuple[Priced, ...]:
        """The desk's own lines that are priced and not included."""
        edits = self.case.edits
        return tuple(own_line(o, n, self.shop) for n, o in enumerate(edits.own_lines, 1) if not o.included)

    def _by_hand(self, line: Priced) -> Priced:
        change = self.case.edits.lines.get(line.key)
        return line if change is None else changed(line, change, self.shop)

    def _labour(self, operations: Iterable[str]) -> list[Priced]:
        hours = hours_by_kind(self.case.catalogue, operations)
        return [labour_line(kind, hours[kind], self.shop) for kind in WORK_IN_WORDS if hours.get(kind)]

    def _parts(self, plan: Plan) -> list[Priced]:
        found: list[Priced] = []
        for code in self.case.catalogue.components:
            part = self.case.part(code)
            if part is None:
                continue
            if code in plan.bought:
                found.append(self._articles[code])
            elif code in plan.singly:
                found.append(part_line(part, plan.singly[code], self.shop))
        return found

    def _machine_work(self, plan: Plan) -> list[Priced]:
        catalogue = self.case.catalogue
        return [
            machine_work_line(catalogue.machine_work[code], count, self.shop)
            for code, count in plan.machine_work.items()
        ]

    def totals(self, plan: Plan) -> Totals:
        """The sums of a plan with their tax, at the low, typical and high end of the band."""
        return totals(self.lines(plan), self.shop, firm=self.case.request.stripped)

    def gross(self, plan: Plan) -> Decimal:
        """The plan's price with tax, without the band."""
        return totals(self.lines(plan), self.shop, firm=True).gross.typical

    def tax_share(self, kind: LineKind) -> float:
        """Tax on a line of a kind, as a share of its net sum."""
        return float(self.shop.tax_codes[tax_code_for(kind, self.shop)].rate_pct) / 100.0

    def quick_gross(self, plan: Plan) -> float:
        """The plan's price with tax as the programme sees it: no consumables, rounding or hand."""
        parts = sum(self.quick.get(("new", code), 0.0) for code in plan.bought)
        parts += sum(float(self.piece(c) or 0) * count for c, count in plan.singly.items())
        work = sum(self.quick["work", code] for code in plan.operations)
        out = sum(float(self.machine_work_piece(m)) * count for m, count in plan.machine_work.items())
        return (
            parts * (1.0 + self.tax_share("part"))
            + work * (1.0 + self.tax_share("labour"))
            + out * (1.0 + self.tax_share("machine_work"))
        )
