"""What may be ordered for the builds in hand, put together by supplier."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from catalogue.calc.money import ZERO
from quotes.calc.bench.parts.needs import Need
from quotes.calc.bench.parts.packing import Article, Want, by_supplier
from quotes.models import Workshop
from quotes.queries.accepted import accepted_options
from quotes.queries.bench.parts.wanted import BuildParts, builds_to_order, open_builds, parts_of
from quotes.queries.workshop import closed_days


@dataclass(frozen=True, slots=True)
class ToOrder:
    """One article that may be ordered: its wants over the builds, and what it comes to."""

    article: Article
    needs: tuple[tuple[BuildParts, Need], ...]
    cost: Decimal

    @property
    def sum(self) -> Decimal:
        return self.article.quantity * self.cost


@dataclass(frozen=True, slots=True)
class DraftOrder:
    """What may be ordered of one supplier, with the last day to do it."""

    supplier: str
    name: str
    order_by: date | None
    rows: tuple[ToOrder, ...]

    @property
    def net(self) -> Decimal:
        return sum((row.sum for row in self.rows), ZERO)


def drafts(on: date, parts: Iterable[BuildParts] | None = None) -> list[DraftOrder]:
    """All that may be ordered for the builds in hand, by supplier; the most urgent first."""
    builds = list(parts_of(list(open_builds()), on).values()) if parts is None else list(parts)
    known: dict[tuple[int, str, str], tuple[BuildParts, Need]] = {}
    wants = []
    for found in builds:
        for need in found.needs:
            if need.orderable and need.pick.part and need.offer:
                number = need.pick.part.number
                known[found.build.pk, need.pick.key, number] = (found, need)
                wants.append(
                    Want(found.build.pk, need.pick.key, number, need.to_order, need.offer, need.needed_on)
                )
    if not wants:
        return []
    merged = by_supplier(wants, closed_days(Workshop.objects.get_or_default(), on))
    made = [
        DraftOrder(
            one.supplier,
            one.supplier_name,
            one.order_by,
            tuple(
                ToOrder(
                    article,
                    tuple(known[want.build, want.key, want.part_number] for want in article.wants),
                    article.offer.cost,
                )
                for article in one.articles
            ),
        )
        for one in merged
    ]
    return sorted(made, key=lambda one: (one.order_by or date.max, one.name))


def drafts_due(on: date) -> list[DraftOrder]:
    """Those of them that must go out by that day. Of the builds no more is read than says so."""
    builds = list(builds_to_order())
    found = parts_of(builds, on, accepted_options(builds))
    return [one for one in drafts(on, found.values()) if one.order_by and one.order_by <= on]
