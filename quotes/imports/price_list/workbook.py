"""The lines of one sheet of an XLSX workbook, read where it can do no harm, one block after another."""

from __future__ import annotations

import io
import json
import subprocess
import sys
import zipfile
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import IO, Any

from catalogue.calc.said import say, say_figure
from quotes.imports.faults import FileFault
from quotes.imports.price_list.limits import (
    KINDS,
    LONGEST_CELL,
    MOST_COLUMNS,
    MOST_LINES,
    MOST_UNPACKED,
    Figure,
    Line,
    MadeDate,
    Odd,
    Raw,
)

CHILD = Path(__file__).with_name("workbook_child.py")
PARTS = {"[Content_Types].xml", "xl/workbook.xml"}


@dataclass(frozen=True, slots=True)
class ChosenSheet:
    """Which sheet of a workbook is read, and what all of them are called."""

    name: str
    names: tuple[str, ...]


FirstLines = dict[str, str]
"""By sheet: what was said of its first lines. Under no name: which sheet is read where none is named."""
MOST_KEPT = 2_000_000


@contextmanager
def opened_sheet(
    content: bytes, sheet: str, first: int = 0, kept: FirstLines | None = None
) -> Iterator[tuple[ChosenSheet, Iterator[Line]]]:
    """The sheet of that name, or the first that is not empty, and its filled lines; only `first` of them.

    FileFault where it can't be read, also while the lines are. The first lines that are `kept` are not
    unpacked again, and those that are not are put there.
    """
    if first and kept is not None:
        yield _first_lines(content, sheet, first, kept)
        return
    with _read_aside(content, sheet, first) as child:
        assert child.stdout is not None
        found = _found(child.stdout.readline(), sheet)
        yield _known(found), _lines(child, child.stdout, found["aside"])


def _first_lines(
    content: bytes, sheet: str, first: int, kept: FirstLines
) -> tuple[ChosenSheet, Iterator[Line]]:
    name = sheet.strip().casefold()
    said = kept.get(name or kept.get("", ""))
    if said is None:
        with _read_aside(content, sheet, first) as child:
            assert child.stdout is not None
            found, rest = _found(head := child.stdout.readline(), sheet), child.stdout.read()
            if child.wait() != 0:
                raise _damaged()
        said = (head + rest).decode()
        if len(said) < MOST_KEPT:
            own = found["sheet"].strip().casefold()
            kept |= {own: said} if name else {own: said, "": own}
    head_line, *blocks = said.rstrip("\n").split("\n")
    found = _found(head_line.encode(), sheet)
    return _known(found), _lines_of(blocks, found["aside"])


def _known(found: dict[str, Any]) -> ChosenSheet:
    return ChosenSheet(found["sheet"], tuple(found["names"]))


@contextmanager
def _read_aside(content: bytes, sheet: str, first: int) -> Iterator[subprocess.Popen[bytes]]:
    """The process that reads the workbook, which has been handed over to it."""
    _check_package(content)
    command = [sys.executable, "-I", str(CHILD), sheet, str(MOST_LINES), str(MOST_COLUMNS), str(first)]
    # Our own module, without a shell.
    child = subprocess.Popen(  # noqa: S603
        command, stdin=subprocess.PIPE, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL
    )
    assert child.stdin is not None
    assert child.stdout is not None
    try:
        _hand_over(child.stdin, content)
        yield child
    finally:
        child.kill()
        child.stdout.close()
        child.wait()


def _check_package(content: bytes) -> None:
    """Refuse what is no workbook, and what says that it unpacks to too much; one that lies ends the child."""
    try:
        with zipfile.ZipFile(io.BytesIO(content)) as package:
            parts = {part.filename: part for part in package.infolist()}
    except (zipfile.BadZipFile, ValueError, NotImplementedError, OSError) as error:
        raise _damaged() from error
    if not set(parts) >= PARTS:
        raise FileFault(
            say("The file is a packed file, but no XLSX workbook. Allowed is {kinds}.", kinds=say(KINDS))
        )
    if sum(part.file_size for part in parts.values()) > MOST_UNPACKED:
        raise FileFault(
            say(
                "The workbook unpacks to too much. Allowed are {bytes} bytes.",
                bytes=say_figure(MOST_UNPACKED, 0),
            )
        )


def _hand_over(into: IO[bytes], content: bytes) -> None:
    """The child may have ended already: what it said then tells why."""
    try:
        into.write(content)
        into.close()
    except BrokenPipeError:
        return


def _found(said: bytes, sheet: str) -> dict[str, Any]:
    found: dict[str, Any] = json.loads(said) if said else {"damaged": ""}
    if "locked" in found:
        raise FileFault(say("The workbook is locked with a password. Save it without one and try again."))
    if "damaged" in found:
        raise _damaged()
    if "sheet" not in found:
        names = ", ".join(found["names"])
        raise FileFault(say("There is no sheet “{sheet}”, only: {names}.", sheet=sheet, names=names))
    height, width = found["size"]
    if height > MOST_LINES or width > MOST_COLUMNS:
        raise FileFault(
            say(
                "The sheet “{sheet}” has {height} lines and {width} columns. Allowed are {rows} lines and "
                "{columns} columns: split the list, or copy its lines into an empty workbook.",
                sheet=found["sheet"],
                height=say_figure(height, 0),
                width=say_figure(width, 0),
                rows=say_figure(MOST_LINES, 0),
                columns=MOST_COLUMNS,
            )
        )
    return found


def _damaged() -> FileFault:
    return FileFault(
        say(
            "The workbook can't be read: it is damaged, unpacks to too much, or has cells far away from the "
            "others. Copy the lines into an empty workbook and try again."
        )
    )


def _lines(child: subprocess.Popen[bytes], out: IO[bytes], aside: int) -> Iterator[Line]:
    """The filled lines. FileFault where the child ended too early."""
    yield from _lines_of(out, aside)
    if child.wait() != 0:
        raise _damaged()


def _lines_of(blocks: Iterable[bytes | str], aside: int) -> Iterator[Line]:
    """The filled lines of what the child said. `aside`: columns left out as blank."""
    number = 0
    before: list[Raw] = [""] * aside
    for said in blocks:
        for cells in json.loads(
            said, object_hook=_marked, parse_float=Figure, parse_int=Figure, parse_constant=Odd
        ):
            number += 1
            if any(cells):
                yield number, before + cells if aside else cells


def _marked(said: dict[str, str]) -> Raw:
    if "date" in said:
        return MadeDate(said["date"])
    return Odd(said["odd"][:LONGEST_CELL])
