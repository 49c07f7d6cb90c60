"""A file that is handed in to be looked at first: checked, and kept for whoever handed it in."""

from __future__ import annotations

from collections.abc import Callable

from django.core.files.uploadedfile import UploadedFile
from django.http import HttpRequest
from django.utils import timezone

from quotes.actions.handed_in import keep_file
from quotes.forms.upload import UploadForm
from quotes.imports.faults import FileFault
from quotes.models import CatalogueFile, CustomerFile
from quotes.views.every_request.person import signed_in


def handed_in(
    request: HttpRequest,
    form: UploadForm,
    kind: type[CatalogueFile] | type[CustomerFile],
    check: Callable[[bytes], object],
) -> int | None:
    """The key it is kept under; None where it is refused, with the fault at its field."""
    if not form.is_valid():
        return None
    file: UploadedFile[bytes] = form.cleaned_data["file"]
    content = file.read()
    try:
        check(content)
    except FileFault as fault:
        form.add_error("file", str(fault))
        return None
    by, now = signed_in(request), timezone.now()
    kept = keep_file(kind, name=file.name or "", content=content, by=by, now=now)
    return int(kept.pk)
