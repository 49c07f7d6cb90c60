"""Papers are looked at here, so each is drawn when it is asked for, and none is the kept one."""

from __future__ import annotations

import pytest

from quotes.documents import pdf

DRAWN = pdf.printed


@pytest.fixture(autouse=True)
def drawn_each_time(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(pdf, "printed", DRAWN)
