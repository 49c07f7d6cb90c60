"""The pages on which the catalogue is written out as a workbook, looked at, and taken in again."""

from __future__ import annotations

import io
from pathlib import Path
from typing import Any

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.core.management import CommandError, call_command
from django.test import Client
from django.urls import reverse

from catalogue.models import Part
from quotes.models import CatalogueFile
from tests.cast import desk, owner
from tests.catalogue.books import with_dearer_parts
from tests.quotes.test_enquiry_pages import text_of

pytestmark = [pytest.mark.django_db, pytest.mark.usefixtures("loaded")]


def hand_in(client: Client, content: bytes) -> Any:
    return client.post(reverse("catalogue-book"), {"file": SimpleUploadedFile("prices.xlsx", content)})


def test_a_workbook_is_looked_at_and_taken_in_once(client: Client) -> None:
    client.force_login(owner())
    before = Part.objects.order_by("place").values_list("code", "list_price")[0]
    response = hand_in(client, with_dearer_parts())
    assert response.status_code == 302, text_of(response)
    kept = CatalogueFile.objects.get()
    address = reverse("catalogue-book-check", args=[kept.pk])
    page = client.get(address)
    assert "parts 0 12 0" in " ".join(text_of(page).split())
    assert next((one.line, one.before) for one in page.context["changes"]) == (before[0], f"{before[1]:.2f}")
    assert len(page.context["changes"]) == 12
    assert client.post(address, {"plan": "another"}).status_code == 409
    assert CatalogueFile.objects.get().applied_at is None
    plan = {"plan": page.context["checked"].plan.digest}
    assert [client.post(address, plan).status_code for _ in range(2)] == [302, 200]
    assert Part.objects.filter(code=before[0], list_price__gt=before[1]).exists()
    assert (Part.objects.filter(version=2).count(), CatalogueFile.objects.get().changed) == (12, 12)


def test_only_the_owner_takes_a_workbook_and_another_file_is_refused(client: Client) -> None:
    client.force_login(desk())
    assert client.get(reverse("catalogue-book")).status_code == 403
    assert client.get(reverse("catalogue-book-file")).status_code == 403
    client.force_login(owner())
    response = hand_in(client, b"part,price\n")
    assert response.status_code == 422
    assert "The file is no XLSX workbook." in text_of(response)


def test_the_commands_write_out_show_and_take_in(tmp_path: Path) -> None:
    path, out = tmp_path / "catalogue.xlsx", io.StringIO()
    call_command("export_catalogue", path, stdout=out)
    call_command("import_catalogue", path, stdout=out)
    assert "nothing changes" in out.getvalue()
    with pytest.raises(CommandError, match="Nothing was written"):
        call_command("export_catalogue", path)
    path.write_bytes(with_dearer_parts())
    for dry, dearer in ((True, 0), (False, 12)):
        call_command("import_catalogue", path, dry_run=dry, stdout=out)
        assert Part.objects.filter(version=2).count() == dearer
    assert "parts                  0 added      12 changed       0 taken out" in out.getvalue()
