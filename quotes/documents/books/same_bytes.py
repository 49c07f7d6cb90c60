"""Saves a workbook so that the same cells are the same bytes, whenever that is done."""

from __future__ import annotations

import shutil
from datetime import datetime
from tempfile import TemporaryFile
from typing import TYPE_CHECKING, Any
from zipfile import ZIP_DEFLATED, ZipFile, ZipInfo

if TYPE_CHECKING:
    from openpyxl import Workbook

EPOCH = (1980, 1, 1, 0, 0, 0)
"""The first moment that a packed file can name."""


class TimelessZip(ZipFile):
    """A packed file whose parts all bear the same moment, instead of that at which they were packed."""

    def writestr(self, zinfo_or_arcname: Any, data: Any, *_: Any, **__: Any) -> None:
        super().writestr(_part(str(zinfo_or_arcname)), data)

    def write(self, filename: Any, arcname: Any = None, *_: Any, **__: Any) -> None:
        with open(filename, "rb") as part, self.open(_part(str(arcname)), "w", force_zip64=False) as packed:
            shutil.copyfileobj(part, packed, 1 << 16)


def _part(name: str) -> ZipInfo:
    info = ZipInfo(name, EPOCH)
    info.compress_type = ZIP_DEFLATED
    info.create_system = 3
    return info


def saved(book: Workbook, at: datetime) -> bytes:
    """The workbook's bytes; `at` is the moment that its properties name."""
    from openpyxl.writer.excel import ExcelWriter

    book.properties.created = book.properties.modified = at.replace(tzinfo=None, microsecond=0)
    with TemporaryFile() as out:
        ExcelWriter(book, TimelessZip(out, "w", ZIP_DEFLATED)).save()
        out.seek(0)
        return out.read()
