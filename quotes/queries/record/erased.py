"""Erased customers: what stands in each row now is what was left of it, and a file that went is gone."""

from __future__ import annotations

from collections.abc import Iterator

from django.apps import apps
from django.db.models import Count, Max

from quotes.calc.record.fault import RecordFault, Stated, differing
from quotes.models import ErasedRow, Erasure

AT_ONCE = 500
FILE = "storedfile"


def erased_rows() -> Iterator[tuple[RecordFault, ...]]:
    """Of each row the last erasure of it: an earlier one left what a later one took."""
    last = ErasedRow.objects.order_by().values("model", "row").annotate(last=Max("pk")).values("last")
    rows = ErasedRow.objects.filter(pk__in=last).order_by("pk")
    for one in rows.iterator(AT_ONCE):
        yield tuple(_faults(one))


def _faults(one: ErasedRow) -> Iterator[RecordFault]:
    if one.model != FILE and not one.new_sha256:
        return
    name = "sha256" if one.model == FILE else "sheet_sha256"
    manager = apps.get_model("quotes", one.model)._default_manager
    found = manager.filter(pk=one.row).values_list(name, flat=True).first()
    words = "erased file" if one.model == FILE else "erased sheet"
    stated = Stated(
        f"SHA-256 of its {words}", one.new_sha256 or "none, it is gone", found or "none, it is gone"
    )
    yield from differing(f"{one.model.capitalize()} {one.row}", stated)


def erasures_told() -> Iterator[str]:
    """A sentence for each erasure, for whoever looks the record through."""
    rows = Erasure.objects.annotate(changed=Count("rows")).order_by("pk")
    for pk, at, by, changed in rows.values_list("customer_id", "at", "by", "changed"):
        yield f"C-{pk} was erased on {at:%Y-%m-%d} by {by}: {changed} rows"
