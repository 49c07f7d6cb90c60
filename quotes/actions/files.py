"""Documents drawn from what is frozen, kept as the bytes that were made once.

They are made outside the transaction that froze the sheet: if drawing fails, the sheet is safe and the
document is drawn when somebody asks for it.
"""

from __future__ import annotations

from typing import Literal

from django.db import transaction
from django.utils import timezone

from quotes.actions.background_hand import Hand
from quotes.actions.storing import store_file
from quotes.models import Acceptance, Revision, StoredFile
from quotes.queries.sheets import accepted_value, sheet_of

PDF = "application/pdf"
XLSX = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"


def draw_quote_files(hand: Hand, *, revision_id: int) -> None:
    """Draw the PDF and the workbook of an issued revision and keep them."""
    revision = Revision.objects.select_related("quote", "pdf", "workbook").get(pk=revision_id)
    hand.at(0, 2)
    quote_pdf_file(revision=revision)
    hand.at(1)
    quote_workbook_file(revision=revision)


def quote_pdf_file(*, revision: Revision) -> StoredFile:
    """The stored PDF of a revision, drawn now where that has not been done yet."""
    if revision.pdf is not None:
        return revision.pdf
    from quotes.documents.pdf import quote_pdf  # takes a second to import

    content = quote_pdf(sheet_of(revision).for_customer())
    return _keep(revision, "pdf", f"{_stem(revision)}.pdf", PDF, content)


def quote_workbook_file(*, revision: Revision) -> StoredFile:
    """The stored workbook of a revision, written now where that has not been done yet."""
    if revision.workbook is not None:
        return revision.workbook
    from quotes.documents.xlsx import quote_workbook

    content = quote_workbook(sheet_of(revision).for_customer())
    return _keep(revision, "workbook", f"{_stem(revision)}.xlsx", XLSX, content)


def render_receipt(*, acceptance_id: int) -> None:
    """Draw the receipt of an acceptance and keep it."""
    receipt_file(acceptance=Acceptance.objects.select_related("revision__quote").get(pk=acceptance_id))


def receipt_file(*, acceptance: Acceptance) -> StoredFile:
    """The stored receipt of an acceptance, drawn now where that has not been done yet."""
    if acceptance.receipt is not None:
        return acceptance.receipt
    from quotes.documents.pdf import receipt_pdf

    content = receipt_pdf(sheet_of(acceptance.revision).for_customer(), accepted_value(acceptance))
    return _keep(acceptance, "receipt", f"{_stem(acceptance.revision)}-accepted.pdf", PDF, content)


def _stem(revision: Revision) -> str:
    return f"{revision.quote.number}-{revision.index}"


@transaction.atomic
def _keep(
    owner: Revision | Acceptance,
    field: Literal["pdf", "workbook", "receipt"],
    name: str,
    content_type: str,
    content: bytes,
) -> StoredFile:
    """Store the bytes once: who comes second gets what the first has stored."""
    row = type(owner).objects.select_for_update(of=("self",)).select_related(field).get(pk=owner.pk)
    kept: StoredFile | None = getattr(row, field)
    if kept is not None:
        return kept
    file = store_file(name=name, content_type=content_type, content=content, now=timezone.now())
    setattr(row, field, file)
    row.save(update_fields=[field])
    setattr(owner, field, file)
    return file
