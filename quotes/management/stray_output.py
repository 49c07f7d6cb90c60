"""Keeps what a library prints past Python out of a command's own output."""

from __future__ import annotations

import ctypes
import os
import sys
from collections.abc import Iterator
from contextlib import contextmanager


@contextmanager
def stray_output_to_stderr() -> Iterator[None]:
    """Sends what is written to standard output meanwhile to standard error.

    The solver (HiGHS 1.12, in scipy 1.17) prints a line of its own on some programmes, straight to the file
    descriptor and through C's buffer; JSON with such a line in it is none.
    """
    sys.stdout.flush()
    kept = os.dup(1)
    os.dup2(2, 1)
    try:
        yield
    finally:
        sys.stdout.flush()
        ctypes.CDLL(None).fflush(None)
        os.dup2(kept, 1)
        os.close(kept)
