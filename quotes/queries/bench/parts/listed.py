"""What lines written by hand take of what suppliers list: articles to be picked, and how they are bought."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping
from decimal import Decimal
from typing import Any

from django.db.models import Q

from catalogue.calc.engine import LeadTime, Part
from catalogue.calc.money import round_half_up
from catalogue.calc.price_list.listed import number_key
from catalogue.models import ListedPart
from catalogue.queries import current_rows
from quotes.calc.ask.request import Bought, OwnLine
from quotes.calc.bench.parts.packing import AT_ONCE, Offered, SoldAs
from quotes.calc.invoice.draft import DraftLine
from quotes.models import Acceptance, ExtraWork


def bought_lines(build: Acceptance, extra: Iterable[ExtraWork]) -> Iterator[tuple[str, OwnLine | DraftLine]]:
    """Lines of the accepted option and of extra work that say of whom they are bought, by key."""
    own = build.revision.request.get("edits", {}).get(build.tier, {}).get("own_lines", ())
    for place, one in enumerate(own, start=1):
        if _is_bought(one):
            yield f"part:own-{place}", OwnLine.model_validate(one)
    for work in extra:
        for number, one in enumerate(work.lines, start=1):
            if _is_bought(one):
                yield f"work:{work.index}:{number}", DraftLine.model_validate(one)


def _is_bought(line: Mapping[str, Any]) -> bool:
    return bool(line["kind"] == "part" and line.get("supplier") and line.get("number"))


def listed_articles(build: Acceptance, extra: Iterable[ExtraWork]) -> dict[str, Part]:
    """The articles of these lines, each as if it stood in the catalogue."""
    lines = list(bought_lines(build, extra))
    names = _names() if lines else {}
    return {
        key: Part(
            number=one.number,
            component=key.removeprefix("part:").replace(":", "-"),
            grade="stock",
            name=one.description,
            unit=one.unit,
            quantity=1,
            cost=one.cost or Decimal(0),
            list_price=one.unit_price,
            range_low=Decimal(1),
            range_high=Decimal(1),
            lead=slowest(one.supplier),
            supplier=names.get(one.supplier, one.supplier),
        )
        for key, one in lines
    }


def listed_offers(lines: Collection[Bought]) -> dict[SoldAs, Offered]:
    """How the articles of such lines are bought: as listed now, else as it was typed."""
    if not lines:
        return {}
    names = _names()
    wanted = Q(pk__in=())
    for one in lines:
        wanted |= Q(supplier=one.supplier, number_key=number_key(one.number))
    listed = {(row.supplier_id, row.number_key): row for row in ListedPart.objects.filter(wanted, gone=False)}
    return {
        (names.get(one.supplier, one.supplier), one.number): _offered(
            one, names, listed.get((one.supplier, number_key(one.number)))
        )
        for one in lines
    }


def _names() -> dict[str, str]:
    """What each supplier is called."""
    return {row.code: row.name for row in current_rows().suppliers}


def _offered(one: Bought, names: dict[str, str], row: ListedPart | None) -> Offered:
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
