"""What the page of an entry sends back, for tests to change a field of it and send it."""

from __future__ import annotations

from typing import Any

from django.test import Client
from django.urls import reverse

from catalogue.forms.cards import CARDS
from catalogue.forms.entry import EntryForm
from catalogue.queries import current_rows
from catalogue.queries.shapes import SHAPES


def card_of(kind: str, code: str, version: int = 1) -> dict[str, Any]:
    """What the page of an entry sends back when nothing is changed on it."""
    rows = current_rows()
    row = next(row for row in getattr(rows, kind) if SHAPES[kind].code_of(row) == code)
    form = EntryForm(CARDS[kind], rows, dump=row.model_dump(), version=version)
    sent = {name: form[name].value() for name in form.fields}
    return {name: "" if value is None else value for name, value in sent.items() if value is not False}


def send(client: Client, kind: str, code: str, **changed: Any) -> Any:
    """Sends the card of an entry with some fields changed; colons in their names are written __."""
    sent = card_of(kind, code) | {name.replace("__", ":"): value for name, value in changed.items()}
    return client.post(reverse("catalogue:change", args=[kind, code]), sent)
