"""All that is held on one customer, as plain values: every kind of record, by the way that leads to him.

A new model that a way of keys leads from to a customer belongs into `HELD`, or into `LEFT_OUT` with a reason;
a test walks all models and names one that is in neither.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from django.apps import apps
from django.contrib.auth.models import User
from django.db import models
from django.db.models import Q

from quotes.calc.sheet.issued_values import Sheet
from quotes.models import Customer, StoredFile

Record = dict[str, Any]
OF_ENGINE, OF_JOB, OF_QUOTE, OF_BUILD = (
    ("engine__customer",),
    ("job__customer",),
    ("quote__customer",),
    ("build__quote__customer",),
)
HELD: dict[str, tuple[str, ...]] = {
    "engine": ("customer",),
    "segment": OF_ENGINE,
    "renewedpart": OF_ENGINE,
    "servicereport": OF_ENGINE,
    "reminder": OF_ENGINE,
    "failurereport": OF_ENGINE,
    "lifedpart": ("owner",),
    "partstay": ("engine__customer", "part__owner"),
    "enquiry": ("customer",),
    "booking": ("enquiry__customer",),
    "quote": ("customer",),
    "revision": OF_QUOTE,
    "reply": ("revision__quote__customer",),
    "link": OF_QUOTE,
    "acceptance": OF_QUOTE,
    "calledoff": OF_BUILD,
    "extrawork": OF_BUILD,
    "ownpart": OF_BUILD,
    "core": OF_BUILD,
    "serviceoutcome": OF_BUILD,
    "workedhours": ("build__quote__customer", "job__customer"),
    "job": ("customer",),
    "jobstep": OF_JOB,
    "intakereceipt": OF_JOB,
    "teardownleave": OF_JOB,
    "teardowndeclined": OF_JOB,
    "photo": OF_JOB,
    "measured": OF_JOB,
    "findingseen": OF_JOB,
    "findingsreport": OF_JOB,
    "declinedadvice": OF_JOB,
    "assemblyentry": OF_JOB,
    "concession": OF_JOB,
    "assemblyrecord": OF_JOB,
    "testrun": OF_JOB,
    "finalcheck": OF_JOB,
    "release": OF_JOB,
    "evidence": ("job__customer", "failure__engine__customer"),
    "invoicedraft": ("customer",),
    "invoice": ("customer",),
    "payment": ("customer",),
    "writeoff": ("customer",),
    "paymentreminder": ("customer",),
    "remindersent": ("reminder__customer",),
    "openitem": ("customer",),
    "allocation": ("debit__customer", "credit__customer"),
    "bankline": ("payment__customer",),
    "erasure": ("customer",),
    "erasedrow": ("erasure__customer",),
    "journalentry": ("invoice__customer", "payment__customer", "write_off__customer"),
}
"""Model of `quotes`, and the ways from it to the customer."""
LEFT_OUT = {
    "journalline": "The two sides of the entries above: the same sums by the workshop's accounts.",
    "orderline": "What the workshop ordered and paid: its own business, without the customer's name.",
    "orderevent": "What became of the workshop's order.",
    "substitute": "Another article for one that could not be had; where it was asked about, see extrawork.",
    "billline": "What the workshop was billed.",
    "stockuse": "What the workshop's own parts cost it.",
    "worksorder": "The workshop's order to another shop; the work stands in the quote and the record.",
    "workedagain": "A working at the workshop's cost that was offered to nobody; what was, is in extrawork.",
    "clockrun": "When a builder's clock ran; what came of it is in workedhours.",
}
"""Models that a way leads from to a customer, and why their rows are not among what is held on him."""
NOT_BY_KEY = {
    "customerfile": "Files of many customers, kept as they were handed in.",
    "bankfile": "Statements of the workshop's bank, kept as they were handed in.",
}
"""Where a name may stand that no key leads to: to be looked through by hand."""
NOT_GIVEN = frozenset({"search_key", "key", "card_key", "token_hash", "password"})
"""Fields that say nothing about anybody, or open a page."""


def records_of(customer: Customer) -> dict[str, list[Record]]:
    """Rows by kind; people of the workshop, search keys and what opens a page left out."""
    own = [_record(customer)]
    return {"customer": own, **{name: [_record(row) for row in rows_of(name, customer)] for name in HELD}}


def rows_of(name: str, customer: Customer) -> models.QuerySet[Any]:
    """The rows of one kind; each once, however many ways lead to the customer."""
    wanted = Q()
    for way in HELD[name]:
        wanted |= Q(**{way: customer})
    rows: models.Manager[Any] = apps.get_model("quotes", name)._default_manager
    return rows.filter(pk__in=rows.filter(wanted).order_by().values("pk")).order_by("pk")


def files_of(customer: Customer) -> Iterator[tuple[str, StoredFile]]:
    """Every file that one of those rows names, with what it is of; each file once."""
    seen: set[int] = set()
    for name in HELD:
        fields = [field.name for field in _concrete(name) if field.related_model is StoredFile]
        for row in rows_of(name, customer).select_related(*fields).iterator(20) if fields else ():
            for field in fields:
                file = getattr(row, field)
                if file is not None and file.pk not in seen:
                    seen.add(file.pk)
                    yield f"{name} {row.pk} {field}", file


def meanings() -> dict[str, str]:
    """What a record of each kind is, in the words that its model is described with."""
    kinds = {name: apps.get_model("quotes", name).__doc__ or "" for name in ("customer", *HELD)}
    return {name: " ".join(said.partition("\n\n")[0].split()) for name, said in kinds.items()}


def _record(row: models.Model) -> Record:
    fields = _concrete(str(row._meta.model_name))
    given = {field.attname: getattr(row, field.attname) for field in fields if _is_given(field)}
    if row._meta.model_name == "revision":
        given["sheet"] = Sheet.model_validate(given["sheet"]).for_customer().model_dump(mode="json")
    return given


def _concrete(name: str) -> list[models.Field[Any, Any]]:
    return [*apps.get_model("quotes", name)._meta.concrete_fields]


def _is_given(field: models.Field[Any, Any]) -> bool:
    return field.name not in NOT_GIVEN and field.related_model is not User
