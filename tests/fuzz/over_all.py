"""The whole run: the workshop, the walk over it, the inputs, and what is said of them."""

from __future__ import annotations

import argparse
import sys
import time
from contextlib import suppress
from functools import lru_cache
from types import ModuleType

from django.db import connection, transaction
from django.utils import timezone

from catalogue.calc.engine import EngineCatalogue
from quotes.calc.ask.request import Request
from quotes.calc.sheet.values import Comparison
from quotes.calc.shop import Shop
from quotes.documents import pdf
from quotes.queries import comparison
from tests.fuzz.asking import Found
from tests.fuzz.report import keep_report, report
from tests.fuzz.rounds import Said, rounds
from tests.fuzz.standing import demo, standing
from tests.fuzz.watch import Watch
from tests.shared import KeptComparisons

PAPERS_KEPT = 300
COMPARISONS_KEPT = 400


def over_all(given: argparse.Namespace, said: Said, *, began: float) -> int:
    """1 where an input was answered by an error, or left half of what it asked for."""
    demo(given.style)
    said("the demo stands")
    _drawn_once()
    found = Found()
    site = standing()
    if given.only:
        site.addresses = [each for each in site.addresses if each.name.startswith(given.only)]
    said(f"{len(site.addresses)} addresses, {sum(map(len, site.forms.values()))} forms on their pages")

    def so_far(words: str) -> None:
        said(f"{words}: {found.inputs.total():,} inputs, {len(found.errors) + len(found.half_writes)} faults")

    with transaction.atomic():
        # What is cut short is told as far as it came.
        with suppress(KeyboardInterrupt):
            rounds(site, Watch(), found, inputs=given.inputs, number=given.seed, said=so_far)
        transaction.set_rollback(True)
    text = report(found, site, seed=given.seed, on=timezone.localdate(), seconds=time.monotonic() - began)
    print(text)
    for what, faults in (("Error", found.errors), ("Half written", found.half_writes)):
        for where, told in sorted(faults.items()):
            print(f"\n== {what}: {where}\n{told}")
    if given.write:
        keep_report(text, connection.vendor)
    return int(not found.sound)


def _drawn_once() -> None:
    """A paper or comparison that is asked for again and again is worked out once: another was put in none."""
    drawn = lru_cache(PAPERS_KEPT)(pdf.printed)
    for module in [each for name, each in sys.modules.items() if name.startswith("quotes.documents")]:
        if isinstance(module, ModuleType) and getattr(module, "printed", None) is pdf.printed:
            module.printed = drawn  # type: ignore[attr-defined]
    comparison.compare = _Kept().compare


class _Kept:
    """Some comparisons at a time: all of a run would fill the machine."""

    def __init__(self) -> None:
        self._kept, self._asked = KeptComparisons(), 0

    def compare(self, request: Request, catalogue: EngineCatalogue, shop: Shop) -> Comparison:
        self._asked += 1
        if self._asked % COMPARISONS_KEPT == 0:
            self._kept = KeptComparisons()
        return self._kept.compare(request, catalogue, shop)
