"""Reading a demo workshop from its file."""

from __future__ import annotations

from pathlib import Path

import yaml

from quotes.calc.demo import Demo, Style


def read_demo(folder: Path, style: Style) -> Demo:
    """The demo workshop of a style; pydantic's ValidationError where the file does not hold together."""
    return Demo.model_validate(yaml.safe_load((folder / f"{style}.yaml").read_text(encoding="utf-8")))
