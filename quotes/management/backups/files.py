"""The files of a workshop, copied out of where they are kept and put back into an empty place."""

from __future__ import annotations

import shutil
from pathlib import Path

from django.core.files.base import ContentFile
from django.core.files.storage import FileSystemStorage, Storage

from catalogue.models.file_store import walk
from quotes.management.backups.manifest import BackupError

HALF_WRITTEN = "*.part"


def copy_out(store: Storage, folder: Path) -> None:
    """Every file there is; none is ever changed, so nobody has to be kept from writing."""
    if isinstance(store, FileSystemStorage):
        if Path(store.location).is_dir():
            shutil.copytree(store.location, folder, ignore=shutil.ignore_patterns(HALF_WRITTEN))
        return
    for name in walk(store):
        target = folder / name
        target.parent.mkdir(parents=True, exist_ok=True)
        with store.open(name) as file:
            target.write_bytes(file.read())


def refuse_where_files_stand(store: Storage) -> None:
    if next(walk(store), None) is not None:
        raise BackupError(
            f"{where(store)} holds files already. A backup is put back into an empty place only."
        )


def put_in(folder: Path, store: Storage) -> None:
    """The files of a backup; into a folder whole or not at all."""
    if not folder.is_dir():
        return
    if isinstance(store, FileSystemStorage):
        target = Path(store.location)
        aside = target.with_name(target.name + ".restoring")
        shutil.rmtree(aside, ignore_errors=True)
        shutil.copytree(folder, aside)
        # Nothing but empty folders can stand there.
        shutil.rmtree(target, ignore_errors=True)
        aside.replace(target)
        return
    for path in sorted(folder.rglob("*")):
        if path.is_file():
            store.save(path.relative_to(folder).as_posix(), ContentFile(path.read_bytes()))


def where(store: Storage) -> str:
    """The place in words."""
    if isinstance(store, FileSystemStorage):
        return str(store.location)
    return f"the bucket {getattr(store, 'bucket_name', store)}"
