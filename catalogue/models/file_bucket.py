"""A bucket that speaks S3, shared by all machines. Loaded only where the settings name one."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from datetime import datetime
from time import monotonic
from typing import Any

from botocore.config import Config
from botocore.exceptions import BotoCoreError, ClientError, ConnectTimeoutError, ReadTimeoutError
from django.core.files.base import ContentFile
from storages.backends.s3 import S3Storage

from catalogue.models.file_store import FileGone, StoreSilent

CONNECT_SECONDS = 3
READ_SECONDS = 5
TRIES = 2
"""A page is not held up for longer than these make together by a bucket that does not answer."""
LEFT_ALONE_SECONDS = 10
"""Nor are the pages after it, which would soon take up all that the site can do at once."""
CONFIG = Config(
    connect_timeout=CONNECT_SECONDS,
    read_timeout=READ_SECONDS,
    retries={"total_max_attempts": TRIES, "mode": "standard"},
    s3={"addressing_style": "path"},
)
GONE = ("404", "NoSuchKey")


class Silence:
    """Until when this process asks no bucket, because one let it wait in vain."""

    until = 0.0


@contextmanager
def answering(name: str) -> Iterator[None]:
    """What the bucket says in place of an answer, as the trouble that it is."""
    if monotonic() < Silence.until:
        raise StoreSilent(name, "it let somebody wait in vain a moment ago")
    try:
        yield
    except (ConnectTimeoutError, ReadTimeoutError) as error:
        Silence.until = monotonic() + LEFT_ALONE_SECONDS
        raise StoreSilent(name, error) from error
    except ClientError as error:
        if error.response["Error"]["Code"] in GONE:
            raise FileGone(name) from error
        raise StoreSilent(name, error) from error
    except BotoCoreError as error:
        raise StoreSilent(name, error) from error


class Bucket(S3Storage):  # type: ignore[misc]
    """One request for what is kept, and one for what is read: files are neither large nor changed."""

    def get_default_settings(self) -> dict[str, Any]:
        return {**super().get_default_settings(), "client_config": CONFIG}

    def _save(self, name: str, content: Any) -> str:
        content.seek(0)
        with answering(name):
            self.bucket.Object(self._normalize_name(name)).put(Body=content.read())
        return name

    def _open(self, name: str, mode: str = "rb") -> ContentFile[bytes]:
        with answering(name):
            return ContentFile(self.bucket.Object(self._normalize_name(name)).get()["Body"].read(), name)

    def delete(self, name: str) -> None:
        with answering(name):
            super().delete(name)

    def exists(self, name: str) -> bool:
        with answering(name):
            return bool(super().exists(name))

    def listdir(self, name: str) -> tuple[list[str], list[str]]:
        with answering(name):
            folders, files = super().listdir(name)
        return folders, files

    def get_modified_time(self, name: str) -> datetime:
        with answering(name):
            changed: datetime = super().get_modified_time(name)
        return changed
