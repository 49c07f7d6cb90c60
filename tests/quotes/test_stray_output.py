"""What a library prints past Python stays out of a command's answer."""

from __future__ import annotations

import subprocess
import sys

SCRIPT = """
import ctypes
from quotes.management.stray_output import stray_output_to_stderr
c = ctypes.CDLL(None)
with stray_output_to_stderr():
    c.puts(b"from the library")
print("the answer")
"""


def test_a_line_printed_by_a_library_goes_to_standard_error() -> None:
    done = subprocess.run([sys.executable, "-c", SCRIPT], capture_output=True, text=True, check=True)

    assert done.stdout == "the answer\n"
    assert done.stderr == "from the library\n"
