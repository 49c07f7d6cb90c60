"""Whether a build is invoiced, by its documents; the build itself repeats it for lists."""

from __future__ import annotations

from decimal import Decimal

from django.db.models import Sum

from quotes.models import Acceptance, Invoice, InvoiceKind
from quotes.queries.books.exact import exact


def is_invoiced(build: Acceptance) -> bool:
    """Whether an invoice of the build stands; one query."""
    rows = Invoice.objects.filter(build=build).order_by().values_list("kind")
    sums = dict(rows.annotate(Sum("gross")))
    return still_asked(sums.get(InvoiceKind.INVOICE), sums.get(InvoiceKind.CREDIT))


def still_asked(asked: Decimal | None, back: Decimal | None) -> bool:
    """Whether something was invoiced and credit notes have not taken back all of it; None for no document."""
    return asked is not None and (back is None or exact(back) < exact(asked))
