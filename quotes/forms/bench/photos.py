"""Photos taken at the door: one of each side, straight from the camera."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any
from uuid import UUID, uuid5

from django import forms
from django.core.exceptions import ValidationError
from django.core.files.uploadedfile import UploadedFile
from django.utils.translation import gettext_lazy as _

from catalogue.calc.said import say, say_figure, to_say
from quotes.documents.bench.pictures import MOST_BYTES
from quotes.forms.bench.intake import Keyed
from quotes.forms.figures import Line

SIDES = (
    ("front", to_say("Front")),
    ("back", to_say("Back")),
    ("left", to_say("Left side")),
    ("right", to_say("Right side")),
    ("above", to_say("From above")),
    ("below", to_say("From below")),
    ("number", to_say("Engine number")),
    ("other", to_say("Something else")),
)


class PhotoField(forms.FileField):
    """A picture; on a tablet or telephone the field opens the camera at the back."""

    def __init__(self, label: str) -> None:
        widget = forms.FileInput(attrs={"accept": "image/*", "capture": "environment"})
        super().__init__(label=label, required=False, widget=widget, allow_empty_file=True)

    def clean(self, data: Any, initial: Any = None) -> Any:
        file: UploadedFile[bytes] | None = super().clean(data, initial)
        if file is not None and (file.size or 0) > MOST_BYTES:
            raise ValidationError(
                say(
                    "The picture has {size} bytes: at most {most} are taken.",
                    size=say_figure(file.size or 0, 0),
                    most=say_figure(MOST_BYTES, 0),
                )
            )
        return file


class PhotosForm(Keyed):
    """Each side once a sending; `key` tells a second press from a second picture."""

    words = Line(_("What the last one shows"), 200)

    def __init__(self, *args: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        for name, label in SIDES:
            self.fields[name] = PhotoField(say(label))

    @property
    def cells(self) -> list[Any]:
        return [self[name] for name, _ in SIDES]

    def taken(self) -> Iterator[tuple[str, str, UUID, bytes]]:
        """Field, side in words, key and bytes of every picture that was picked."""
        once = self.once()
        for name, label in SIDES:
            file = self.cleaned_data.get(name)
            if file is not None:
                yield name, label, uuid5(once, name), file.read()
