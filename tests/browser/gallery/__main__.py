"""Photographs every page of the site into out/gallery: `make gallery`.

Works on a copy of the data folder (DATA_DIR), so that the demo stays as it is. Three sets are taken: the
workshop as it stands, an empty one, and one with long names and long lists. Two pages of the first:
`python -m tests.browser.gallery full quote life`.
"""

from __future__ import annotations

import os
import sys
import tempfile
from pathlib import Path

SETS = ("full", "empty", "long")


def main(words: list[str]) -> int:
    """Takes the sets that are named, or all three; 1 where something was found wrong."""
    source = Path(os.environ.get("DATA_DIR", "data")).resolve()
    wanted, only = (
        [one for one in words if one in SETS] or list(SETS),
        [one for one in words if one not in SETS],
    )
    if len(wanted) > 1:
        codes = [os.spawnv(os.P_WAIT, sys.executable, _again(one, only)) for one in wanted]
        return max(codes)
    with tempfile.TemporaryDirectory() as place:
        os.environ |= {"DATA_DIR": place, "DJANGO_SETTINGS_MODULE": "quotes.settings", "DEBUG": "1"}
        os.environ["DJANGO_ALLOW_ASYNC_UNSAFE"] = "1"
        # Django reads the data folder's place when it is set up.
        from tests.browser.gallery.take import take_set

        return take_set(wanted[0], source, frozenset(only))


def _again(one: str, only: list[str]) -> list[str]:
    return [sys.executable, "-m", "tests.browser.gallery", one, *only]


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
