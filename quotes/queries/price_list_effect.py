"""What a checked price list would move: open quotes, builds whose parts are not ordered yet, and drafts."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from decimal import Decimal

from catalogue.calc.price_list.shown import offers_at
from catalogue.models import HeldPrice, PriceList
from catalogue.queries import current_rows
from quotes.calc.ask.fault import BadRequest
from quotes.calc.compare import compare
from quotes.calc.prices.effect import (
    DraftMoves,
    Effect,
    MarginMoves,
    Moves,
    PartMove,
    build_margin,
    largest_first,
    option_margin,
    sums_moved,
    with_moves,
)
from quotes.models import Quote
from quotes.queries.bench.parts.wanted import open_builds, parts_of
from quotes.queries.engines import known_catalogue
from quotes.queries.sheets import request_of
from quotes.queries.workshop import shop_rules

DRAFTS = 5
"""So many drafts are worked out twice, the ones worked on last: each takes a second."""


def effect_of(price_list: PriceList, on: date, *, drafts: bool = True) -> Effect:
    """What the list moves with the yes that is there, as of that day."""
    moves = moves_of(price_list)
    if not moves:
        return Effect()
    found, left = _drafts(moves, on) if drafts else ((), 0)
    return Effect(
        quotes=tuple(largest_first(_quotes(moves, on))),
        builds=tuple(largest_first(_builds(moves, on))),
        drafts=found,
        drafts_left=left,
    )


def moves_of(price_list: PriceList) -> Moves:
    """Parts that the sums would take at another cost or list price, by number."""
    said = HeldPrice.objects.filter(price_list=price_list).exclude(yes_at=None)
    yes = set(said.values_list("number_key", flat=True))
    parts = {part.number: part for part in current_rows().parts}
    return {
        one.part: PartMove(
            number=one.part,
            engine_type=parts[one.part].engine_type,
            component=parts[one.part].component,
            grade=parts[one.part].grade,
            cost_was=Decimal(one.cost_was),
            cost=Decimal(one.cost),
            list_price=Decimal(one.list_price),
        )
        for one in offers_at(price_list.found, yes)
        if one.preferred and one.part in parts and (one.cost, one.list_price) != (one.cost_was, one.list_was)
    }


def _types(moves: Moves) -> set[str]:
    return {move.engine_type for move in moves.values()}


def _quotes(moves: Moves, on: date) -> Iterator[MarginMoves]:
    """Options of quotes that are issued and may still be said yes to."""
    rows = Quote.objects.open().filter(latest__valid_until__gte=on, engine__type_code__in=_types(moves))
    told = rows.values_list(
        "pk", "number", "customer__name", "engine__type_code", "latest__sheet__comparison__options"
    )
    for pk, number, customer, code, options in told.iterator(100):
        catalogue = known_catalogue(code)
        for option in options:
            margins = option_margin(option, catalogue, moves) if catalogue else None
            if margins is not None:
                yield MarginMoves(pk, number or "", customer, option["name"], *margins)


def _builds(moves: Moves, on: date) -> Iterator[MarginMoves]:
    """Builds in hand, as far as their parts are still to be ordered."""
    builds = list(open_builds().filter(quote__engine__type_code__in=_types(moves)))
    for build in parts_of(builds, on).values():
        moved = build_margin(build.agreed.option, build.needs, moves)
        if moved is not None:
            before, after, articles = moved
            quote = build.build.quote
            yield MarginMoves(build.build.pk, quote.title, quote.customer.name, str(articles), before, after)


def _drafts(moves: Moves, on: date) -> tuple[tuple[DraftMoves, ...], int]:
    """Drafts worked out as the catalogue is and as it would be, and how many were not."""
    rows = Quote.objects.open().filter(latest=None, engine__type_code__in=_types(moves))
    found = []
    for quote in rows.select_related("customer", "engine").order_by("-edited_at", "-pk")[:DRAFTS]:
        request = request_of(quote).model_copy(update={"on": on})
        catalogue, shop = known_catalogue(request.engine.type), shop_rules(on)
        if catalogue is None:
            continue
        try:
            before = compare(request, catalogue, shop)
            after = compare(request, with_moves(catalogue, moves), shop)
        except BadRequest:
            continue
        if sums := sums_moved(before, after):
            found.append(DraftMoves(quote.pk, quote.title, quote.customer.name, sums))
    return tuple(found), max(rows.count() - DRAFTS, 0)
