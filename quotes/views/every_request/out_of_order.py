"""What a person sees when the site is out of order: what happened, what was kept, and a way to send again."""

from __future__ import annotations

import errno
import sqlite3
import sys
from collections.abc import Iterator
from dataclasses import dataclass

import psycopg
from django.db import InterfaceError, OperationalError
from django.http import HttpRequest, HttpResponse
from django.template.loader import render_to_string

from catalogue.calc.settled import UnknownEngineTypeError
from catalogue.models.file_store import DamagedFile, FileTrouble, StoreSilent
from catalogue.queries import EmptyCatalogueError
from quotes.views.every_request.hand_back import handed_back

RETRY_SECONDS = 30
FULL = frozenset({errno.ENOSPC, errno.EDQUOT, errno.EFBIG})
NO_WRITING = frozenset({errno.EROFS, errno.EACCES, errno.EPERM})


@dataclass(frozen=True, slots=True)
class Trouble:
    """One way in which the site can be out of order."""

    code: str
    status: int = 503


FULL_DISK, NO_DATABASE, BUSY = Trouble("full"), Trouble("database"), Trouble("busy")
READ_ONLY, FAULT = Trouble("read-only"), Trouble("fault", 500)
NO_CATALOGUE, NO_TYPE = Trouble("catalogue", 409), Trouble("engine type", 409)
"""The page needs what the catalogue does not hold; the owner loads it, and nothing was broken."""
FILE_GONE, FILE_DAMAGED = Trouble("file gone", 500), Trouble("file damaged", 500)
FILES_SILENT = Trouble("files silent")
BY_SQLITE = {
    sqlite3.SQLITE_FULL: FULL_DISK,
    sqlite3.SQLITE_BUSY: BUSY,
    sqlite3.SQLITE_LOCKED: BUSY,
    sqlite3.SQLITE_READONLY: READ_ONLY,
}
BY_POSTGRESQL: tuple[tuple[type[psycopg.Error], Trouble], ...] = (
    (psycopg.errors.DiskFull, FULL_DISK),
    (psycopg.errors.ReadOnlySqlTransaction, READ_ONLY),
    (psycopg.errors.LockNotAvailable, BUSY),
    (psycopg.errors.DeadlockDetected, BUSY),
    (psycopg.errors.QueryCanceled, BUSY),
)


def out_of_order(request: HttpRequest) -> HttpResponse:
    """Answers in the place of a page that has failed. It asks no database, which may be what is missing."""
    error = sys.exc_info()[1]
    trouble, file = trouble_of(error), _file_behind(error)
    told = {"trouble": trouble.code, "file": file, **handed_back(request)}
    answer = HttpResponse(render_to_string("out_of_order.html", told), status=trouble.status)
    if trouble.status != FULL_DISK.status:
        return answer
    answer["Retry-After"] = str(RETRY_SECONDS)
    answer["Cache-Control"] = "no-store"
    return answer


def trouble_of(error: BaseException | None) -> Trouble:
    """What is behind an error; a fault of the program where it is none of those that pass."""
    if file := _file_behind(error):
        return trouble_with(file)
    for one in _behind(error):
        if isinstance(one, OSError) and one.errno in FULL:
            return FULL_DISK
        if isinstance(one, OSError) and one.errno in NO_WRITING:
            return READ_ONLY
        if isinstance(one, EmptyCatalogueError | UnknownEngineTypeError):
            return NO_CATALOGUE if isinstance(one, EmptyCatalogueError) else NO_TYPE
        if isinstance(one, sqlite3.OperationalError):
            # What was made up by hand, as in a test, has no code.
            code = getattr(one, "sqlite_errorcode", sqlite3.SQLITE_ERROR) & 0xFF
            return BY_SQLITE.get(code, FAULT if code == sqlite3.SQLITE_ERROR else NO_DATABASE)
        for kind, trouble in BY_POSTGRESQL:
            if isinstance(one, kind):
                return trouble
    if isinstance(error, OperationalError | InterfaceError):
        return NO_DATABASE
    return FAULT


def _file_behind(error: BaseException | None) -> FileTrouble | None:
    """The kept file that could not be had, where that is what went wrong."""
    return next((one for one in _behind(error) if isinstance(one, FileTrouble)), None)


def trouble_with(file: FileTrouble) -> Trouble:
    """What it means for whoever wants the file."""
    if isinstance(file, StoreSilent):
        return FILES_SILENT
    return FILE_DAMAGED if isinstance(file, DamagedFile) else FILE_GONE


def _behind(error: BaseException | None) -> Iterator[BaseException]:
    """The error, and those that it came of, the innermost first."""
    chain = []
    while error is not None:
        chain.append(error)
        error = error.__cause__ or error.__context__
    yield from reversed(chain)
