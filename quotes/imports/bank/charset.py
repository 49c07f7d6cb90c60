"""The text of a file: its character set is found out, or is the one that was chosen."""

from __future__ import annotations

import codecs

from catalogue.calc.said import say, to_say
from quotes.imports.faults import FileFault

CHARSETS = {
    "utf-8": "UTF-8",
    "utf-16": "UTF-16",
    "cp1252": to_say("Windows-1252, Western Europe"),
    "iso-8859-1": to_say("ISO 8859-1, Western Europe"),
    "iso-8859-15": to_say("ISO 8859-15, Western Europe with the euro"),
    "cp1250": to_say("Windows-1250, Central Europe"),
    "iso-8859-2": to_say("ISO 8859-2, Central Europe"),
    "cp1251": to_say("Windows-1251, Cyrillic"),
    "cp850": to_say("DOS 850, Western Europe"),
    "mac-roman": "Mac Roman",
}
"""By their name in Python; what a person may choose."""
WIDE_MARKS = (codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)
SAMPLE = 4000
NOT_TEXT = (b"PK\x03\x04", b"\xd0\xcf\x11\xe0", b"%PDF", b"\x1f\x8b")
"""How workbooks, papers and packed files begin."""


def decoded(content: bytes, charset: str = "") -> tuple[str, str]:
    """The text of a file and its character set. FileFault where it is none, or cut off within a letter."""
    if content.startswith(NOT_TEXT):
        raise FileFault(
            say("This is a workbook, a paper or a packed file. Allowed is a CSV file, which is text.")
        )
    if charset and charset not in CHARSETS:
        raise FileFault(
            say(
                "“{charset}” is no known character set. Allowed are {names}.",
                charset=charset,
                names=", ".join(CHARSETS),
            )
        )
    chosen = charset or guessed_charset(content)
    try:
        return content.decode(codec_of(content, chosen)), chosen
    except UnicodeDecodeError as error:
        line = _line(content[: error.start], chosen)
        if error.end >= len(content) and chosen in ("utf-8", "utf-16"):
            raise cut_off(line, say("it ends in the middle of a letter")) from error
        raise FileFault(
            say(
                "Line {line} holds a character that is not {charset}. Choose another character set.",
                line=line,
                charset=say(CHARSETS[chosen]),
            )
        ) from error


def cut_off(line: int, how: str) -> FileFault:
    """Refuses a file whole: a payment may be missing from it, or be half there."""
    return FileFault(
        say(
            "The file is cut off: line {line} is its last, and {how}. Nothing was taken in: "
            "fetch it from the bank again, or take out what follows the last payment.",
            line=line,
            how=how,
        )
    )


def guessed_charset(content: bytes) -> str:
    """The character set that the bytes look like."""
    if content.startswith(WIDE_MARKS) or _wide_order(content):
        return "utf-16"
    try:
        content.decode("utf-8")
        return "utf-8"
    except UnicodeDecodeError as error:
        # A letter of UTF-8 before a break at the very end: that is UTF-8 cut off, and no other set.
        if error.reason == "unexpected end of data" and not content[: error.start].isascii():
            return "utf-8"
    try:
        content.decode("cp1252")
        return "cp1252"
    except UnicodeDecodeError:
        return "iso-8859-1"


def codec_of(content: bytes, charset: str) -> str:
    """The name by which Python decodes it: with its mark taken off, and in the order of its bytes."""
    if charset == "utf-8":
        return "utf-8-sig"
    if charset == "utf-16" and not content.startswith(WIDE_MARKS):
        return _wide_order(content) or "utf-16-le"
    return charset


def _wide_order(content: bytes) -> str:
    """The order of bytes of UTF-16 without its mark: in Western text every other byte is nought."""
    sample = content[:SAMPLE]
    even, odd = sample[::2].count(0), sample[1::2].count(0)
    most = len(sample) // 2
    if most and odd * 2 > most and not even:
        return "utf-16-le"
    return "utf-16-be" if most and even * 2 > most and not odd else ""


def _line(before: bytes, charset: str) -> int:
    """The line that a byte stands in, from 1."""
    wide = 2 if charset == "utf-16" else 1
    text = before[::1] if wide == 1 else before.replace(b"\x00", b"")
    return text.count(b"\n") + 1 if b"\n" in text else text.count(b"\r") + 1
