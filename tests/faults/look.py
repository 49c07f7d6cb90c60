"""Looks through the place that the environment names: reads what was sent, prints what is wrong."""

from __future__ import annotations

import json
import os
import sys

import django

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "quotes.settings")
django.setup()

from tests.faults.found import standing  # noqa: E402
from tests.faults.told import Sent, judged  # noqa: E402
from tests.faults.workshop import record_faults  # noqa: E402

if __name__ == "__main__":
    told = [Sent(**one) for one in json.load(sys.stdin)]
    print(json.dumps([*judged(told, standing).faults, *record_faults()]))
