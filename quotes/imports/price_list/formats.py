"""How a sheet shows the numbers of one column: 12E5 as 1.20E+06, and 123 with its noughts as 00123.

The reader of workbooks gives a number, not how it is shown. This looks for it in the sheet itself, and only
where part numbers are numbers at all.
"""

from __future__ import annotations

import io
import re
import zipfile
import zlib
from collections.abc import Iterator, Mapping
from html import unescape

SCIENTIFIC = (11, 48)
"""The formats that every workbook knows as 0.00E+00 and ##0.0E+0."""
FORMAT = re.compile(rb'<(?:\w+:)?numFmt [^>]*?numFmtId="(\d+)"[^>]*?formatCode="([^"]*)"')
CELL_FORMATS = re.compile(rb"<(?:\w+:)?cellXfs\b.*?</(?:\w+:)?cellXfs>", re.DOTALL)
USED = re.compile(rb'<(?:\w+:)?xf [^>]*?numFmtId="(\d+)"')
SHEET = re.compile(r'<(?:\w+:)?sheet [^>]*?name="([^"]*)"[^>]*?r:id="([^"]*)"')
TARGET = re.compile(r"<Relationship [^>]*>")
NOUGHTS = re.compile(r"0{2,15}")
MOST = 20_000_000
"""Bytes of the small parts."""
CHUNK = 1 << 20
LONGEST_CELL_HEAD = 200
DAMAGED = (KeyError, ValueError, zipfile.BadZipFile, zlib.error, OSError, EOFError, NotImplementedError)


def shown_numbers(content: bytes, sheet: str, place: int) -> Mapping[int, int]:
    """By line, how many digits a number of that column is shown with; 0 where it is shown as a power of ten.

    Empty where nothing is shown in such a way, or it can't be found out.
    """
    try:
        with zipfile.ZipFile(io.BytesIO(content)) as package:
            styles = _styles(_small(package, "xl/styles.xml"))
            if not styles:
                return {}
            head = rf'<(?:\w+:)?c r="{_letters(place)}(\d+)"[^>]*? s="(\d+)"'.encode()
            found = _found(package, _part(package, sheet), re.compile(head))
            return {line: styles[style] for line, style in found if style in styles}
    except DAMAGED:
        return {}


def _styles(styles: bytes) -> dict[int, int]:
    """The styles that matter by their number, each with its digits or 0."""
    digits = dict.fromkeys(SCIENTIFIC, 0)
    for number, code in FORMAT.findall(styles):
        said = unescape(code.decode("utf-8")).strip()
        if re.search(r"E[+-]", said):
            digits[int(number)] = 0
        elif NOUGHTS.fullmatch(said):
            digits[int(number)] = len(said)
    used = CELL_FORMATS.search(styles)
    numbers = [int(number) for number in USED.findall(used[0])] if used else []
    return {place: digits[number] for place, number in enumerate(numbers) if number in digits}


def _part(package: zipfile.ZipFile, sheet: str) -> str:
    """The part of the package that holds the sheet of that name."""
    book = _small(package, "xl/workbook.xml").decode("utf-8")
    wanted = {unescape(name): link for name, link in SHEET.findall(book)}[sheet]
    for relation in TARGET.findall(_small(package, "xl/_rels/workbook.xml.rels").decode("utf-8")):
        if f'Id="{wanted}"' in relation and (target := re.search(r'Target="([^"]*)"', relation)):
            path = target[1].lstrip("/")
            return path if path.startswith("xl/") else f"xl/{path}"
    raise KeyError(sheet)


def _found(package: zipfile.ZipFile, part: str, head: re.Pattern[bytes]) -> Iterator[tuple[int, int]]:
    """Line and style of each cell of the column, one piece of the part after another."""
    before = b""
    with package.open(part) as sheet:
        while chunk := sheet.read(CHUNK):
            text = before + chunk
            for cell in head.finditer(text):
                yield int(cell[1]), int(cell[2])
            before = text[-LONGEST_CELL_HEAD:]


def _small(package: zipfile.ZipFile, part: str) -> bytes:
    with package.open(part) as opened:
        return opened.read(MOST)


def _letters(place: int) -> str:
    """The letters of a column counted from 0: A, Z, AA.

    >>> _letters(0), _letters(25), _letters(26), _letters(701)
    ('A', 'Z', 'AA', 'ZZ')
    """
    letters, rest = "", place + 1
    while rest:
        rest, letter = divmod(rest - 1, 26)
        letters = chr(65 + letter) + letters
    return letters
