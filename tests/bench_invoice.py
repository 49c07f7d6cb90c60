"""Times issuing a hybrid invoice of 40 lines against bare WeasyPrint on the same page: `make bench`.

All run in turn in one process, so that a busy machine slows all. Bare is what WeasyPrint makes of the same
HTML and style: a plain PDF without XML, once with its own loader, which unpacks our fonts each time, and once
with ours, which does so once in a process. Ours is all of `invoice_files`: words, template, payment code,
rules, XML, schema, page, metadata, attachment.
"""

from __future__ import annotations

import gc
import os
import sys
from collections.abc import Callable
from statistics import median
from time import perf_counter
from typing import Any

GOAL = 1.3
RUNS = 9


def main() -> int:
    """Prints the ratio; 1 where the goal is missed."""
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "tests.settings")
    import django

    django.setup()
    from quotes.documents.invoice import invoice_files, invoice_page
    from quotes.documents.pdf import own_fonts
    from tests.documents.invoice.sheets import forty_lines

    sheet = forty_lines()
    html, style = invoice_page(sheet)
    ways: tuple[Callable[[], bytes], ...] = (
        lambda: invoice_files(sheet).pdf,
        lambda: _bare(html, style),
        lambda: _bare(html, style, url_fetcher=own_fonts()),
    )
    sizes = [len(way()) for way in ways]
    times = [[_time(way) for way in ways] for _ in range(RUNS)]
    own, bare, fonts_at_hand = (median(column) for column in zip(*times, strict=True))
    print(
        f"hybrid invoice of {len(sheet.lines)} lines: {own:.3f} s and {sizes[0]:,} bytes, bare WeasyPrint "
        f"{bare:.3f} s and {sizes[1]:,} bytes, ratio {own / bare:.2f} (goal {GOAL}); "
        f"with fonts at hand {fonts_at_hand:.3f} s, ratio {own / fonts_at_hand:.2f}"
    )
    return int(own / bare > GOAL)


def _bare(html: str, style: str, **loading: Any) -> bytes:
    """WeasyPrint without being asked for more than a page."""
    from weasyprint import CSS, HTML  # type: ignore[import-untyped]
    from weasyprint.text.fonts import FontConfiguration  # type: ignore[import-untyped]

    from quotes.documents.pdf import FONTS

    fonts, base = FontConfiguration(), FONTS.as_uri() + "/"
    sheet = CSS(string=style, base_url=base, font_config=fonts, **loading)
    content: bytes = HTML(string=html, base_url=base, **loading).write_pdf(
        stylesheets=[sheet], font_config=fonts
    )
    return content


def _time(work: Callable[[], bytes]) -> float:
    gc.collect()
    began = perf_counter()
    work()
    return perf_counter() - began


if __name__ == "__main__":
    sys.exit(main())
