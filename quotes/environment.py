"""What the settings read of the environment, and what stands in where it says nothing."""

from __future__ import annotations

import os
from pathlib import Path
from typing import Any

from quotes.database.configured import configured, sqlite_file


def flag(name: str, default: bool) -> bool:
    return os.environ.get(name, "1" if default else "0").lower() in {"1", "true", "yes", "on"}


def words(name: str, default: str = "") -> list[str]:
    """What stands between commas."""
    return [word.strip() for word in os.environ.get(name, default).split(",") if word.strip()]


def secret_key(data: Path) -> str:
    """The key from the environment, else one made at the first start and kept beside the data."""
    if key := os.environ.get("SECRET_KEY"):
        return key
    kept = data / "secret_key"
    if not kept.exists():
        from django.core.management.utils import get_random_secret_key

        kept.touch(mode=0o600)
        kept.write_text(get_random_secret_key())
    return kept.read_text().strip()


def database(data: Path) -> dict[str, Any]:
    """PostgreSQL, or a SQLite file elsewhere, by DATABASE_URL; without it a SQLite file beside the data."""
    url = os.environ.get("DATABASE_URL")
    found = configured(url) if url else sqlite_file(data / "workshop.sqlite3")
    if found["ENGINE"].endswith("sqlite3"):
        # In memory, threads of the live server would meet "table is locked".
        found["TEST"] = {"NAME": str(data / "test.sqlite3")}
    return found


def files() -> dict[str, Any]:
    """A bucket that all machines share, by FILES_BUCKET; without it a folder beside the data."""
    bucket = os.environ.get("FILES_BUCKET")
    if not bucket:
        return {"BACKEND": "catalogue.models.file_store.Folder"}
    names = {
        "endpoint_url": "FILES_ENDPOINT",
        "region_name": "FILES_REGION",
        "access_key": "FILES_KEY",
        "secret_key": "FILES_SECRET",  # The name of a variable.
        "location": "FILES_PREFIX",
    }
    given = {option: os.environ[name] for option, name in names.items() if os.environ.get(name)}
    return {"BACKEND": "catalogue.models.file_bucket.Bucket", "OPTIONS": {"bucket_name": bucket, **given}}
