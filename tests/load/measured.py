"""What was asked for, how long it took and how it ended, by the name of the page."""

from __future__ import annotations

import threading
import time
from collections import defaultdict
from dataclasses import dataclass, field
from urllib.parse import urlsplit

from django.urls import Resolver404, resolve

from tests.faults.browser import Browser, Form

ALL = "all"


@dataclass(slots=True)
class Measured:
    """Seconds by page, and what went wrong; many threads write into it."""

    seconds: dict[str, list[float]] = field(default_factory=lambda: defaultdict(list))
    errors: dict[str, list[str]] = field(default_factory=lambda: defaultdict(list))
    lock: threading.Lock = field(default_factory=threading.Lock)

    def took(self, page: str, seconds: float, error: str) -> None:
        with self.lock:
            self.seconds[page].append(seconds)
            if error:
                self.errors[page].append(error)

    def part(self, page: str, share: float) -> float:
        """What so large a share of a page's answers did not exceed."""
        every = sorted(self.every if page == ALL else self.seconds[page])
        return every[min(len(every) - 1, int(share * len(every)))] if every else 0.0

    @property
    def every(self) -> list[float]:
        return [one for seconds in self.seconds.values() for one in seconds]

    @property
    def wrong(self) -> int:
        return sum(map(len, self.errors.values()))


class MeasuredBrowser(Browser):
    """A browser with a stopwatch; its answers are read whole."""

    def __init__(self, site: str, measured: Measured) -> None:
        super().__init__(site)
        self.measured = measured

    def _ask(self, address: str, form: Form | None) -> tuple[int, bytes, str]:
        began, error = time.perf_counter(), "no answer"
        try:
            answer = super()._ask(address, form)
            error = "" if answer[0] < 400 else f"{answer[0]} {address}"
        finally:
            self.measured.took(page_name(address, form), time.perf_counter() - began, error)
        return answer

    def file(self, address: str) -> bytes:
        """What is no page: a paper, a workbook."""
        return self._ask(address, None)[1]

    def swap(self, form: Form) -> bytes:
        """A part of a page that a script asks for."""
        return self._ask(form.address, form)[1]


def page_name(address: str, form: Form | None) -> str:
    """The address's name, apart for what is sent to it."""
    try:
        name = resolve(urlsplit(address).path).view_name
    except Resolver404:
        return "no such page"
    return f"{name} (sent)" if form is not None else name
