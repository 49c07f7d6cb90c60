"""What a quote's own lines take of what suppliers list: as articles to be picked, and how they are bought."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from decimal import Decimal

from django.db.models import Q

from catalogue.calc.engine import LeadTime, Part
from catalogue.calc.money import round_half_up
from catalogue.calc.price_list.listed import number_key
from catalogue.models import ListedPart
from catalogue.queries import current_rows
from quotes.calc.ask.request import OwnLine
from quotes.calc.bench.parts.packing import AT_ONCE, Offered
from quotes.models import Acceptance


def bought_lines(build: Acceptance) -> Iterator[tuple[str, OwnLine]]:
    """The own lines of the accepted option that say of whom they are bought, by the key of the line."""
    lines = build.revision.request.get("edits", {}).get(build.tier, {}).get("own_lines", ())
    for place, one in enumerate(lines, start=1):
        if one["kind"] == "part" and one.get("supplier") and one.get("number"):
            yield f"part:own-{place}", OwnLine.model_validate(one)


def own_articles(build: Acceptance) -> dict[str, Part]:
    """The articles of these lines, each as if it stood in the catalogue."""
    return {
        key: Part(
            number=one.number,
            component=key.partition(":")[2],
            grade="stock",
            name=one.description,
            unit=one.unit,
            quantity=1,
            cost=one.cost or Decimal(0),
            list_price=one.unit_price,
            range_low=Decimal(1),
            range_high=Decimal(1),
            lead=slowest(one.supplier),
            supplier=one.supplier,
        )
        for key, one in bought_lines(build)
    }


def listed_offers(builds: Iterable[Acceptance]) -> dict[str, Offered]:
    """How the articles of own lines are bought, by number: as listed now, else as it was typed."""
    lines = [one for build in builds for _, one in bought_lines(build)]
    if not lines:
        return {}
    names = {row.code: row.name for row in current_rows().suppliers}
    wanted = Q(pk__in=())
    for one in lines:
        wanted |= Q(supplier=one.supplier, number_key=number_key(one.number))
    listed = {(row.supplier_id, row.number_key): row for row in ListedPart.objects.filter(wanted, gone=False)}
    return {
        one.number: _offered(one, names, listed.get((one.supplier, number_key(one.number)))) for one in lines
    }


def _offered(one: OwnLine, names: dict[str, str], row: ListedPart | None) -> Offered:
    name, lead = names.get(one.supplier, one.supplier), slowest(one.supplier)
    if row is None:
        return Offered(one.supplier, name, one.cost or Decimal(0), lead=lead)
    if row.lead_days is not None:
        lead = LeadTime(float(row.lead_days), float(row.lead_days))
    return Offered(one.supplier, name, round_half_up(row.own_cost), row.pack, lead=lead)


def slowest(supplier: str) -> LeadTime:
    """As long as anything takes that the catalogue has of a supplier: for what no list says it of."""
    offers = [offer for part in current_rows().parts for offer in part.offers if offer.supplier == supplier]
    return max(
        (LeadTime(offer.lead_typical_days, offer.lead_slow_days) for offer in offers),
        key=lambda lead: lead.slow_days,
        default=AT_ONCE,
    )
