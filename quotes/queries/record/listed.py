"""What suppliers list now against their lists in force: the last that tells of an article holds."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal

from django.db.models import Exists, F, OuterRef, Q, QuerySet, Value
from django.db.models.functions import Coalesce

from catalogue.models import ListedPart, ListedPrice, ListState
from catalogue.queries.price_lists import COLUMNS
from quotes.calc.record.fault import RecordFault, Stated, differing

NO_PRICE, NO_DAYS = Value(Decimal(-1)), Value(-1)
EMPTY_AS = {"list_price": NO_PRICE, "own_list_price": NO_PRICE, "lead_days": NO_DAYS}
"""What may be empty, and what stands for that where two are held together."""
Faults = tuple[RecordFault, ...]


def listed_parts() -> Iterator[Faults]:
    """The database looks for what differs; only that is read."""
    said = ListedPrice.objects.filter(price_list__state=ListState.IN_FORCE)
    strange = list(_strange(said))
    yield from (() for _ in range(ListedPart.objects.count() - len(strange)))
    for row in strange:
        yield tuple(_faults(row))
    lost = said.filter(~Exists(_listed_as(OuterRef("number_key"), OuterRef("price_list__supplier"))))
    for supplier, number in lost.order_by().values_list("price_list__supplier", "number").distinct():
        yield (RecordFault(f"Listed part {number} of {supplier}", "listed", "by a list in force", "nowhere"),)


def _strange(said: QuerySet[ListedPrice]) -> QuerySet[ListedPart]:
    """Parts that are not as their list said, or of which a later list said something else."""
    same = said.annotate(
        **{f"said_{name}": Coalesce(F(name), none) for name, none in EMPTY_AS.items()}
    ).filter(
        price_list=OuterRef("price_list"),
        price_list__supplier=OuterRef("supplier"),
        **{name: OuterRef(name) for name in COLUMNS if name not in EMPTY_AS},
        **{f"said_{name}": Coalesce(OuterRef(name), none) for name, none in EMPTY_AS.items()},
    )
    return ListedPart.objects.filter(~Exists(same) | Exists(_later(said)))


def _later(said: QuerySet[ListedPrice]) -> QuerySet[ListedPrice]:
    taken_in = OuterRef("price_list__applied_at")
    after = Q(price_list__applied_at__gt=taken_in) | Q(
        price_list__applied_at=taken_in, price_list__gt=OuterRef("price_list")
    )
    return said.filter(after, number_key=OuterRef("number_key"), price_list__supplier=OuterRef("supplier"))


def _listed_as(number_key: OuterRef, supplier: OuterRef) -> QuerySet[ListedPart]:
    return ListedPart.objects.filter(number_key=number_key, supplier=supplier)


def _faults(row: ListedPart) -> Iterator[RecordFault]:
    """How it differs from what the last list in force said of it."""
    document = f"Listed part {row.number} of {row.supplier_id}"
    said = ListedPrice.objects.filter(
        number_key=row.number_key, price_list__supplier=row.supplier_id, price_list__state=ListState.IN_FORCE
    )
    last = said.order_by("-price_list__applied_at", "-price_list_id").first()
    if last is None:
        yield RecordFault(document, "a list in force that says so", "one", "none")
        return
    yield from differing(document, Stated("the list that says so", last.price_list_id, row.price_list_id))
    stated = [Stated(name, getattr(last, name), getattr(row, name)) for name in COLUMNS]
    yield from differing(document, *stated)
