"""How wide a piece of text runs in the two faces we ship, so that labels can be kept apart.

Advance widths in thousandths of the letter size, read from the font files; B612 is as wide bold as plain.
"""

from __future__ import annotations

from typing import Literal

Face = Literal["B612", "Besley"]
_LETTERS = "".join(chr(code) for code in range(32, 127)) + "€£’–"  # noqa: RUF001
_ADVANCES: dict[Face, str] = {
    "B612": """
    350 350 400 850 550 900 700 200 450 450 550 600 250 450 300 550 650 650 650 650 650 650 650 650 650
    650 300 250 650 500 650 550 1000 650 650 600 650 600 550 650 700 300 450 600 550 900 750 800 600 800
    650 550 600 700 650 950 650 600 600 450 550 500 750 550 550 525 600 500 600 550 400 600 600 300 300
    550 350 900 600 600 600 600 400 450 400 600 550 750 550 550 500 649 200 600 750 700 550 350 550
    """,
    "Besley": """
    300 359 477 660 692 1100 895 250 475 475 635 530 303 460 278 520 636 562 642 574 598 582 608 563 588
    608 235 254 560 560 560 568 1105 905 799 830 872 798 768 908 948 488 652 922 754 1120 915 870 745
    870 862 706 792 888 905 1235 895 835 782 365 520 365 545 560 395 626 688 584 688 588 426 644 705 382
    346 698 374 1006 725 608 687 676 570 542 420 715 629 902 653 666 564 322 300 312 688 856 672 296 716
    """,
}
_WIDTHS = {
    face: dict(zip(_LETTERS, map(int, advances.split()), strict=True)) for face, advances in _ADVANCES.items()
}
_WIDEST = 1000
"""For a letter outside the table, which another font will draw."""


def width(text: str, face: Face, size: float) -> float:
    """The length of `text` on a line, in the unit of `size`; never less than what is drawn.

    >>> width("18 in 20", "B612", 10)
    41.0
    """
    widths = _WIDTHS[face]
    return (
        sum(widths.get(letter, _WIDEST) for letter in text.replace("\N{NO-BREAK SPACE}", " ")) * size / 1000
    )


def wrapped(text: str, face: Face, size: float, room: float) -> tuple[str, ...]:
    """`text` in lines no longer than `room`; a word longer than that is broken where it must be.

    >>> wrapped("clutch friction plates", "B612", 10, 90)
    ('clutch friction', 'plates')
    """
    lines: list[str] = []
    for word in text.split():
        if lines and width(f"{lines[-1]} {word}", face, size) <= room:
            lines[-1] += f" {word}"
            continue
        *full, rest = _broken(word, face, size, room)
        lines += [*full, rest]
    return tuple(lines) or ("",)


def _broken(word: str, face: Face, size: float, room: float) -> list[str]:
    parts = [""]
    for letter in word:
        if parts[-1] and width(parts[-1] + letter, face, size) > room:
            parts.append("")
        parts[-1] += letter
    return parts
