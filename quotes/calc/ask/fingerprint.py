"""The fingerprint of a frozen value, the same on every database and in every order of its keys."""

from __future__ import annotations

import hashlib
import json

from quotes.calc.ask.request import Value


def fingerprint(value: Value) -> str:
    """SHA-256, in hexadecimal, of the value's JSON with sorted keys and no blanks."""
    plain = value.model_dump(mode="json", by_alias=True)
    text = json.dumps(plain, sort_keys=True, separators=(",", ":"), ensure_ascii=False)
    return hashlib.sha256(text.encode()).hexdigest()
