"""Invoices, credit notes, deposit invoices and open drafts in one list, with the word for where each stands.

Every issued document comes from a draft, so one query over the drafts holds both.
"""

from __future__ import annotations

from datetime import date
from typing import Any

from django.db.models import Case, Exists, F, IntegerField, OuterRef, Q, Subquery, Sum, Value, When

from catalogue.calc.said import to_say
from quotes.models import Allocation, Invoice, InvoiceDraft
from quotes.models.books.invoice import InvoiceDraftQuerySet

WORDS = (
    to_say("overdue"),
    to_say("to pay back"),
    to_say("draft"),
    to_say("part paid"),
    to_say("to pay"),
    to_say("paid"),
    to_say("credited"),
    to_say("written off"),
    to_say("settled"),
)
"""In the order of what they ask of us. `settled` is a credit note that is used up or paid back."""
OURS = frozenset({"overdue", "to pay back", "draft"})
"""What is ours to do."""


def listed_documents(on: date) -> InvoiceDraftQuerySet:
    """Every document and open draft; `place` is that of its word in WORDS, on that day."""
    rows = InvoiceDraft.objects.filter(dropped_at=None).annotate(
        credited=Subquery(
            Invoice.objects.filter(original=OuterRef("invoice__pk"))
            .order_by()
            .values("original")
            .annotate(together=Sum("gross"))
            .values("together")
        ),
        given_up=Exists(
            Allocation.objects.filter(
                debit__invoice=OuterRef("invoice__pk"), credit__kind="write_off", amount__gt=0
            )
        ),
    )
    return (
        rows.annotate(place=_place(on))
        .select_related("customer", "build__quote", "invoice__item")
        .defer("content", "invoice__sheet", "build__quote__request")
    )


def _place(on: date) -> Case:
    """The word's place. An opened amount below nought is owed to the customer."""
    open_amount, amount = "invoice__item__open_amount", "invoice__item__amount"
    return Case(
        When(invoice__isnull=True, then=Value(WORDS.index("draft"))),
        When(**{f"{open_amount}__lt": 0}, then=Value(WORDS.index("to pay back"))),
        When(kind="credit_note", then=Value(WORDS.index("settled"))),
        When(
            Q(credited__gte=F("invoice__gross"), invoice__gross__gt=0, **{open_amount: 0}),
            then=Value(WORDS.index("credited")),
        ),
        When(Q(given_up=True, **{open_amount: 0}), then=Value(WORDS.index("written off"))),
        When(**{open_amount: 0}, then=Value(WORDS.index("paid"))),
        When(invoice__item__due_on__lt=on, then=Value(WORDS.index("overdue"))),
        When(**{f"{open_amount}__lt": F(amount)}, then=Value(WORDS.index("part paid"))),
        default=Value(WORDS.index("to pay")),
        output_field=IntegerField(),
    )


def word_of(invoice: Invoice, on: date) -> str:
    """Where one document stands, in the list's word."""
    row: Any = listed_documents(on).get(invoice=invoice)
    return WORDS[row.place]
