"""Writes all that is held on one customer: records as JSON, files in a zip beside it."""

from __future__ import annotations

import json
import zipfile
from pathlib import Path
from typing import Any

from django.core.management.base import BaseCommand, CommandError, CommandParser
from django.utils import timezone

from catalogue.models.file_store import DamagedFile, FileGone
from quotes.management.one_customer import customer_named
from quotes.models import Customer
from quotes.queries.record.held import LEFT_OUT, NOT_BY_KEY, files_of, meanings, records_of
from quotes.queries.record.moment import one_moment

FORMAT = 1


class Command(BaseCommand):
    """`export_customer CUSTOMER --out FILE.json`: what is held on him as JSON, and his files in FILE.zip.

    Keys of the JSON: `format`, `made_at`; `means`, what each kind of record is; `records`, rows by kind with
    their fields (keys to other rows end in `_id`); `files`, each with `of`, `name`, `content_type`, `bytes`,
    `sha256` and its `path` in the zip, or `missing` with why; `left_out` and `not_by_key`, what is not here
    and why.
    """

    help = (__doc__ or "").partition("\n")[0]

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument(
            "customer", help="number of the customer, as in the address of his page, or his name"
        )
        parser.add_argument(
            "--out", type=Path, required=True, metavar="FILE.json", help="a file not there yet"
        )

    def handle(self, *args: Any, customer: str, out: Path, **options: Any) -> None:
        archive = out.with_suffix(".zip")
        if out.suffix != ".json":
            raise CommandError(f"--out {out}: a name that ends in .json; the zip is put beside it")
        for path in (out, archive):
            if path.exists():
                raise CommandError(f"{path} is there already: name a new one")
        with one_moment():
            said = _written(customer_named(customer), out, archive)
        self.stdout.write(said)


def _written(customer: Customer, out: Path, archive: Path) -> str:
    records = records_of(customer)
    try:
        files = _copied(customer, archive)
        whole = {
            "format": FORMAT,
            "made_at": timezone.now().isoformat(),
            "means": meanings(),
            "records": records,
            "files": files,
            "left_out": LEFT_OUT,
            "not_by_key": NOT_BY_KEY,
        }
        out.write_text(json.dumps(whole, default=str, ensure_ascii=False, indent=1) + "\n")
    except OSError as error:
        archive.unlink(missing_ok=True)
        out.unlink(missing_ok=True)
        raise CommandError(f"Nothing was exported: {error}") from error
    rows = sum(len(of_kind) for of_kind in records.values())
    there = sum("missing" not in file for file in files)
    lacking = [f"\nNot in it: {file['missing']}" for file in files if "missing" in file]
    return f"{out}: {rows} records on {customer.name}; {archive}: {there} files{''.join(lacking)}"


def _copied(customer: Customer, archive: Path) -> list[dict[str, Any]]:
    """Copy the files into the zip, and say what each is."""
    files = []
    with zipfile.ZipFile(archive, "x", zipfile.ZIP_DEFLATED) as into:
        for of, file in files_of(customer):
            told: dict[str, Any] = {
                "of": of,
                "name": file.name,
                "content_type": file.content_type,
                "sha256": file.sha256,
            }
            try:
                content = bytes(file.content)
            except (FileGone, DamagedFile) as trouble:
                files.append({**told, "missing": str(trouble)})
                continue
            path = f"files/{file.pk}-{Path(file.name).name}"
            into.writestr(path, content)
            files.append({**told, "bytes": len(content), "path": path})
    return files
