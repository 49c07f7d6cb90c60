"""Twenty feeler leaves in a row, one a season: finished, may be, stopped."""

from __future__ import annotations

from quotes.calc.sheet.chance_values import Chance
from quotes.documents.drawing.svg import INK, PAPER, element, line, rectangle
from quotes.documents.words import OUT_OF, chance_with_band, out_of_twenty

WIDTH, HEIGHT = 352, 42
_PITCH = WIDTH / OUT_OF
_LEAF = 13.1
_RULES = (5, 10, 15, 20, 25, 30)


def twenty_leaves(chance: Chance, name: str = "") -> str:
    """Solid: finishes even at the low estimate. Ruled: may. Open: does not. The point is the middle estimate.

    The last leaf is never solid: twenty solid leaves would read as certain.
    """
    solid = min(out_of_twenty(chance.low), OUT_OF - 1)
    ruled = max(out_of_twenty(chance.high), solid)
    spoken = chance_with_band(chance.value, chance.low, chance.high)
    parts = [_leaf(index, solid, ruled) for index in range(OUT_OF)]
    point = min(max(chance.value * WIDTH, 4), WIDTH - 4)
    parts.append(element("path", d=f"M{point:.1f} 35l-4 6h8z", fill=INK))
    return element(
        "svg",
        "".join(parts),
        xmlns="http://www.w3.org/2000/svg",
        viewBox=f"0 0 {WIDTH} {HEIGHT}",
        width=WIDTH,
        height=HEIGHT,
        role="img",
        aria_label=f"{name}: {spoken}" if name else spoken,
    )


def _leaf(index: int, solid: int, ruled: int) -> str:
    x = 1 + index * _PITCH
    leaf = rectangle(x, 1, _LEAF, 32, fill=INK if index < solid else PAPER, stroke=INK, line_width=1.2)
    if solid <= index < ruled:
        leaf += "".join(line(x, y, x + _LEAF, y, width=1.6) for y in _RULES)
    return leaf
