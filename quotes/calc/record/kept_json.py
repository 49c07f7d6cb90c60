"""The fingerprint of a value as it is kept, without the class that it was made of.

`quotes.calc.ask.fingerprint` takes the value itself; a class that has grown a field since would give another.
"""

from __future__ import annotations

import hashlib
import json


def kept_fingerprint(kept: object) -> str:
    """SHA-256, in hexadecimal, of JSON with sorted keys and no blanks."""
    text = json.dumps(kept, sort_keys=True, separators=(",", ":"), ensure_ascii=False)
    return hashlib.sha256(text.encode()).hexdigest()
