"""Giving the customer a receipt for the engine, kept as it was given."""

from __future__ import annotations

from datetime import datetime

from django.contrib.auth.models import User
from django.db import transaction

from quotes.actions.bench.jobs import locked_job
from quotes.actions.bench.papers import kept_pdf
from quotes.actions.saving import save_checked
from quotes.calc.ask.fingerprint import fingerprint
from quotes.calc.bench.receipt import ReceiptSheet
from quotes.models import IntakeReceipt, Job, StoredFile
from quotes.queries.bench.receipt import pictures_of, receipt_sheet
from quotes.queries.people import name_of


@transaction.atomic
def give_receipt(*, job: Job, by: User | None, now: datetime) -> IntakeReceipt:
    """The receipt of the job as it stands: the one that says the same, or a new one.

    `by` is nobody where the customer asks for it on his own page.
    """
    locked_job(job)
    sheet = receipt_sheet(job)
    mark = fingerprint(sheet)
    standing = IntakeReceipt.objects.filter(job=job, sheet_sha256=mark).first()
    return standing or save_checked(
        IntakeReceipt(
            job=job,
            sheet=sheet.model_dump(mode="json"),
            sheet_sha256=mark,
            given_at=now,
            given_by=name_of(by) if by else "",
        )
    )


def intake_receipt_file(*, receipt: IntakeReceipt) -> StoredFile:
    """The stored paper of a receipt, drawn now where that has not been done yet."""
    sheet = ReceiptSheet.model_validate(receipt.sheet)
    return kept_pdf(receipt, f"{sheet.number}-receipt.pdf", lambda: _drawn(receipt, sheet))


def _drawn(receipt: IntakeReceipt, sheet: ReceiptSheet) -> bytes:
    from quotes.documents.bench.receipt import intake_receipt_pdf  # takes a second to import

    return intake_receipt_pdf(sheet, pictures_of(receipt.job, sheet))
