"""Bytes kept outside of the database: in a folder, or in a bucket that several machines share.

A file is named by its SHA-256 and a few letters more, so that no two rows share one: what is erased for one
row no other misses. It is written before the row that names it, and never changed.
"""

from __future__ import annotations

import hashlib
import os
import secrets
from collections.abc import Iterable, Iterator
from datetime import datetime
from pathlib import Path
from typing import IO, Any, ClassVar

from django.core.files.base import ContentFile, File
from django.core.files.storage import FileSystemStorage, Storage, storages

SMALL_BYTES = 8 * 1024
"""What is smaller stays in its row: it comes along with it, and costs no way to a bucket."""


class FileTrouble(OSError):
    """A kept file that can't be had just now. Its words are for the log and commands; a page has its own."""

    why: ClassVar[str]
    file = ""
    """The name that people know it by, where a row gave one."""
    kept_at: datetime | None = None

    def __init__(self, place: str, because: object = "") -> None:
        super().__init__(place)
        self.place, self.because = place, because

    def named(self, file: str, kept_at: datetime) -> None:
        """Say which it was, as far as a row knows."""
        self.file, self.kept_at = file, kept_at

    def __str__(self) -> str:
        which = f"{self.file} ({self.place})" if self.file else self.place
        return f"{which} {self.why}{f': {self.because}' if self.because else ''}"


class FileGone(FileTrouble, FileNotFoundError):
    """Nothing lies where it was kept."""

    why = "is gone from where files are kept"


class DamagedFile(FileTrouble):
    """What lies there is not what was kept."""

    why = "is not what was kept: its SHA-256 differs"


class StoreSilent(FileTrouble):
    """Where files are kept gives no answer, or none that helps: nothing is known to be lost."""

    why = "can't be had: where files are kept does not answer"


def file_store() -> Storage:
    """Where files lie, by the settings."""
    return storages["default"]


def keep_bytes(content: bytes, sha256: str, store: Storage | None = None) -> str:
    """Where they lie now, on the disk or in the bucket for good."""
    place = f"{sha256[:2]}/{sha256}-{secrets.token_hex(4)}"
    saved = (store or file_store()).save(place, ContentFile(content))
    if saved != place:
        raise DamagedFile(place, f"it was kept as {saved}")
    return place


def kept_bytes(place: str, sha256: str) -> bytes:
    """The bytes that were kept, or a FileTrouble that says why they can't be had."""
    content = found_bytes(place)
    if hashlib.sha256(content).hexdigest() != sha256:
        raise DamagedFile(place)
    return content


def found_bytes(place: str) -> bytes:
    """What lies there, whether or not it is what was kept."""
    try:
        with file_store().open(place) as file:
            content: bytes = file.read()
    except FileTrouble:
        raise
    except FileNotFoundError as error:
        raise FileGone(place) from error
    except OSError as error:
        raise StoreSilent(place, error.strerror) from error
    return content


def drop_bytes(places: Iterable[str]) -> None:
    """They are gone; those that are gone already are passed over."""
    for place in places:
        file_store().delete(place)


def walk(store: Storage, folder: str = "") -> Iterator[str]:
    """Every file there is, whoever put it there."""
    try:
        folders, files = store.listdir(folder)
    except FileNotFoundError:
        return
    within = f"{folder}/" if folder else ""
    yield from (f"{within}{name}" for name in sorted(files) if name)
    for name in sorted(folders):
        yield from walk(store, f"{within}{name}")


class Folder(FileSystemStorage):
    """A folder whose files are on the disk before anybody is told of them."""

    def __init__(self, *, synced: bool = True, **more: Any) -> None:
        super().__init__(**more)
        self.synced = synced

    def _open(self, name: str, mode: str = "rb") -> File[bytes]:
        if not Path(self.location).is_dir():
            # A share that is not mounted: none of its files is known to be gone.
            raise StoreSilent(name, f"there is no folder {self.location}")
        return File(Path(self.path(name)).open(mode))

    def _save(self, name: str, content: Any) -> str:
        path = Path(self.path(name))
        path.parent.mkdir(parents=True, exist_ok=True)
        beside = path.with_name(f"{path.name}.part")
        try:
            with beside.open("xb") as file:
                for chunk in content.chunks():
                    file.write(chunk)
                self._sync(file)
            beside.replace(path)
        except BaseException:
            beside.unlink(missing_ok=True)
            raise
        for above in (path.parent, path.parent.parent):
            self._sync_folder(above)
        return name

    def _sync(self, file: IO[bytes]) -> None:
        if self.synced:
            file.flush()
            os.fsync(file.fileno())

    def _sync_folder(self, folder: Path) -> None:
        """A name is kept only when its folder is."""
        if not self.synced:
            return
        opened = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(opened)
        finally:
            os.close(opened)
