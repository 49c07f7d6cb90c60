"""Reads one YAML file of the catalogue, refusing what YAML lets pass: double keys, a missing file."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import yaml


class FileFault(ValueError):
    """The file can't be read at all; the message says why."""


# The one written in C reads four times as fast; it is not in every build of the library.
Base: Any = getattr(yaml, "CSafeLoader", yaml.SafeLoader)


class _Loader(Base):  # type: ignore[misc]
    """A safe loader that refuses a key written twice."""

    def construct_mapping(self, node: yaml.MappingNode, deep: bool = False) -> dict[Any, Any]:
        seen: set[str] = set()
        for key, _ in node.value:
            if key.value in seen:
                raise FileFault(f"line {key.start_mark.line + 1}: {key.value!r} is written twice")
            seen.add(key.value)
        made: dict[Any, Any] = super().construct_mapping(node, deep)
        return made


def load_file(path: Path) -> dict[str, Any]:
    """The mapping that the file holds. Raises FileFault when it is missing or holds something else."""
    try:
        text = path.read_text(encoding="utf-8")
    except FileNotFoundError:
        raise FileFault("there is no such file") from None
    except UnicodeDecodeError:
        raise FileFault("the file is not UTF-8 text") from None
    try:
        content = yaml.load(text, Loader=_Loader)  # A SafeLoader of our own. # noqa: S506
    except yaml.YAMLError as error:
        raise FileFault(" ".join(str(error).split())) from None
    if not isinstance(content, dict):
        raise FileFault("the file does not hold a list of entries under a heading")
    return content
