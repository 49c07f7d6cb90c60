"""A backup tried out: put back into a place of its own, looked through by `verify`, and cleared away."""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any
from urllib.parse import quote, urlencode

from django.conf import settings

from catalogue.models.file_store import Folder
from quotes.management.backups import postgresql
from quotes.management.backups.manifest import BackupError
from quotes.management.backups.whole import MEDIA, restore, vendor_of

FAULTY = 1


class NotTried(BackupError):
    """The backup stands, and could not be tried out here."""


def tried(folder: Path, *, database: dict[str, Any]) -> str:
    """What `verify` says of the backup put back. BackupError with its lines where it finds a fault."""
    with tempfile.TemporaryDirectory(prefix="backup-trial-") as aside, _place(database, Path(aside)) as place:
        restore(folder, database=place, files=Folder(location=Path(aside) / MEDIA))
        done = _verify(place, aside)
    if done.returncode == FAULTY:
        raise BackupError(f"The backup in {folder} was put back, and its record is not sound:\n{done.stdout}")
    if done.returncode:
        raise NotTried(f"The backup in {folder} was put back, and can't be looked through: {done.stderr}")
    return done.stdout.strip()


@contextmanager
def _place(database: dict[str, Any], aside: Path) -> Iterator[dict[str, Any]]:
    """A database of the same kind that holds nothing yet, and is gone afterwards."""
    if vendor_of(database) == "sqlite":
        yield {**database, "NAME": str(aside / "workshop.sqlite3")}
        return
    try:
        name = postgresql.make_spare(database)
    except postgresql.MayNot as refused:
        raise NotTried(
            f"The backup was written and not tried out: {refused} Grant its role CREATEDB, or put the backup "
            "back by hand elsewhere and run `manage.py verify` there."
        ) from refused
    try:
        yield {**database, "NAME": name}
    finally:
        postgresql.drop_spare(database, name)


def _verify(place: dict[str, Any], aside: str) -> subprocess.CompletedProcess[str]:
    """In a process of its own: this one is bound to the workshop's own database."""
    environment = {name: value for name, value in os.environ.items() if name != "DJANGO_SETTINGS_MODULE"}
    # The files were put back beside it, wherever the workshop's own are.
    environment |= {"DATA_DIR": aside, "DATABASE_URL": url_of(place)}
    environment |= {"FILES_BUCKET": "", "FILES_FOLDER": str(Path(aside) / MEDIA)}
    command = [sys.executable, str(settings.BASE_DIR / "manage.py"), "verify"]
    # Our own module, without a shell.
    return subprocess.run(command, env=environment, capture_output=True, text=True, check=False)  # noqa: S603


def url_of(database: dict[str, Any]) -> str:
    """The settings of a database as the one address that DATABASE_URL holds."""
    if vendor_of(database) == "sqlite":
        return f"sqlite:///{database['NAME']}"
    user, password, host = (
        quote(str(database.get(key) or ""), safe="") for key in ("USER", "PASSWORD", "HOST")
    )
    who = f"{user}:{password}@" if password else f"{user}@" if user else ""
    port = f":{database['PORT']}" if database.get("PORT") else ""
    ssl = {key: value for key, value in database.get("OPTIONS", {}).items() if key.startswith("ssl")}
    asked = f"?{urlencode(ssl)}" if ssl else ""
    return f"postgres://{who}{host}{port}/{quote(str(database['NAME']), safe='')}{asked}"
