"""`compare` and `fit_life` with changed requests: an answer, or status 2 and words that name the fault."""

from __future__ import annotations

import io
import json
import os
import re
import tempfile
import time
import traceback
from contextlib import contextmanager
from typing import Any

from django.core.management import call_command
from django.core.management.base import CommandError
from hypothesis import strategies as st

from tests.fuzz.asking import Found, in_time
from tests.fuzz.changed_json import changed_bytes

BAD_INPUT = 2
FAULT = re.compile(r"[\w.\[\]\- ]*\w[^:\n]*: .*: .+|.+", re.DOTALL)
REQUESTS: list[Any] = [
    {
        "engine": {
            "type": "four600",
            "history": [
                {"amount": 4100, "unit": "mi", "duty": "sprint", "from": "2025-03-01", "to": "2026-10-10"}
            ],
        },
        "planned": {"duty": "endurance", "amount": 2000, "unit": "mi"},
    },
    {
        "engine": {
            "type": "single450",
            "delivered": "in_chassis",
            "fitted": "mild",
            "history": [{"amount": 42, "unit": "h", "duty": "motocross", "tier": "mild"}],
            "renewed": {"piston": {"at": 20, "unit": "h", "on": "2026-02-01"}},
            "build_cycles": {"piston": 1},
        },
        "planned": {
            "duty": "motocross",
            "amount": 25,
            "unit": "h",
            "events": 9,
            "first_meeting": "2027-03-01",
        },
        "on": "2026-11-25",
        "target": 0.9,
    },
    {"engine": {"type": "twin650", "history": None}, "planned": {"duty": "sprint"}, "on": "2026-11-25"},
]
LIFE_DATA: list[Any] = [
    {"failures": [54, 187, 216, 240, 244, 335, 361, 373, 375, 386], "suspensions": [500] * 10},
    {
        "failures": [100, 120],
        "suspensions": [90],
        "intervals": [[80, 110]],
        "entries": [0, 10, 0, 5],
        "beta": 2,
    },
    {"failures": [10, 20, 30], "confidence": 0.8},
]
SOUND = {"compare": REQUESTS, "fit_life": LIFE_DATA}


@st.composite
def of_command(draw: st.DrawFn, name: str) -> bytes:
    """What stands in the file that the command is given."""
    return draw(changed_bytes(SOUND[name]))


def run(name: str, content: bytes, found: Found) -> None:
    """Runs the command on a file of that content; notes an exception, and a refusal without words."""
    found.inputs[name] += 1
    out, err = io.StringIO(), io.StringIO()
    began = time.process_time()
    try:
        with _file(content) as path, in_time():
            call_command(name, path, stdout=out, stderr=err)
        _strict(out.getvalue())
        status = 0
    except CommandError as refused:
        status = refused.returncode
        err.write(str(refused))
    except SystemExit as ended:
        status = int(ended.code or 0)
    except Exception as error:
        found.errors.setdefault(
            f"{name}: {_place(error)}", f"{content[:900]!r}\n{traceback.format_exc(limit=-5)}"
        )
        return
    found.took(time.process_time() - began, f"{name} {content[:160]!r}")
    found.answers[name, status] += 1
    if wrong := _wrong_answer(status, err.getvalue()):
        found.errors.setdefault(f"{name}: {wrong}", f"{content[:900]!r}\n{err.getvalue()[:600]}")


def _wrong_answer(status: int, told: str) -> str:
    if status not in (0, BAD_INPUT):
        return f"ended with {status}"
    if status == BAD_INPUT and told.strip().count(": ") < 2:
        return "refused without field, value and what is allowed"
    return "told of a traceback" if "Traceback" in told else ""


def _strict(text: str) -> None:
    """JSON as everybody reads it: no NaN, no infinity."""

    def refuse(constant: str) -> None:
        raise AssertionError(f"{constant} in the answer")

    json.loads(text, parse_constant=refuse)


@contextmanager
def _file(content: bytes) -> Any:
    handle, path = tempfile.mkstemp(suffix=".json")
    try:
        os.write(handle, content)
        os.close(handle)
        yield path
    finally:
        os.unlink(path)


def _place(error: BaseException) -> str:
    last = traceback.extract_tb(error.__traceback__)[-1]
    return f"{type(error).__name__} at {'/'.join(last.filename.split('/')[-2:])}:{last.lineno}"
