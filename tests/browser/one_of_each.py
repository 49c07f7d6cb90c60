"""A small workshop in which every page has something to show: one of each thing, made by the casts."""

from __future__ import annotations

from django.db import connection, transaction
from django.test import Client
from django.utils import timezone

from quotes.actions.answers import ask
from quotes.actions.bench.findings_report import issue_findings
from quotes.imports.demo.prices import write_demo_prices
from quotes.models import Job
from tests.bench.cast import LATER, built_job, job, recorded, stripped_job
from tests.bench.parts_cast import ordered, real_build
from tests.bench.teardown_rows import found
from tests.bench.way_out_cast import handed_over, looked_over
from tests.books import cast as books_cast
from tests.books.ledger_cast import billed, deposit, for_what, paid
from tests.browser.gallery.furnish import furnish
from tests.cast import desk, owner
from tests.learning.cast import entered
from tests.quotes import cast
from tests.quotes.enquiry_cast import booking, enquiry
from tests.shipped import load_shipped


def one_of_each() -> Client:
    """Makes them, and gives the owner's client. No paper is drawn: none is looked at here."""
    with transaction.atomic():
        load_shipped()
        desk(), owner()
        books_cast.vat_shop()
        _quotes()
        _bench()
        _money()
        entered()
        write_demo_prices(now=timezone.now())
        connection.run_on_commit.clear()
    client = Client()
    client.force_login(owner())
    furnish(client, owner())
    return client


def _quotes() -> None:
    now = timezone.now()
    of = cast.customer("Theo Vanterpool")
    asked = cast.issued(cast.draft(cast.engine(of, "H4-1"), now=now), now=now, papers=False)
    ask(revision=asked, text="Could the clutch wait?", name="Theo Vanterpool", now=now)
    cast.draft(cast.engine(of, "H4-2"))
    enquiry(cast.engine(of, "H4-3"), now=now)
    booking(enquiry(cast.engine(of, "H4-4"), now=now), now=now)


def _bench() -> None:
    """Engines from the door to the hand-over."""
    job(number="H4-5")
    row = stripped_job(built_job(number="H4-6"))
    found(row, "rod_bearing_wiped", judged="stop", component="rod_bearing", place="cylinder 3")
    issue_findings(job=Job.objects.joined().get(pk=row.pk), by=desk(), now=LATER)
    _ready("H4-7")
    handed_over(_ready("H4-8"))
    ordered(real_build("H4-9"), "valve_spring")


def _ready(number: str) -> Job:
    made = built_job(number=number)
    recorded(made)
    looked_over(made)
    return made


def _money() -> None:
    build = books_cast.build("H4-10")
    books_cast.extra_work(build, accepted=None)
    books_cast.deposited(build)
    paid("10")
    deposit(build)
    billed("4711", for_what("part", "80"))
