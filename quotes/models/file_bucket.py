"""A bucket that speaks S3, shared by all machines. Loaded only where the settings name one."""

from __future__ import annotations

from typing import Any

from botocore.config import Config
from botocore.exceptions import ClientError
from django.core.files.base import ContentFile
from storages.backends.s3 import S3Storage

WAIT_SECONDS = 5
"""For a connection: a page is not held up for longer by a bucket that does not answer."""
READ_SECONDS = 30
CONFIG = Config(
    connect_timeout=WAIT_SECONDS,
    read_timeout=READ_SECONDS,
    retries={"max_attempts": 3, "mode": "standard"},
    s3={"addressing_style": "path"},
)
GONE = ("404", "NoSuchKey")


class Bucket(S3Storage):  # type: ignore[misc]
    """One request for what is kept, and one for what is read: files are neither large nor changed."""

    def get_default_settings(self) -> dict[str, Any]:
        return {**super().get_default_settings(), "client_config": CONFIG}

    def _save(self, name: str, content: Any) -> str:
        content.seek(0)
        self.bucket.Object(self._normalize_name(name)).put(Body=content.read())
        return name

    def _open(self, name: str, mode: str = "rb") -> ContentFile[bytes]:
        try:
            return ContentFile(self.bucket.Object(self._normalize_name(name)).get()["Body"].read(), name)
        except ClientError as error:
            if error.response["Error"]["Code"] in GONE:
                raise FileNotFoundError(name) from error
            raise
