"""A backup may be tried out at once; one that is not sound says so, and costs no older one."""

from __future__ import annotations

from collections.abc import Iterator
from io import StringIO
from pathlib import Path

import pytest
from django.core.management import CommandError, call_command
from django.db import connection

from quotes.management.backups.trial import NotTried, tried
from quotes.models import StoredFile
from tests.quotes.cast import NOW

pytestmark = pytest.mark.django_db(transaction=True)


def test_a_sound_backup_is_said_to_be_sound_and_a_faulty_one_removes_no_older(tmp_path: Path) -> None:
    said = StringIO()
    call_command("backup", tmp_path, keep=1, verify=True, stdout=said)
    [sound] = tmp_path.iterdir()
    assert f"{sound}: " in said.getvalue()
    assert "\nSound: 0 documents" in said.getvalue()

    older = sound.rename(tmp_path / "backup-20260302T233000Z")
    manifest = older / "manifest.json"
    manifest.write_text(
        manifest.read_text().replace('"made_at": "', '"made_at": "2026-03-02T23:30:00+00:00", "was": "')
    )
    StoredFile.objects.create(
        name="quote.pdf", content_type="application/pdf", sha256="0" * 64, held=b"forged", made_at=NOW
    )
    with pytest.raises(CommandError, match=r"quote\.pdf: SHA-256 of its 6 bytes: expected 0000"):
        call_command("backup", tmp_path, keep=1, verify=True, stdout=StringIO())
    assert len([*tmp_path.iterdir()]) == 2


@pytest.fixture
def role_without_rights() -> Iterator[str]:
    """A role of the server that may sign in, and make nothing."""
    with connection.cursor() as cursor:
        cursor.execute("CREATE ROLE may_not_make LOGIN PASSWORD 'none'")
        yield "may_not_make"
        cursor.execute("DROP ROLE may_not_make")


@pytest.mark.skipif(connection.vendor != "postgresql", reason="only a server has roles")
def test_a_role_that_may_make_no_database_is_told_so(tmp_path: Path, role_without_rights: str) -> None:
    database = {**connection.settings_dict, "USER": role_without_rights, "PASSWORD": "none"}

    with pytest.raises(NotTried, match="The role may_not_make may not create a database"):
        tried(tmp_path, database=database)
