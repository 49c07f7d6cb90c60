"""What the parts of one gate give each other in a folder that it names, so that it is worked out once."""

from __future__ import annotations

import fcntl
import os
import pickle
import shutil
import sqlite3
from collections.abc import Callable, Iterator
from contextlib import ExitStack, closing, contextmanager
from functools import cache
from hashlib import sha256
from pathlib import Path
from tempfile import mkstemp
from typing import Any

import pytest
from django.db import connection
from django.utils.translation import get_language

from catalogue.calc.engine import EngineCatalogue
from quotes.calc.ask.request import Request
from quotes.calc.compare import compare
from quotes.calc.sheet.values import Comparison
from quotes.calc.shop import Shop

FOLDER = os.environ.get("SHARED_BY_PARTS", "")
"""Empty where tests run without the gate: then nothing is shared."""

_turn = ExitStack()
"""Held by the one part that migrates, until it has left its copy."""


class KeptComparisons:
    """What the site asks of the sums is worked out once for each language: their answers are frozen."""

    def __init__(self) -> None:
        self._kept: dict[tuple[str, str, int, str], tuple[Comparison, EngineCatalogue]] = {}
        self._content: dict[int, str] = {}

    def compare(self, request: Request, catalogue: EngineCatalogue, shop: Shop) -> Comparison:
        """What the sums say. The catalogue is kept along, so that its id stays its own."""
        asked = get_language() or "", request.model_dump_json(), id(catalogue), repr(shop)
        if asked not in self._kept:
            self._kept[asked] = self._shared(request, catalogue, shop), catalogue
        return self._kept[asked][0]

    def _shared(self, request: Request, catalogue: EngineCatalogue, shop: Shop) -> Comparison:
        """From another part that was asked the same, of a catalogue that reads the same, or worked out."""
        if not FOLDER:
            return compare(request, catalogue, shop)
        content = self._content.setdefault(id(catalogue), repr(catalogue))
        asked = get_language() or "", request.model_dump_json(), content, repr(shop)
        key = sha256("\n".join(asked).encode()).hexdigest()
        path = Path(FOLDER, f"{key}.comparison")
        if path.exists():
            found: Comparison = pickle.loads(path.read_bytes())
            return found
        worked_out = compare(request, catalogue, shop)
        _put(path, lambda half: half.write_bytes(pickle.dumps(worked_out)))
        return worked_out


def kept_paper(printed: Callable[[str, str], bytes]) -> Callable[[str, str], bytes]:
    """The same page in the same style is drawn once: a quote on paper takes longer than all else about it."""

    @cache
    def kept(html: str, style: str) -> bytes:
        if not FOLDER:
            return printed(html, style)
        page = "\0".join((get_language() or "", html, style))
        path = Path(FOLDER, f"{sha256(page.encode()).hexdigest()}.pdf")
        if not path.exists():
            drawn = printed(html, style)
            _put(path, lambda half: half.write_bytes(drawn))
        return path.read_bytes()

    return kept


def say_collected() -> None:
    """All that tests import is compiled by now: the gate lets the next parts begin."""
    if FOLDER:
        Path(FOLDER, "collected").touch()


@contextmanager
def migrated_once() -> Iterator[None]:
    """The first part on SQLite runs the migrations and leaves a copy; the next waits for that copy."""
    if not FOLDER or connection.vendor != "sqlite":
        yield
        return
    template = Path(FOLDER, "migrated.sqlite3")
    creation: Any = connection.creation
    made = creation._create_test_db

    def filled(*args: Any, **options: Any) -> Any:
        name = made(*args, **options)
        _take_turn()
        if template.exists():
            shutil.copyfile(template, name)
        return name

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(creation, "_create_test_db", filled)
        yield


def _take_turn() -> None:
    """Waits for the part that migrates. The system gives the turn back where a part dies with it."""
    held = os.open(Path(FOLDER, "migrating"), os.O_CREAT | os.O_RDWR)
    _turn.callback(os.close, held)
    fcntl.flock(held, fcntl.LOCK_EX)


def leave_migrated(database: str) -> None:
    """Leaves the database, which nothing was written to but by its migrations, to the next part."""
    template = Path(FOLDER, "migrated.sqlite3")
    if FOLDER and connection.vendor == "sqlite" and not template.exists():
        _put(template, lambda half: _copy(database, half))
    _turn.close()


def _copy(database: str, to: Path) -> None:
    with closing(sqlite3.connect(database)) as source, closing(sqlite3.connect(to)) as copy:
        source.backup(copy)


def _put(path: Path, write: Callable[[Path], Any]) -> None:
    """Writes beside and moves: another part sees the whole or nothing."""
    handle, name = mkstemp(dir=FOLDER)
    os.close(handle)
    write(Path(name))
    os.replace(name, path)
