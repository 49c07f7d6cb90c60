"""`python -m tests.fuzz [--inputs N]`: bad input at scale over a demo workshop.

On SQLite, or on the PostgreSQL that DATABASE_URL names. Ends with 1 where it found a fault. With --write
the counts go into DEVELOPERS.md.
"""

from __future__ import annotations

import argparse
import logging
import os
import sys
import time

INPUTS = 20_000
SEED = 20_261_127


def main() -> int:
    parser = argparse.ArgumentParser(prog="python -m tests.fuzz", description=__doc__)
    parser.add_argument("--inputs", type=int, default=INPUTS)
    parser.add_argument("--seed", type=int, default=SEED)
    parser.add_argument("--style", default="value-added-tax", choices=("value-added-tax", "sales-tax"))
    parser.add_argument("--only", default="", help="addresses whose name begins so")
    parser.add_argument("--write", action="store_true", help="write the counts into DEVELOPERS.md")
    given = parser.parse_args()
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "tests.settings")
    import django

    django.setup()
    from django.test.utils import setup_test_environment

    setup_test_environment()
    logging.disable(logging.CRITICAL)
    from tests.fuzz.over_all import over_all

    began = time.monotonic()

    def said(words: str) -> None:
        sys.stderr.write(f"{time.monotonic() - began:6.0f} s  {words}\n")
        sys.stderr.flush()

    return over_all(given, said, began=began)


if __name__ == "__main__":
    sys.exit(main())
