"""Two customers, each with everything that hangs on a quote, in one workshop. All invented."""

from __future__ import annotations

import io
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from typing import Any
from uuid import uuid4

import pytest
import weasyprint  # type: ignore[import-untyped]
from django.db import transaction
from PIL import Image
from weasyprint.text import fonts  # type: ignore[import-untyped]

from quotes.actions.bench.findings_report import issue_findings
from quotes.actions.bench.photos import keep_photo
from quotes.actions.books import drawing
from quotes.actions.books.extra_work import About
from quotes.actions.links import new_link
from quotes.calc.bench.teardown.findings_sheet import FindingsSheet
from quotes.models import (
    Acceptance,
    Customer,
    ExtraWork,
    FindingsReport,
    Invoice,
    Job,
    Payment,
    Photo,
    Release,
)
from quotes.queries.bench.teardown.findings import sheet_of_report
from tests.bench.cast import LATER, job, recorded, stripped_job
from tests.bench.teardown_rows import found
from tests.bench.way_out_cast import handed_over, looked_over
from tests.books.cast import comparison, extra_work, invoiced, vat_shop
from tests.books.conftest import plain_files
from tests.books.ledger_cast import deposit
from tests.cast import builder, desk
from tests.quotes import cast
from tests.quotes.cast import NOW
from tests.shipped import load_shipped


@dataclass(frozen=True, slots=True)
class Whole:
    """One customer with everything: from the quote to the engine that was fetched."""

    customer: Customer
    build: Acceptance
    job: Job
    photo: Photo
    report: FindingsReport
    extra: ExtraWork
    payment: Payment
    invoice: Invoice
    release: Release
    token: str

    @property
    def said(self) -> tuple[str, ...]:
        """What no page of another may say."""
        return (
            self.customer.name,
            self.build.quote.number or "",
            str(self.build.quote.engine.number),
            self.invoice.number,
            self.job.number,
        )

    def at(self, name: str) -> dict[str, Any]:
        """What stands in the address of a page of his link, beside the token."""
        more: dict[str, dict[str, Any]] = {
            "customer-invoice": {"pk": self.invoice.pk},
            "customer-photo": {"pk": self.photo.pk},
            "customer-extra": {"pk": self.extra.pk},
            "customer-extra-pdf": {"pk": self.extra.pk},
            "customer-extra-photo": {"pk": self.extra.pk},
            "customer-findings": {"index": self.report.index},
            "customer-findings-pdf": {"index": self.report.index},
            "customer-findings-photo": {"index": self.report.index, "sha256": self.photo_name},
        }
        return more.get(name, {})

    @property
    def photo_name(self) -> str:
        sheet: FindingsSheet = sheet_of_report(self.report)
        return sheet.findings[0].photos[0].sha256


def picture(colour: str) -> bytes:
    out = io.BytesIO()
    Image.new("RGB", (40, 30), colour).save(out, "JPEG")
    return out.getvalue()


def whole(name: str, number: str, colour: str) -> Whole:
    """A customer of that name with an engine of that number; the workshop and its catalogue stand already."""
    customer = cast.customer(name)
    quote = cast.draft(cast.engine(customer, number))
    revision = cast.issued(quote, comparison=comparison(), papers=False)
    build = cast.accepted(revision, papers=False, name=name)
    row = stripped_job(job(quote=build.quote))
    seen = found(row, "rod_bearing_wiped", judged="stop", component="rod_bearing", place="cylinder 3")
    photo = keep_photo(
        job=row, about="finding", content=picture(colour), key=uuid4(), by=builder(), now=NOW, finding=seen
    )
    report = issue_findings(job=Job.objects.joined().get(pk=row.pk), by=desk(), now=LATER)
    extra = extra_work(build, about=About(photo=photo, finding=seen))
    payment = deposit(build, customer=customer)
    invoice = invoiced(build)
    recorded(row)
    looked_over(row)
    release = handed_over(row, unpaid_consent="Pays on Friday")
    token = new_link(quote=build.quote, by=desk(), now=NOW).token
    return Whole(customer, build, row, photo, report, extra, payment, invoice, release, token)


class _Paper:
    """In the place of the PDF maker: the words of a paper as they are, so that a test can look for them."""

    def __init__(self, string: str, **options: Any) -> None:
        self.words = string

    def write_pdf(self, *args: Any, **options: Any) -> bytes:
        return f"%PDF {self.words}".encode()


@contextmanager
def two_customers() -> Iterator[tuple[Whole, Whole]]:
    """Both, for as long as it lasts; nothing of them is left, and no paper is really drawn."""
    with pytest.MonkeyPatch.context() as patch, transaction.atomic():
        patch.setattr(drawing, "drawn", plain_files)
        patch.setattr(weasyprint, "HTML", _Paper)
        patch.setattr(weasyprint, "CSS", _Paper)
        patch.setattr(fonts, "FontConfiguration", lambda: None)
        vat_shop()
        load_shipped()
        yield whole("Marel Otten", "H4-20417", "grey"), whole("Ines Calder", "H4-31999", "red")
        transaction.set_rollback(True)
