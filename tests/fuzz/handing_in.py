"""Hands spoiled files in to each importer and, where one is taken, presses on to where it is entered."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Any

from django.urls import reverse
from hypothesis import strategies as st

from tests.fuzz.asking import Asked, Found, ask, is_refusal, note, send
from tests.fuzz.changed_json import changed_bytes
from tests.fuzz.files import changed_table
from tests.fuzz.pages_read import read_page
from tests.fuzz.site import Site
from tests.fuzz.tables import BANK, BILLS, CUSTOMERS, EVIDENCE, LIVES
from tests.fuzz.watch import Watch


@dataclass(frozen=True, slots=True)
class Importer:
    """Where a file goes, and the end of the address of the form that enters what it holds."""

    kind: str
    name: str
    contents: st.SearchStrategy[bytes]
    entered_at: tuple[str, ...]


IMPORTERS = (
    Importer(
        "file of customers and engines", "import-customers", changed_table(CUSTOMERS, "Customers"), ("",)
    ),
    Importer("file of suppliers' bills", "bill-import", changed_table(BILLS, "Bills"), ("/take/",)),
    Importer(
        "file of strip-downs",
        "lives-file",
        changed_table(EVIDENCE, "Strip-downs") | changed_bytes([LIVES]),
        (),
    ),
    Importer("payment file of the bank", "bank-new", changed_table(BANK, "Bank"), ("/enter/", "/take/")),
)


def hand_in(importer: Importer, content: bytes, site: Site, watch: Watch, found: Found) -> None:
    """One file, all the way that it is let go; everything is undone afterwards."""
    name = "rows.json" if content.lstrip().startswith(b"{") else "rows.csv"
    first = Asked(
        importer.kind,
        importer.name,
        site.sessions["owner"],
        "POST",
        reverse(importer.name),
        files=(("file", name, content, "text/csv"),),
    )
    ask(first, watch, found, lambda response: _go_on(importer, first, response, watch, found))


def _go_on(importer: Importer, asked: Asked, response: Any, watch: Watch, found: Found) -> None:
    """Opens the page that the file led to, and presses what enters it."""
    for ends in importer.entered_at:
        path = asked.path
        if response.status_code == 302:
            path = str(response["Location"])
            response = send(replace(asked, method="GET", path=path, files=()))
        if response.status_code != 200:
            break
        forms = read_page(path, response.content).forms
        form = next((one for one in forms if one.method == "POST" and _goes(one.action, ends)), None)
        if form is None:
            break
        asked = replace(asked, path=form.action, sent=form.sent, files=())
        response = _pressed(asked, watch, found)


def _goes(action: str, ends: str) -> bool:
    return action.endswith(ends) if ends else action.rstrip("/").split("/")[-1].isdigit()


def _pressed(asked: Asked, watch: Watch, found: Found) -> Any:
    """What has been handed in so far stands; only what the press itself wrote is held against it."""

    def press() -> tuple[Any, bool]:
        response = send(asked)
        return response, is_refusal(asked, response)

    found.inputs[asked.kind] += 1
    response, changed = watch.written_by(press)
    note(asked, response, found)
    if changed:
        found.half_writes.setdefault(f"{asked.name} entered: {', '.join(changed)}", str(asked))
    return response
