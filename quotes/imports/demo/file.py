"""Reading a demo workshop from its file."""

from __future__ import annotations

from pathlib import Path

import yaml

from quotes.calc.demo.workshop import Demo, Style
from quotes.calc.demo.year import Year


def read_demo(folder: Path, style: Style) -> Demo:
    """The demo workshop of a style; pydantic's ValidationError where the file does not hold together."""
    return Demo.model_validate(yaml.safe_load((folder / f"{style}.yaml").read_text(encoding="utf-8")))


def read_year(folder: Path) -> Year:
    """The year of trading that any of the demo workshops can have had."""
    return Year.model_validate(yaml.safe_load((folder / "year.yaml").read_text(encoding="utf-8")))
