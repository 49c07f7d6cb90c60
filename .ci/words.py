"""Compiles the files of words that are newer than what was compiled from them: only babel is needed."""

from os import getpid
from pathlib import Path

from babel.messages.mofile import write_mo
from babel.messages.pofile import read_po

for written in sorted(Path("quotes/locale").glob("*/*/LC_MESSAGES/django.po")):
    compiled = written.with_suffix(".mo")
    if compiled.exists() and compiled.stat().st_mtime_ns > written.stat().st_mtime_ns:
        continue
    with written.open("rb") as source:
        words = read_po(source, locale=written.parent.parent.name)
    half = compiled.with_suffix(f".{getpid()}")
    with half.open("wb") as target:
        write_mo(target, words)
    half.replace(compiled)  # whoever reads meanwhile finds the one or the other whole
