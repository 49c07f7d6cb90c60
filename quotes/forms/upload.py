"""Handing in a workbook or CSV file."""

from __future__ import annotations

from typing import Any, ClassVar

from django import forms
from django.core.exceptions import ValidationError
from django.core.files.uploadedfile import UploadedFile
from django.utils.translation import gettext_lazy as _

from catalogue.calc.said import say, say_figure
from quotes.forms.figures import SettingsForm
from quotes.imports.catalogue_book.sheets import MOST_BYTES as MOST_BYTES_OF_A_BOOK
from quotes.imports.cells import MOST_BYTES


class UploadForm(SettingsForm):
    """One file. Its name says nothing: what it is, its bytes tell."""

    most_bytes: ClassVar[int] = MOST_BYTES

    file = forms.FileField(
        label=_("Workbook or CSV file"),
        allow_empty_file=True,
        error_messages={
            "required": _(
                "Nothing was picked: an XLSX workbook, or a CSV file in UTF-8 or Windows-1252 is needed."
            )
        },
    )

    def __init__(self, *args: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        self.fields["file"].help_text = say(
            "An XLSX workbook, or a CSV file in UTF-8 or Windows-1252, of at most {most} kB.",
            most=say_figure(self.most_bytes // 1000, 0),
        )

    def clean_file(self) -> UploadedFile[bytes]:
        """A file too large is refused before it is read."""
        file: UploadedFile[bytes] = self.cleaned_data["file"]
        size = file.size or 0
        if size > self.most_bytes:
            raise ValidationError(
                say(
                    "The file has {size} bytes: at most {most} are allowed.",
                    size=say_figure(size, 0),
                    most=say_figure(self.most_bytes, 0),
                )
            )
        return file


class BookForm(UploadForm):
    """The catalogue's workbook."""

    most_bytes = MOST_BYTES_OF_A_BOOK

    def __init__(self, *args: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        file = self.fields["file"]
        file.label = say("Changed workbook")
        file.error_messages["required"] = say("Nothing was picked: the workbook that was written out here.")
        file.help_text = say(
            "The XLSX workbook that was written out here, of at most {most} kB.",
            most=say_figure(self.most_bytes // 1000, 0),
        )
