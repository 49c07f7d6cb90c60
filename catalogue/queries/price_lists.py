"""Reads of suppliers' price lists: what stands, at which rate, and which list was taken in last."""

from __future__ import annotations

from datetime import date

from catalogue.calc.price_list.rates import Rate, rate_on
from catalogue.calc.price_list.shown import written
from catalogue.calc.price_list.standing import Stands
from catalogue.models import Basis, ExchangeRate, ListedPart, ListedPrice, ListState, PriceList

COLUMNS = Stands._fields


def standing(supplier: str) -> dict[str, Stands]:
    """All that a supplier lists, by key: plain tuples in one query, for there may be 100,000s of them."""
    rows = ListedPart.objects.filter(supplier=supplier).order_by().values_list(*COLUMNS)
    return {row[0]: Stands._make(row) for row in rows.iterator(10_000)}


def own_currency() -> str:
    """What the catalogue's prices are in; empty before the first load."""
    return Basis.objects.values_list("currency", flat=True).first() or ""


def set_rate_for(currency: str, on: date) -> Rate | None:
    """The rate that the owner set for a day; None where none was set by then."""
    rows = ExchangeRate.objects.filter(currency=currency).values_list("currency", "day", "rate")
    return rate_on((Rate(*row) for row in rows), currency, on)


def last_in_force(supplier: str) -> PriceList | None:
    """The supplier's list that was taken in last and not undone."""
    return PriceList.objects.filter(supplier=supplier).in_force().told().first()


def to_take_in(most: int) -> list[PriceList]:
    """Lists that were checked, would change something and wait for the owner, the oldest first."""
    rows = PriceList.objects.filter(state=ListState.CHECKED).told().order_by("checked_at")
    return [row for row in rows[:most] if written(row.counts) or row.counts["held"]]


def before(price_list: PriceList) -> dict[str, tuple[int, Stands]]:
    """What the lists in force before said of each article of this one, with the key of the list.

    An article that is in none of them was new with this list. Asked list by list, the latest first, until
    nothing is wanted any more: a yearly list tells of nearly all.
    """
    wanted = set(ListedPrice.objects.filter(price_list=price_list).values_list("number_key", flat=True))
    older = PriceList.objects.filter(supplier=price_list.supplier_id).in_force().exclude(pk=price_list.pk)
    found: dict[str, tuple[int, Stands]] = {}
    for pk in older.values_list("pk", flat=True):
        if not wanted:
            break
        rows = ListedPrice.objects.filter(price_list=pk).order_by().values_list(*COLUMNS)
        for row in rows.iterator(10_000):
            if row[0] in wanted:
                wanted.remove(row[0])
                found[row[0]] = (pk, Stands._make(row))
    return found


def due(on: date) -> list[int]:
    """Lists that were agreed to and whose day has come, in the order of their days."""
    rows = PriceList.objects.filter(state=ListState.DUE, in_force_from__lte=on)
    return list(rows.order_by("in_force_from", "applied_at").values_list("pk", flat=True))
