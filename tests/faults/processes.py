"""Processes by their number: who is whose child, and an end without warning."""

from __future__ import annotations

import os
import signal
import socket
import time
from contextlib import suppress
from pathlib import Path


def children(pid: int) -> list[int]:
    """The processes that one has started and that still run."""
    with suppress(OSError):
        tasks = Path(f"/proc/{pid}/task").iterdir()
        return [int(child) for task in tasks for child in (task / "children").read_text().split()]
    return []


def kill(*pids: int) -> None:
    """SIGKILL: none of them gets to do anything more."""
    for pid in pids:
        with suppress(ProcessLookupError):
            os.kill(pid, signal.SIGKILL)


def wait_gone(*pids: int, patience: float = 60) -> None:
    """Until none of them runs; one that has ended but was not asked for its end counts as gone."""
    until = time.monotonic() + patience
    while any(_runs(pid) for pid in pids):
        if time.monotonic() > until:
            raise TimeoutError(f"still there: {[pid for pid in pids if _runs(pid)]}")
        time.sleep(0.02)


def _runs(pid: int) -> bool:
    try:
        return Path(f"/proc/{pid}/stat").read_text().rpartition(")")[2].split()[0] not in "ZX"
    except OSError:
        return False


def free_port() -> int:
    """A port that nobody listens on."""
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return int(probe.getsockname()[1])
