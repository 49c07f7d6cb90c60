"""What the demo lacks for every page to have something to show: made in a copy, never in the demo itself."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import timedelta
from decimal import Decimal
from uuid import uuid4

from django.contrib.auth.models import User
from django.contrib.auth.tokens import default_token_generator
from django.core.files.uploadedfile import SimpleUploadedFile
from django.db.models import QuerySet
from django.test import Client
from django.urls import reverse
from django.utils import timezone
from django.utils.encoding import force_bytes
from django.utils.http import urlsafe_base64_encode

from catalogue.models import ListedPart
from quotes.actions.bench.after import Failure, keep_failure
from quotes.actions.bench.lifed_parts import Before, register
from quotes.actions.books.drafts import start_invoice
from quotes.actions.books.reminders import make_reminder
from quotes.actions.invitations import invite
from quotes.actions.links import new_link
from quotes.models import (
    Acceptance,
    BackgroundWork,
    CatalogueFile,
    CustomerFile,
    Engine,
    ExtraWork,
    FailureReport,
    Instrument,
    InvoiceDraft,
    Job,
    LifedPart,
    OpenItem,
    Payment,
    PaymentReminder,
    Quote,
)
from quotes.queries.bench.assembly.page import group_of
from quotes.queries.bench.assembly.record import JobRecord, job_record
from tests.browser.gallery.walk import Examples
from tests.catalogue.books import with_dearer_parts
from tests.imports.customer_files import as_file, customer_only

BANK = "Booking date,Amount,Name,Reference\n{day},250.00,Theo Vanterpool,thanks\n{day},-80.00,Rent,November\n"


def furnish(client: Client, by: User) -> None:
    """One each of what a workshop has sooner or later and the demo has not."""
    now, today = timezone.now(), timezone.localdate()
    Instrument.objects.get_or_create(
        name="Micrometer 75-100", defaults={"unit": "mm", "check_due_on": today - timedelta(days=9)}
    )
    if (build := _to_invoice().first()) is not None and not InvoiceDraft.objects.open().exists():
        start_invoice(build=build, by=by, now=now)
    if not LifedPart.objects.exists():
        register(
            component="crankshaft",
            type_code="four600",
            serial="K-20417",
            before=Before(Decimal(20_000), "mi", "sprint"),
        )
    if not FailureReport.objects.exists():
        _fail(by)
    if not PaymentReminder.objects.exists():
        _remind(by)
    if not CustomerFile.objects.exists():
        client.post(
            reverse("import-customers"),
            {"file": SimpleUploadedFile("list.csv", as_file(customer_only("Theo Vanterpool")))},
        )
    if not CatalogueFile.objects.exists():
        client.post(
            reverse("catalogue-book"), {"file": SimpleUploadedFile("prices.xlsx", with_dearer_parts())}
        )
    bank = SimpleUploadedFile("november.csv", BANK.format(day=today).encode())
    client.post(reverse("bank-new"), {"file": bank})


def _to_invoice() -> QuerySet[Acceptance]:
    return Acceptance.objects.filter(invoices=None).order_by("-pk")


def _fail(by: User) -> None:
    engine = Engine.objects.filter(jobs__release__isnull=False).first()
    if engine is None:
        return
    told = Failure(
        component="valve_spring",
        words="Broken at the third meeting",
        outcome="failed",
        on=timezone.localdate(),
        who_pays="life",
        shop_share_pct=Decimal(0),
    )
    keep_failure(engine=engine, told=told, key=uuid4(), by=by, now=timezone.now())


def _remind(by: User) -> None:
    """Of the first document that is not paid, as two months from now."""
    item, late = (
        OpenItem.objects.owed_to_us().exclude(invoice=None).first(),
        timezone.now() + timedelta(days=60),
    )
    if item is not None:
        make_reminder(
            customer=item.customer,
            items=[item.pk],
            pay_by=late.date() + timedelta(days=10),
            words="Please pay.",
            key=uuid4(),
            by=by,
            now=late,
        )


def customers_links(by: User) -> Iterator[str]:
    """A link as the customer gets it, to quotes that differ in what stands on their page."""
    issued = Quote.objects.exclude(latest=None).order_by("-pk")
    kinds: tuple[QuerySet[Quote], ...] = (
        issued.filter(accepted_at=None, declined_at=None, closed_at=None),
        issued.filter(accepted_at=None),
        issued.filter(acceptance__done_at=None).exclude(acceptance=None),
        issued.filter(job__findings_reports__isnull=False),
        issued.filter(pk__in=ExtraWork.objects.values("build__quote")),
        issued.filter(job__release__isnull=False),
    )
    chosen = {quote.pk: quote for kind in kinds for quote in kind[:2]}
    for quote in chosen.values():
        yield reverse("customer-quote", args=[new_link(quote=quote, by=by, now=timezone.now()).token])


def examples() -> Examples:
    """Addresses that are typed, sent by mail or reached by a press, by the name of the page."""
    return {
        "way-back": _way_back,
        "record-group": _record_group,
        "record-let-pass": _record_let_pass,
        "payment-back": _payment_back,
        "deposit-back": lambda: _of(
            Payment.objects.filter(deposit=True, kind="received").first(), "deposit-back"
        ),
        "invited": _invited,
        "failure": lambda: _of(FailureReport.objects.first(), "failure"),
        "lifed-part": lambda: _of(LifedPart.objects.first(), "lifed-part"),
        "catalogue-book-check": lambda: _of(CatalogueFile.objects.first(), "catalogue-book-check"),
        "background-state": lambda: _of(BackgroundWork.objects.first(), "background-state"),
        "listed-part": lambda: _of(ListedPart.objects.first(), "listed-part"),
        "import-check": lambda: _of(CustomerFile.objects.first(), "import-check"),
        "invoice-draft": lambda: _of(InvoiceDraft.objects.open().first(), "invoice-draft"),
        "shop-factor": lambda: reverse("shop-factor") + "?factor=1.2",
    }


def _of(row: object, name: str) -> str | None:
    return reverse(name, args=[row.pk]) if row is not None else None  # type: ignore[attr-defined]


def _way_back() -> str | None:
    user = User.objects.first()
    if user is None:
        return None
    return reverse(
        "way-back",
        args=[urlsafe_base64_encode(force_bytes(user.pk)), default_token_generator.make_token(user)],
    )


def _invited() -> str | None:
    made = invite(
        name="Theo Vanterpool",
        role="builder",
        mail="theo@yard.example",
        by=User.objects.get(username="owner"),
        now=timezone.now(),
    )
    return reverse("invited", args=[made.token])


def _open_record() -> tuple[Job, JobRecord] | None:
    """An engine whose record is still open, with what has to be written of it."""
    for job in Job.objects.filter(record=None, left_at=None).exclude(quote__acceptance=None).order_by("pk"):
        if (record := job_record(job)).requirements:
            return job, record
    return None


def _record_group() -> str | None:
    if (found := _open_record()) is None:
        return None
    job, record = found
    return reverse("record-group", args=[job.pk, group_of(record.requirements[0], record)])


def _record_let_pass() -> str | None:
    if (found := _open_record()) is None:
        return None
    job, record = found
    return reverse("record-let-pass", args=[job.pk, record.lacks()[0].requirement.code])


def _deposit_back() -> str | None:
    return _of(Payment.objects.filter(deposit=True, kind="received").first(), "deposit-back")


def _payment_back() -> str | None:
    item = OpenItem.objects.exclude(payment=None).order_by("open_amount").first() or OpenItem.objects.first()
    return _of(item, "payment-back")
