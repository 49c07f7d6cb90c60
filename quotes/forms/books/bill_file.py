"""Handing in a file of suppliers' bills."""

from __future__ import annotations

from typing import ClassVar

from quotes.forms.upload import UploadForm

MOST_BYTES = 500_000
"""It is carried along by the page on which it is looked at, so it may not be larger."""


class BillFileForm(UploadForm):
    """As for customers, but smaller."""

    most_bytes: ClassVar[int] = MOST_BYTES
