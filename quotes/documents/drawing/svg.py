"""A small writer of SVG text: attributes only, no styles, figures to one decimal, so bytes repeat."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from html import escape
from types import MappingProxyType
from typing import Literal

from quotes.documents.drawing.letters import Face

INK, SOFT, HAIR, PAPER, BLUE = "#17191c", "#4d5156", "#c9cbc6", "#fdfdfa", "#10398f"
Anchor = Literal["start", "middle", "end"]
_FAMILIES: dict[Face, str] = {
    "B612": "B612, DejaVu Sans, sans-serif",
    "Besley": "Besley, DejaVu Serif, serif",
}


def element(
    name: str,
    content: str = "",
    more: Mapping[str, str | float] = MappingProxyType({}),
    /,
    **own: str | float,
) -> str:
    """One element. `content` is markup already; attribute values are escaped, underscores become hyphens."""
    attributes = own | dict(more)
    written = "".join(f' {key.replace("_", "-")}="{_value(value)}"' for key, value in attributes.items())
    return f"<{name}{written}>{content}</{name}>" if content else f"<{name}{written}/>"


def _value(value: str | float) -> str:
    return escape(value) if isinstance(value, str) else _short(value)


def _short(value: float) -> str:
    written = f"{value:.1f}".removesuffix(".0")
    return "0" if written == "-0" else written


def text(
    content: str,
    x: float,
    y: float,
    size: float,
    *,
    anchor: Anchor = "start",
    face: Face = "B612",
    bold: bool = False,
    fill: str = INK,
) -> str:
    """A line of text on its base line."""
    return element(
        "text",
        escape(content),
        x=x,
        y=y,
        font_family=_FAMILIES[face],
        font_size=size,
        font_weight="700" if bold or face == "Besley" else "400",
        text_anchor=anchor,
        fill=fill,
    )


def line(
    x1: float, y1: float, x2: float, y2: float, *, width: float, stroke: str = INK, dash: str = ""
) -> str:
    dashes: dict[str, str | float] = {"stroke_dasharray": dash} if dash else {}
    return element("line", "", dashes, x1=x1, y1=y1, x2=x2, y2=y2, stroke=stroke, stroke_width=width)


def rectangle(
    x: float,
    y: float,
    width: float,
    height: float,
    *,
    fill: str,
    stroke: str = "none",
    line_width: float = 1.4,
) -> str:
    edge: dict[str, str | float] = {} if stroke == "none" else {"stroke": stroke, "stroke_width": line_width}
    return element("rect", "", edge, x=x, y=y, width=width, height=height, fill=fill)


def drawing(
    name: str, width: float, height: float, *, title: str, description: str, parts: Iterable[str]
) -> str:
    """The whole drawing, with a title and a spoken description; `name` keeps their ids apart on a page."""
    spoken = element("title", escape(title), id=f"{name}-title") + element(
        "desc", escape(description), id=f"{name}-desc"
    )
    return element(
        "svg",
        spoken + "".join(parts),
        xmlns="http://www.w3.org/2000/svg",
        viewBox=f"0 0 {_short(width)} {_short(height)}",
        width=width,
        height=height,
        role="img",
        aria_labelledby=f"{name}-title {name}-desc",
    )
