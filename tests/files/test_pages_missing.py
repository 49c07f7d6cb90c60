"""A file that is gone, damaged or out of reach: its page says which and what to do; nothing is doubled."""

from __future__ import annotations

import io
from html import unescape
from pathlib import Path
from uuid import uuid4

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.test import Client
from django.urls import reverse
from PIL import Image
from pytest_django import Settings

from catalogue.models.file_store import SMALL_BYTES, StoreSilent
from quotes.actions.bench.photos import keep_photo
from quotes.actions.links import new_link
from quotes.actions.storing import store_file
from quotes.models import Photo, Revision, StoredFile
from tests.bench.cast import built_job
from tests.cast import builder, desk
from tests.quotes import cast

pytestmark = pytest.mark.django_db
PAPER = b"%PDF-1.7 a paper " * SMALL_BYTES


@pytest.fixture(autouse=True)
def media(tmp_path: Path, settings: Settings) -> Path:
    settings.MEDIA_ROOT = tmp_path / "media"
    settings.MEDIA_ROOT.mkdir()
    return tmp_path / "media"


@pytest.fixture
def of_desk(client: Client) -> Client:
    client.raise_request_exception = False
    client.force_login(desk())
    return client


def issued() -> Revision:
    """A revision whose paper is kept, without drawing it."""
    cast.workshop()
    revision = cast.issued(cast.draft(cast.engine(cast.customer())), papers=False)
    revision.pdf = store_file(name="Q-1-1.pdf", content_type="application/pdf", content=PAPER, now=cast.NOW)
    revision.save(update_fields=["pdf"])
    return revision


def picture() -> bytes:
    out = io.BytesIO()
    Image.effect_noise((200, 150), 90).convert("RGB").save(out, "JPEG", quality=95)
    return out.getvalue()


def harmed(media: Path, file: StoredFile, *, how: str) -> None:
    place = media / file.place
    if how == "gone":
        place.unlink()
    elif how == "damaged":
        place.write_bytes(b"forged")
    else:
        media.rename(media.with_name("not mounted"))


WORDS = {
    "gone": (500, "Q-1-1.pdf, kept on 25 November 2026, is gone from where photos and papers are kept."),
    "damaged": (500, "Q-1-1.pdf, kept on 25 November 2026, is not shown, because what lies in its place"),
    "silent": (503, "does not answer, so Q-1-1.pdf can't be fetched. No file is lost by that."),
}


@pytest.mark.parametrize("how", WORDS)
def test_a_paper_that_is_not_to_be_had_is_named_with_what_to_do(
    of_desk: Client, media: Path, how: str, caplog: pytest.LogCaptureFixture
) -> None:
    revision = issued()
    assert revision.pdf
    harmed(media, revision.pdf, how=how)

    answer = of_desk.get(reverse("quote-pdf", args=[revision.quote_id, revision.index]))

    status, words = WORDS[how]
    page = unescape(answer.content.decode())
    assert (answer.status_code, words in page) == (status, True)
    assert ("move_files --from" in page) == (how != "silent")
    assert revision.pdf.place not in page


@pytest.mark.parametrize("how", ["gone", "silent"])
def test_a_customer_is_told_to_ring_and_learns_nothing_of_the_inside(
    client: Client, media: Path, how: str, caplog: pytest.LogCaptureFixture
) -> None:
    revision = issued()
    link = new_link(quote=revision.quote, by=desk(), now=cast.NOW)
    assert revision.pdf
    harmed(media, revision.pdf, how=how)

    answer = client.get(reverse("customer-pdf", args=[link.token]))

    page = answer.content.decode()
    assert (answer.status_code, "Q-1-1.pdf can't be shown just now." in page) == (WORDS[how][0], True)
    assert answer["Referrer-Policy"] == "no-referrer"
    assert "manage.py" not in page
    assert revision.pdf.place in caplog.text


def test_a_photo_that_is_gone_is_drawn_as_missing_and_the_page_around_it_stands(
    of_desk: Client, media: Path, caplog: pytest.LogCaptureFixture
) -> None:
    of = built_job()
    kept = keep_photo(
        job=of, about="intake", content=picture(), key=uuid4(), by=builder(), now=cast.NOW, place="front"
    )
    harmed(media, kept.image, how="gone")
    harmed(media, kept.small, how="damaged")

    large = of_desk.get(reverse("job-photo", args=[of.pk, kept.pk]) + "?large")
    small = of_desk.get(reverse("photo-small", args=[kept.pk]))

    for answer, words in ((large, b"is missing"), (small, b"is damaged")):
        assert answer["Content-Type"].startswith("image/svg+xml")
        assert words in answer.content
        assert "immutable" not in answer["Cache-Control"]
    assert kept.image.place in caplog.text
    assert of_desk.get(reverse("job-photos", args=[of.pk])).status_code == 200


def test_a_photo_sent_while_the_files_do_not_answer_is_kept_once_when_it_is_sent_again(
    of_desk: Client, monkeypatch: pytest.MonkeyPatch, caplog: pytest.LogCaptureFixture
) -> None:
    of = built_job()
    of_desk.force_login(builder())
    key = str(uuid4())

    def send() -> tuple[int, str]:
        form = {"key": key, "front": SimpleUploadedFile("front.jpg", picture())}
        answer = of_desk.post(reverse("job-photos", args=[of.pk]), form)
        return answer.status_code, answer.content.decode()

    def silent(*_: object) -> str:
        raise StoreSilent("ab/ab", "connection refused")

    with monkeypatch.context() as patch:
        patch.setattr("catalogue.models.kept.keep_bytes", silent)
        status, page = send()
    assert (status, Photo.objects.count(), StoredFile.objects.count()) == (503, 0, 0)
    assert "so none can be kept or fetched" in page
    assert [send()[0], send()[0]] == [302, 302]
    assert Photo.objects.count() == 1
