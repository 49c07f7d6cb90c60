"""Handing in a workbook or CSV file."""

from __future__ import annotations

from typing import Any, ClassVar

from django import forms
from django.core.exceptions import ValidationError
from django.core.files.uploadedfile import UploadedFile

from quotes.forms.figures import SettingsForm
from quotes.imports.cells import KINDS, MOST_BYTES


class UploadForm(SettingsForm):
    """One file. Its name says nothing: what it is, its bytes tell."""

    most_bytes: ClassVar[int] = MOST_BYTES

    file = forms.FileField(
        label="Workbook or CSV file",
        allow_empty_file=True,
        error_messages={"required": f"Nothing was picked: {KINDS} is needed."},
    )

    def __init__(self, *args: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        allowed = f"{KINDS[0].upper()}{KINDS[1:]}, of at most {self.most_bytes // 1000:,} kB."
        self.fields["file"].help_text = allowed

    def clean_file(self) -> UploadedFile[bytes]:
        """A file too large is refused before it is read."""
        file: UploadedFile[bytes] = self.cleaned_data["file"]
        if (file.size or 0) > self.most_bytes:
            raise ValidationError(
                f"The file has {file.size:,} bytes: at most {self.most_bytes:,} are allowed."
            )
        return file
