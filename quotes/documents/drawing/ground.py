"""What the picture stands on: its two scales with their words, the aim, and the key to the marks."""

from __future__ import annotations

from decimal import Decimal

from catalogue.calc.said import say
from quotes.calc.sheet.values import Comparison, Option
from quotes.documents.drawing.letters import width
from quotes.documents.drawing.shapes import Shape
from quotes.documents.drawing.steps import Axes, Stair, diamond, disc, ring, square, tolerance
from quotes.documents.drawing.svg import HAIR, INK, SOFT, Anchor, line, text
from quotes.documents.words import OUT_OF, currency_in_words, figure

_SAME_AIM = 0.0125
"""A quarter of one season in twenty: closer than anybody can read off."""
_DOTS = "2 4"
_AIM_REACH = 26.0


def own_aim(option: Option) -> float | None:
    """What the option aims at over the whole season; one that is opened on the way has no such aim."""
    return option.chance.target if option.chance.to_first_opening is None else None


def shared_aim(comparison: Comparison) -> float | None:
    """The aim of the options, where they have one and the same, or as good as."""
    known = [aim for option in comparison.options if (aim := own_aim(option)) is not None]
    if not known or max(known) - min(known) > _SAME_AIM:
        return None
    return known[0]


def draw_scales(comparison: Comparison, on: Axes, form: Shape, language: str) -> str:
    """Both scales with their marks; the upright one says where it starts."""
    price = (
        say("Price with tax, {currency}") if comparison.firm else say("Typical price with tax, {currency}")
    )
    currency = currency_in_words(comparison.currency, language)
    least = f"{on.seasons.least:.0f}"
    heads = (
        text(say("Seasons finished, out of {out_of}", out_of=OUT_OF), 0, 14, form.letter, bold=True),
        text(say("higher = likelier; starts at {least}", least=least), 0, 31, form.note, fill=SOFT),
        text(
            price.format(currency=currency),
            form.right,
            form.bottom + 39,
            form.note,
            anchor="end",
            fill=SOFT,
        ),
    )
    return "".join((*heads, *_season_marks(on, form), *_money_marks(on, form, language)))


def _season_marks(on: Axes, form: Shape) -> list[str]:
    drawn = []
    for seasons in on.seasons.marks():
        y, foot = on.seasons.at(seasons), seasons == on.seasons.least
        drawn.append(
            line(form.left, y, form.right, y, width=1.4 if foot else 1, stroke=INK if foot else HAIR)
        )
        drawn.append(text(f"{seasons:.0f}", form.left - 7, y + 4.5, form.letter, anchor="end"))
    return drawn


def _money_marks(on: Axes, form: Shape, language: str) -> list[str]:
    drawn = []
    for value in on.money.marks():
        x, words = on.money.at(value), figure(Decimal(str(value)), 0, language)
        half = width(words, "B612", form.note) / 2
        anchor: Anchor = "start" if value == 0 else "end" if x + half > form.width else "middle"
        at = form.width if anchor == "end" else x
        drawn.append(line(x, form.bottom, x, form.bottom + 5, width=1.2))
        drawn.append(text(words, at, form.bottom + 20, form.note, anchor=anchor))
    return drawn


def draw_aims(comparison: Comparison, stairs: list[Stair], on: Axes, form: Shape) -> str:
    """A dotted line at the aim; where each option has its own, a short piece at each."""
    if (aim := shared_aim(comparison)) is not None:
        y = on.seasons.at(aim * OUT_OF)
        return line(form.left, y, form.right, y, width=1.2, dash=_DOTS)
    pieces = []
    for mark in stairs:
        if (own := own_aim(mark.option)) is not None:
            x, y = mark.disc[0], on.seasons.at(own * OUT_OF)
            pieces.append(line(x - _AIM_REACH, y, x + _AIM_REACH, y, width=1.2, dash=_DOTS))
    return "".join(pieces)


def draw_budget(comparison: Comparison, on: Axes, form: Shape) -> str:
    """An upright dotted line at what was to be spent."""
    if comparison.budget is None:
        return ""
    x = on.money.at(float(comparison.budget))
    return line(x, form.top, x, form.bottom, width=1.2, dash=_DOTS)


_KEY_GAP = 10.0
"""At least so much between two entries of the key."""


def draw_key(form: Shape, *, opened: bool) -> str:
    """The marks explained by their shape; `opened` where an option is opened on the way."""
    entries = (say("the option"), 18), (say("8 in 10 estimates"), 22), (say("a further step"), 16)
    (ax, ay), (bx, by), (cx, cy), (dx, dy) = _key_places(form, entries)
    return "".join(
        (
            disc(ax + 6, ay, 6),
            text(entries[0][0], ax + 18, ay + 4, form.note),
            tolerance(bx + 8, by - 7, by + 7, 8),
            text(entries[1][0], bx + 22, by + 4, form.note),
            ring(cx + 5, cy),
            text(entries[2][0], cx + 16, cy + 4, form.note),
            square(dx + 4, dy),
            text(say("left as it is"), dx + 15, dy + 4, form.note),
            _opened_key(form) if opened else "",
        )
    )


def _key_places(form: Shape, entries: tuple[tuple[str, float], ...]) -> list[tuple[float, float]]:
    """Where each entry begins: at its own place, or after a longer one before it on its line."""
    places = [form.legend[0]]
    for (words, indent), (x, y) in zip(entries, form.legend[1:], strict=True):
        before, line_before = places[-1]
        end = before + indent + width(words, "B612", form.note) + _KEY_GAP
        places.append((max(x, end) if y == line_before else x, y))
    return [(x, form.bottom + y) for x, y in places]


def _opened_key(form: Shape) -> str:
    x, y = form.legend[0][0], form.bottom + form.legend[-1][1] + form.note * 1.8
    return diamond(x + 5, y) + text(say("the same build, never opened on the way"), x + 18, y + 4, form.note)
