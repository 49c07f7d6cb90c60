"""Two people on one form: what the second left as he saw it follows the first; what he touched is his."""

from __future__ import annotations

import json
import re
from collections import defaultdict
from collections.abc import Mapping, Sequence

Fields = Mapping[str, Sequence[str]]
"""The fields of a form as a browser sends them: each name with its values."""

SEEN = "seen"
OF_THE_FORM = frozenset({SEEN, "csrfmiddlewaretoken", "version", "key", "do"})
"""Fields that nobody fills in."""
ROW = re.compile(r"(?P<rows>.+?)[-:](?:\d+(?:[-:].*)?|(?:TOTAL|INITIAL|MIN_NUM|MAX_NUM)_FORMS)")
COUNTED = {"lines": "line"}
"""Fields that count the rows of another name."""


def with_theirs(seen: Fields, sent: Fields, stands: Fields) -> dict[str, list[str]]:
    """What was sent, with what now stands wherever that was sent as it had been seen.

    Rows of one list belong together: a row more or less moves those behind it.

    >>> with_theirs({"a": ["1"], "b": ["1"]}, {"a": ["2"], "b": ["1"]}, {"a": ["3"], "b": ["3"]})
    {'a': ['2'], 'b': ['3']}
    """
    made = {name: list(values) for name, values in sent.items() if name in OF_THE_FORM}
    was, typed, now = _by_list(seen), _by_list(sent), _by_list(stands)
    for rows in sorted(was.keys() | typed.keys() | now.keys()):
        untouched = _compared(was.get(rows, {})) == _compared(typed.get(rows, {}))
        made |= (now if untouched else typed).get(rows, {})
    return made


def _by_list(fields: Fields) -> dict[str, dict[str, list[str]]]:
    """The fields by the list that they are rows of; any other stands alone."""
    lists: dict[str, dict[str, list[str]]] = defaultdict(dict)
    for name, values in fields.items():
        if name not in OF_THE_FORM:
            row = ROW.fullmatch(name)
            lists[COUNTED.get(name, row["rows"] if row else name)][name] = list(values)
    return lists


def _compared(fields: Fields) -> dict[str, list[str]]:
    """Whatever line ends a browser sends, and with or without the blank ones."""
    plain = {
        name: [value.replace("\r\n", "\n").strip() for value in values] for name, values in fields.items()
    }
    return {name: values for name, values in plain.items() if any(values)}


def read_seen(text: str) -> Fields | None:
    """What a page says that it showed; None where it says nothing that can be read."""
    try:
        told = json.loads(text)
    except (ValueError, RecursionError):
        return None
    if not isinstance(told, dict) or not all(isinstance(values, list) for values in told.values()):
        return None
    if not all(isinstance(value, str) for values in told.values() for value in values):
        return None
    return told


def write_seen(fields: Fields) -> str:
    return json.dumps({name: list(values) for name, values in fields.items() if name not in OF_THE_FORM})
