"""Files that nobody means to hand in: damaged, bombs, of another kind, tables with wild cells."""

from __future__ import annotations

import csv
import io
import struct
import zipfile
import zlib
from collections.abc import Sequence
from functools import lru_cache

from hypothesis import strategies as st
from openpyxl import Workbook
from PIL import Image

from tests.fuzz.wild import anything

MEGABYTE = 1024 * 1024
Content = tuple[str, bytes, str]
"""Name, bytes, type as the browser states it."""


@lru_cache
def picture(sort: str = "JPEG", mode: str = "RGB", size: tuple[int, int] = (40, 30)) -> bytes:
    held = io.BytesIO()
    Image.new(mode, size).save(held, sort)
    return held.getvalue()


@lru_cache
def huge_picture() -> bytes:
    """A PNG that says it is 60,000 pixels wide and high, in a few bytes."""
    head = struct.pack(">IIBBBBB", 60_000, 60_000, 8, 2, 0, 0, 0)
    return (
        b"\x89PNG\r\n\x1a\n"
        + _chunk(b"IHDR", head)
        + _chunk(b"IDAT", zlib.compress(b"\0" * 90))
        + _chunk(b"IEND", b"")
    )


def _chunk(name: bytes, data: bytes) -> bytes:
    return struct.pack(">I", len(data)) + name + data + struct.pack(">I", zlib.crc32(name + data))


@lru_cache
def bomb() -> bytes:
    """A workbook that unpacks to two hundred times its size."""
    held = io.BytesIO()
    with zipfile.ZipFile(held, "w", zipfile.ZIP_DEFLATED) as package:
        for name in ("[Content_Types].xml", "xl/workbook.xml", "xl/worksheets/sheet1.xml"):
            package.writestr(name, b"<a>" + b"0" * (20 * MEGABYTE))
    return held.getvalue()


@lru_cache
def with_entities() -> bytes:
    """A workbook whose XML names entities and a file of the machine."""
    text = b'<?xml version="1.0"?><!DOCTYPE x [<!ENTITY e SYSTEM "file:///etc/passwd">]><x>&e;</x>'
    held = io.BytesIO()
    with zipfile.ZipFile(held, "w") as package:
        for name in ("[Content_Types].xml", "xl/workbook.xml", "xl/worksheets/sheet1.xml"):
            package.writestr(name, text)
    return held.getvalue()


def workbook(rows: Sequence[Sequence[str]], sheet: str) -> bytes:
    book = Workbook()
    page = book.active
    assert page is not None
    page.title = sheet
    for row in rows:
        page.append([cell[:30_000] for cell in row])
    held = io.BytesIO()
    book.save(held)
    return held.getvalue()


def delimited(rows: Sequence[Sequence[str]], separator: str, charset: str) -> bytes:
    held = io.StringIO(newline="")
    csv.writer(held, delimiter=separator).writerows(rows)
    return held.getvalue().encode(charset, "replace")


@st.composite
def spoiled(draw: st.DrawFn, content: bytes) -> bytes:
    """The bytes as they are, cut off, or with some of them others."""
    # Of no certain length: a workbook holds the second in which it was made.
    place = draw(st.integers(0, 1 << 20)) % max(1, len(content))
    match draw(st.sampled_from(["whole", "cut", "byte", "doubled", "lead"])):
        case "cut":
            return content[:place]
        case "byte":
            return content[:place] + draw(st.binary(min_size=1, max_size=8)) + content[place + 1 :]
        case "doubled":
            return content + content[place:]
        case "lead":
            return (
                draw(st.sampled_from([b"\xff\xfe", b"\xef\xbb\xbf", b"PK\x03\x04", b"\n\n", b"\x00"]))
                + content
            )
    return content


@st.composite
def changed_table(draw: st.DrawFn, rows: list[list[str]], sheet: str) -> bytes:
    """A sound table with some cells, lines and headings changed: mostly as CSV, now and then a workbook."""
    table = [list(row) for row in rows]
    for _ in range(draw(st.integers(0, 5))):
        line = draw(st.integers(0, len(table) - 1))
        place = draw(st.integers(0, max(0, len(table[line]) - 1)))
        match draw(st.sampled_from(["cell", "cell", "cell", "short", "long", "line", "swap"])):
            case "cell" if table[line]:
                table[line][place] = draw(anything)[:40_000]
            case "short":
                table[line] = table[line][:place]
            case "long":
                table[line].append(draw(anything))
            case "line":
                table.insert(line, list(table[line]))
            case "swap":
                table[line], table[-1] = table[-1], table[line]
    if not draw(st.integers(0, 24)):
        return draw(spoiled(_book(table, sheet)))
    separator = draw(st.sampled_from([",", ",", ";", "\t", "|"]))
    charset = draw(st.sampled_from(["utf-8", "utf-8", "utf-8-sig", "utf-16", "cp1252"]))
    return draw(spoiled(delimited(table, separator, charset)))


def _book(table: list[list[str]], sheet: str) -> bytes:
    """What openpyxl will not write into a cell is left out."""
    plain = [["".join(each for each in cell if each.isprintable()) for cell in row] for row in table]
    return workbook(plain, sheet)


SAMPLES: tuple[Content, ...] = (
    ("empty.jpg", b"", "image/jpeg"),
    ("text.jpg", b"no picture", "image/jpeg"),
    ("page.html", b"<html><script>alert(1)</script>", "text/html"),
    ("drawing.svg", b'<svg xmlns="http://www.w3.org/2000/svg"><script>1</script></svg>', "image/svg+xml"),
    ("../../up.jpg", picture(), "image/jpeg"),
    ("a\x00b.jpg", picture(), "image/jpeg"),
    ("x" * 300 + ".jpg", picture(), "image/jpeg"),
    ("sound.jpg", picture(), "image/jpeg"),
    ("sound.png", picture("PNG", "RGBA"), "image/png"),
    ("palette.gif", picture("GIF", "P"), "image/gif"),
    ("grey.tiff", picture("TIFF", "I;16"), "image/tiff"),
    ("print.jpg", picture("JPEG", "CMYK"), "application/octet-stream"),
    ("dot.png", picture("PNG", "1", (1, 1)), "image/png"),
    ("long.png", picture("PNG", "L", (20_000, 1)), "image/png"),
    ("huge.png", huge_picture(), "image/png"),
    ("bomb.xlsx", bomb(), "application/zip"),
    ("entities.xlsx", with_entities(), "application/zip"),
    ("paper.pdf", b"%PDF-1.7\n%%EOF", "application/pdf"),
    ("nul.csv", b"\x00" * 50, "text/csv"),
    ("wide.csv", b"," * 30_000, "text/csv"),
    ("long.csv", b"a\n" * 30_000, "text/csv"),
    ("deep.json", b"{" + b'"a":{' * 50_000, "application/json"),
    ("large.csv", b"x" * (6 * MEGABYTE), "text/csv"),
)
file_contents: st.SearchStrategy[Content] = st.one_of(
    st.sampled_from(SAMPLES),
    spoiled(picture()).map(lambda content: ("spoiled.jpg", content, "image/jpeg")),
    spoiled(picture("PNG")).map(lambda content: ("spoiled.png", content, "image/png")),
    st.binary(max_size=300).map(lambda content: ("bytes", content, "application/octet-stream")),
)
