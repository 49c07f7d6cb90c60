"""A process of its own that takes numbers from one database, as a second server would.

Called with the database's name and how many to take. Every third transaction is broken off, which must
leave no gap. Prints the numbers that were kept.
"""

from __future__ import annotations

import os
import sys


class BrokenOff(Exception):
    """The transaction fails after its number was taken."""


def take(count: int) -> list[str]:
    """Numbers kept from `count` transactions, with one more broken off after every second."""
    from django.db import transaction

    from quotes.actions.numbers import next_number

    kept = []
    for turn in range(count):
        with transaction.atomic():
            kept.append(next_number(kind="Q", year=2026))
        if turn % 2:
            try:
                with transaction.atomic():
                    next_number(kind="Q", year=2026)
                    raise BrokenOff
            except BrokenOff:
                pass
    return kept


if __name__ == "__main__":
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "tests.settings")
    import django
    from django.conf import settings

    settings.DATABASES["default"]["NAME"] = sys.argv[1]
    django.setup()
    print("\n".join(take(int(sys.argv[2]))))
