"""Takes a list in and stops before the end: all of it is written and nothing is committed. To be killed then.

Called with the database's name and the list. Says `written` when it stands there.
"""

from __future__ import annotations

import os
import sys
import time

PATIENCE = 60


def main(pk: int) -> None:
    from catalogue.actions.price_list import taking
    from catalogue.models import PriceList
    from tests.prices.cast import SPRING, TODAY

    def wait(row: PriceList) -> None:
        print("written", flush=True)
        time.sleep(PATIENCE)

    taking._forget_bytes = wait
    taking.take_list(pk=pk, given=SPRING, by=None, on=TODAY, now=PriceList.objects.get(pk=pk).handed_in_at)


if __name__ == "__main__":
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "tests.settings")
    import django
    from django.conf import settings

    settings.DATABASES["default"]["NAME"] = sys.argv[1]
    django.setup()
    main(int(sys.argv[2]))
