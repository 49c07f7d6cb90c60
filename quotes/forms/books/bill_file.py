"""Handing in a file of suppliers' bills."""

from __future__ import annotations

from django import forms
from django.core.exceptions import ValidationError
from django.core.files.uploadedfile import UploadedFile

from quotes.forms.figures import SettingsForm
from quotes.imports.cells import KINDS

MOST_BYTES = 500_000
"""It is carried along by the page on which it is looked at, so it may not be larger."""


class BillFileForm(SettingsForm):
    """One file. Its name says nothing: what it is, its bytes tell."""

    file = forms.FileField(
        label="Workbook or CSV file",
        allow_empty_file=True,
        error_messages={"required": f"Nothing was picked: {KINDS} is needed."},
        help_text=f"{KINDS[0].upper()}{KINDS[1:]}, of at most {MOST_BYTES // 1000:,} kB.",
    )

    def clean_file(self) -> UploadedFile[bytes]:
        """A file too large is refused before it is read."""
        file: UploadedFile[bytes] = self.cleaned_data["file"]
        if (file.size or 0) > MOST_BYTES:
            raise ValidationError(f"The file has {file.size:,} bytes: at most {MOST_BYTES:,} are allowed.")
        return file
