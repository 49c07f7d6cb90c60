"""What the job's page says of each part of the work, one line for each."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any


@dataclass(frozen=True, slots=True)
class JobLine:
    """One line: what it is, how it stands in words, where it leads, and whether it waits for somebody."""

    title: str
    words: str
    url_name: str
    args: tuple[Any, ...] = ()
    waits: bool = False
