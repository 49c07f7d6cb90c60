"""Lives and factors that the owner changed: each change begins where the one before it ended."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from catalogue.models import LifeChange
from quotes.calc.record.fault import RecordFault, Stated, differing
from quotes.models import ShopFactorChange, Workshop

FIGURES = ("low", "typical", "high", "shape", "evidence")


def changed_lives() -> Iterator[tuple[RecordFault, ...]]:
    """A change says what was; so did the one that it rests on, and one taken back says it the other way."""
    for row in LifeChange.objects.select_related("rests_on", "takes_back").order_by("pk").iterator(200):
        of = f" of {row.engine_type}" if row.engine_type else ""
        document = f"Change {row.pk} of the life of {row.component}{of} on {row.basis}"
        stated = []
        if row.rests_on is not None:
            stated.append(Stated("life before it", _figures(row.rests_on), row.was))
        if (back := row.takes_back) is not None:
            stated.append(Stated("life put back", back.was, _figures(row)))
            stated.append(Stated("life taken back", _figures(back), row.was))
        yield tuple(differing(document, *stated))


def _figures(row: LifeChange) -> dict[str, Any]:
    return {name: getattr(row, name) for name in FIGURES}


def changed_factors() -> Iterator[tuple[RecordFault, ...]]:
    """From the first change on, every factor was set by one: the workshop's is that of the last."""
    stands = None
    for pk, before, after in ShopFactorChange.objects.order_by("pk").values_list("pk", "before", "after"):
        document = f"Change {pk} of the factor"
        begins = Stated("factor before it", before if stands is None else stands, before)
        yield tuple(differing(document, begins))
        stands = after
    workshop = Workshop.objects.values_list("shop_factor", flat=True).first()
    if stands is not None and (found := tuple(differing("Workshop", Stated("factor", stands, workshop)))):
        yield found
