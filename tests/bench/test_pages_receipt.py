"""Photos at the door, and the receipt that the customer takes home or finds on his own page."""

from __future__ import annotations

import io
from typing import Any
from uuid import uuid4

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from PIL import Image
from pypdf import PdfReader

from quotes.actions.bench import intake_receipts
from quotes.actions.bench.intake_receipts import give_receipt
from quotes.actions.bench.jobs import tie_quote
from quotes.actions.bench.photos import keep_photo
from quotes.actions.links import new_link
from quotes.models import IntakeReceipt, Job, Photo
from quotes.queries.bench.receipt import receipt_sheet
from tests.bench.cast import LATER, NOW, built_job, job, leave
from tests.books.books_pages import browser
from tests.cast import desk
from tests.quotes import cast

pytestmark = pytest.mark.django_db


def picture(colour: str = "grey") -> bytes:
    out = io.BytesIO()
    Image.new("RGB", (40, 30), colour).save(out, "JPEG")
    return out.getvalue()


def photo(of: Job, place: str = "Front") -> Photo:
    return keep_photo(job=of, about="intake", content=picture(), key=uuid4(), by=desk(), now=NOW, place=place)


@pytest.fixture
def plain_paper(monkeypatch: pytest.MonkeyPatch) -> None:
    """A few bytes for a paper that nobody looks at."""
    monkeypatch.setattr(intake_receipts, "_drawn", lambda receipt, sheet: f"%PDF {sheet.tag}".encode())


def test_the_receipt_on_paper_names_what_came_in_and_shows_its_photos() -> None:
    row = job(tag="blue 2")
    photo(row)
    answer = browser("desk").get(f"/bench/{row.pk}/receipt.pdf")
    paper = PdfReader(io.BytesIO(answer.content))
    text = " ".join(page.extract_text() for page in paper.pages)
    for said in ("blue 2", "L 117", "Carburettors; Clutch cable", "Dipstick", "B3", "4,100 miles"):
        assert said in text
    assert sum(len(page.images) for page in paper.pages) == 1


def test_a_receipt_is_given_once_until_something_comes_to_it(plain_paper: None) -> None:
    row = job()
    client = browser("desk")
    first = client.get(f"/bench/{row.pk}/receipt.pdf")
    assert client.get(f"/bench/{row.pk}/receipt.pdf")["ETag"] == first["ETag"]
    assert IntakeReceipt.objects.count() == 1
    photo(row)
    client.get(f"/bench/{row.pk}/receipt.pdf")
    assert [len(each.sheet["photos"]) for each in IntakeReceipt.objects.all()] == [0, 1]


def test_service_that_nobody_knows_is_said_to_be_unknown() -> None:
    row = job(service_amount=None, service_unit="", service_known="unknown")
    assert receipt_sheet(row).service == "not known"
    given = give_receipt(job=row, by=None, now=LATER)
    assert given.given_by == ""
    assert given.sheet["taken_by"] == "Dessa Quill"


def test_photos_are_kept_by_side_and_once(plain_paper: None) -> None:
    row = job()
    client = browser("builder")

    def sent(**files: bytes) -> Any:
        held = {name: SimpleUploadedFile("a.jpg", content, "image/jpeg") for name, content in files.items()}
        return client.post(f"/bench/{row.pk}/photos/", {"key": str(key), "words": "A cracked fin"} | held)

    key = uuid4()
    for _ in range(2):
        sent(front=picture(), other=picture("red"))
    assert [(one.place, one.words) for one in row.photos.order_by("place")] == [
        ("Front", ""),
        ("Something else", "A cracked fin"),
    ]
    key = uuid4()
    page = sent(left=b"no picture", right=picture()).content.decode()
    assert "no picture that can be read" in page
    assert row.photos.filter(place="Right side").exists()
    assert "No picture was picked" in sent().content.decode()
    shown = client.get(f"/bench/{row.pk}/").content.decode()
    assert 'alt="Something else, A cracked fin, as it came in"' in shown
    first = row.photos.order_by("pk")[0]
    assert client.get(f"/bench/{row.pk}/photos/{first.pk}.jpg")["Content-Type"] == "image/jpeg"
    assert client.get(f"/bench/{row.pk + 1}/photos/{first.pk}.jpg").status_code == 404


def test_the_field_opens_the_camera() -> None:
    page = browser("desk").get(f"/bench/{job().pk}/photos/").content.decode()
    assert page.count('accept="image/*" capture="environment"') == 8


def test_the_customer_finds_receipt_and_leave_on_his_own_page(plain_paper: None) -> None:
    row = built_job()
    assert row.quote is not None
    token = new_link(quote=row.quote, by=desk(), now=NOW).token
    page = browser("desk").get(f"/q/{token}/").content.decode()
    assert f"/q/{token}/engine.pdf" in page
    assert f"/q/{token}/leave.pdf" not in page
    leave(row)
    assert f"/q/{token}/leave.pdf" in browser("desk").get(f"/q/{token}/").content.decode()
    assert browser("desk").get(f"/q/{token}/engine.pdf").content.startswith(b"%PDF")


def test_before_the_engine_came_the_customers_page_speaks_of_none(plain_paper: None) -> None:
    row = job()
    quote = cast.draft(row.engine)
    cast.issued(quote, papers=False)
    token = new_link(quote=quote, by=desk(), now=NOW).token
    assert "Your engine" not in browser("desk").get(f"/q/{token}/").content.decode()
    assert browser("desk").get(f"/q/{token}/engine.pdf").status_code == 302
    tie_quote(job=row, quote=quote, by=desk(), now=NOW)
    assert "Your engine" in browser("desk").get(f"/q/{token}/").content.decode()
