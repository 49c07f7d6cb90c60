"""JSON as a command is given it: a file, or - for standard input."""

from __future__ import annotations

import json
import sys
from pathlib import Path

from quotes.calc.ask.fault import BadRequest, Fault


def load_json(name: str) -> object:
    """What is in it; numbers with a point stay exact. Raises BadRequest where it can't be read."""
    try:
        text = sys.stdin.read() if name == "-" else Path(name).read_text(encoding="utf-8")
        return json.loads(text, parse_float=str)
    except OSError as error:
        raise BadRequest((Fault("file", name, f"can't be read: {error.strerror}"),)) from error
    except (UnicodeDecodeError, json.JSONDecodeError, RecursionError, ValueError) as error:
        raise BadRequest((Fault("file", name, f"not JSON: {error}"),)) from error
