"""The fingerprint of a sheet: the same wherever it was kept, another for the smallest difference."""

from __future__ import annotations

import json

from quotes.calc.ask.fingerprint import fingerprint
from quotes.calc.sheet.issued_values import Sheet
from tests.sample_sheet import sample_sheet


def kept(sheet: Sheet) -> Sheet:
    """The sheet as it comes back from a database that sorts keys."""
    return Sheet.model_validate(
        json.loads(json.dumps(sheet.model_dump(mode="json", by_alias=True), sort_keys=True))
    )


def test_a_sheet_that_was_kept_has_the_fingerprint_it_had_before() -> None:
    assert fingerprint(kept(sample_sheet())) == fingerprint(sample_sheet())


def test_another_last_day_is_another_fingerprint() -> None:
    assert fingerprint(sample_sheet(valid_until="2026-12-26")) != fingerprint(sample_sheet())


def test_it_is_a_sha_256_in_hexadecimal() -> None:
    assert len(bytes.fromhex(fingerprint(sample_sheet()))) == 32
