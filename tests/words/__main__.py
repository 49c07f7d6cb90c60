"""Brings the files of words up to what is said: `python -m tests.words`. With `left`: what still waits.

New texts come in with no translation, those that nobody says any more go. A text that another area has
translated takes that translation.
"""

from __future__ import annotations

import os
import sys

import django


def main() -> None:
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "tests.settings")
    django.setup()
    from tests.words.files import bring_up_to_date, left

    for line in left() if "left" in sys.argv[1:] else bring_up_to_date():
        print(line)


if __name__ == "__main__":
    main()
