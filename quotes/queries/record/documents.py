"""Every document that was frozen as a sheet: its fingerprint, its sums, and the columns taken from it."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Any

from django.apps import apps
from django.core.exceptions import FieldDoesNotExist
from django.db import models
from pydantic import ValidationError

from quotes.calc.invoice.values import InvoiceSheet
from quotes.calc.money.extras import accepted_gross
from quotes.calc.record.fault import RecordFault, Stated, differing
from quotes.calc.record.invoice_sums import invoice_sum_faults
from quotes.calc.record.kept_json import kept_fingerprint
from quotes.calc.record.quote_sums import quote_sum_faults
from quotes.calc.sheet.issued_values import Sheet
from quotes.models import Invoice, Revision

Row = dict[str, Any]
AT_ONCE = 20
"""Sheets in memory at one time: of quotes they are large."""
NAMED_BY: dict[str, tuple[str, ...]] = {
    "revision": ("quote__number", "index"),
    "findingsreport": ("job__number", "index"),
    "intakereceipt": ("job__number", "pk"),
    "teardownleave": ("job__number",),
    "assemblyrecord": ("job__number",),
}
"""What a document is called by, where it has no number of its own."""
COLUMNS: dict[str, tuple[str, ...]] = {
    "revision": (
        "pk",
        "quote_id",
        "quote__latest_id",
        "quote__stands_until",
        "valid_until",
        "gross_from",
        "gross_to",
        "acceptance__pk",
        "acceptance__quote_id",
        "acceptance__tier",
        "acceptance__extras",
        "acceptance__gross",
        "acceptance__sheet_sha256",
    ),
    "invoice": (
        *("number", "kind", "issued_on", "due_on", "currency", "net", "tax", "gross", "prepaid", "due"),
        "draft__issued_on",
    ),
}


def sheet_models() -> tuple[type[models.Model], ...]:
    """Every model that keeps a sheet with its fingerprint, found by its fields: none can be forgotten."""
    return tuple(model for model in apps.get_models() if _has(model, "sheet") and _has(model, "sheet_sha256"))


def issued_documents() -> Iterator[tuple[RecordFault, ...]]:
    for model in sheet_models():
        name = str(model._meta.model_name)
        called = NAMED_BY.get(name, ("number",))
        fields = ("sheet", "sheet_sha256", *called, *COLUMNS.get(name, ()))
        rows = model._default_manager.order_by("pk").values(*fields)
        for row in rows.iterator(chunk_size=AT_ONCE):
            words = "/".join(str(row[field]) for field in called)
            yield from _of_document(model, f"{str(model._meta.verbose_name).capitalize()} {words}", row)


def _has(model: type[models.Model], field: str) -> bool:
    try:
        model._meta.get_field(field)
    except FieldDoesNotExist:
        return False
    return True


def _of_document(model: type[models.Model], document: str, row: Row) -> Iterator[tuple[RecordFault, ...]]:
    print_of = Stated("SHA-256 of its sheet", row["sheet_sha256"], kept_fingerprint(row["sheet"]))
    faults = [*differing(document, print_of)]
    looks = LOOKS.get(model)
    if looks is None:
        yield tuple(faults)
        return
    try:
        faults += looks(document, row)
    except (ValidationError, KeyError) as error:
        faults.append(RecordFault(document, "its sheet", "sums that agree", _said(error)))
    yield tuple(faults)


def _of_invoice(document: str, row: Row) -> Iterator[RecordFault]:
    sheet = InvoiceSheet.model_validate(row["sheet"])
    yield from invoice_sum_faults(document, sheet)
    of_sheet = {name: getattr(sheet, name) for name in ("number", "kind", "issued_on", "due_on", "currency")}
    of_sheet |= {name: getattr(sheet.sums, name) for name in ("net", "tax", "gross", "prepaid", "due")}
    for name, stated in of_sheet.items():
        yield from differing(document, Stated(f"{name} in its row", stated, row[name]))
    yield from differing(document, Stated("day in its draft", sheet.issued_on, row["draft__issued_on"]))


def _of_revision(document: str, row: Row) -> Iterator[RecordFault]:
    sheet = Sheet.model_validate(row["sheet"])
    yield from quote_sum_faults(document, sheet.comparison)
    sums = [option.gross.typical for option in sheet.comparison.options]
    yield from differing(
        document,
        Stated("number in its sheet", row["quote__number"], sheet.heading.number),
        Stated("revision in its sheet", row["index"], sheet.heading.revision),
        Stated("valid until in its row", sheet.heading.valid_until, row["valid_until"]),
        Stated("cheapest option in its row", min(sums), row["gross_from"]),
        Stated("dearest option in its row", max(sums), row["gross_to"]),
    )
    if row["quote__latest_id"] == row["pk"]:
        stands = Stated("last day in its quote", sheet.heading.valid_until, row["quote__stands_until"])
        yield from differing(document, stands)
    if row["acceptance__pk"] is not None:
        yield from _of_acceptance(f"Yes to {row['quote__number']}/{row['index']}", row, sheet)


def _of_acceptance(document: str, row: Row, sheet: Sheet) -> Iterator[RecordFault]:
    """The yes: to a sheet that is the one it names, and to the sum that stood beside it."""
    option = sheet.comparison.option(row["acceptance__tier"])
    shown = accepted_gross(option, row["acceptance__extras"], sheet.comparison.decimals)
    yield from differing(
        document,
        Stated("SHA-256 of the sheet shown", row["sheet_sha256"], row["acceptance__sheet_sha256"]),
        Stated("its quote", row["quote_id"], row["acceptance__quote_id"]),
        Stated("sum shown beside it", shown, row["acceptance__gross"]),
    )


def _said(error: ValidationError | KeyError) -> str:
    if isinstance(error, KeyError):
        return f"no {error}"
    first = error.errors(include_url=False)[0]
    where = ".".join(str(part) for part in first["loc"])
    return f"{where}: {first['msg']}" if where else str(first["msg"])


LOOKS: dict[type[models.Model], Callable[[str, Row], Iterator[RecordFault]]] = {
    Invoice: _of_invoice,
    Revision: _of_revision,
}
