"""Adds up the last lines of pytest runs into one line of the same form."""

from __future__ import annotations

import re
import sys
from collections import Counter
from pathlib import Path

ORDER = ("failed", "passed", "skipped", "deselected", "xfailed", "xpassed", "warnings", "errors")
PLURAL = {"error": "errors", "warning": "warnings"}
SUMMARY = re.compile(r"^=+ (.*) in [\d.]+s\b.*=+$", re.MULTILINE)


def counts(log: str) -> Counter[str]:
    """The outcomes that a run's last summary line names; a run without one counts as one error."""
    lines = SUMMARY.findall(log)
    if not lines:
        return Counter(errors=1)
    found = re.findall(r"(\d+) ([a-z]+)", lines[-1])
    return Counter({PLURAL.get(word, word): int(number) for number, word in found})


def _count(number: int, word: str) -> str:
    singular = {many: one for one, many in PLURAL.items()}
    return f"{number} {singular.get(word, word) if number == 1 else word}"


def main(seconds: str, failed_checks: str, *logs: str) -> None:
    """Prints the sum of the logs; checks that failed outside pytest are counted as errors."""
    total = sum((counts(Path(log).read_text(errors="replace")) for log in logs), Counter[str]())
    if int(failed_checks) and not total["failed"] and not total["errors"]:
        total["errors"] = int(failed_checks)
    said = ", ".join(_count(total[word], word) for word in ORDER if total[word]) or "no tests ran"
    print(f" {said} in {float(seconds):.2f}s ".center(80, "="))


if __name__ == "__main__":
    main(*sys.argv[1:])
