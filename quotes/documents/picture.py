"""The picture, money against finishing, and the twenty leaves: SVG text, the same on page and paper."""

from __future__ import annotations

import math
from decimal import Decimal

from catalogue.calc.said import say
from quotes.calc.sheet.values import Comparison, Option
from quotes.documents.drawing.boxes import Box
from quotes.documents.drawing.ground import draw_aims, draw_budget, draw_key, draw_scales, shared_aim
from quotes.documents.drawing.labels import (
    Label,
    Placed,
    draw_ground,
    draw_label,
    line_label,
    number_label,
    option_label,
    place_all,
    plain_label,
)
from quotes.documents.drawing.shapes import SHAPES, Shape, ShapeName
from quotes.documents.drawing.steps import (
    DISC,
    RING,
    SQUARE,
    Axes,
    Ring,
    Stair,
    axes,
    draw_option,
    draw_stair,
    square,
    stair,
    with_room_for_bands,
)
from quotes.documents.drawing.svg import drawing
from quotes.documents.words import (
    OUT_OF,
    chance_in_words,
    inside,
    likely_in_words,
    round_money,
    short_chance,
    times_in_words,
)

APART = 18.0
"""Rings nearer to each other than this share one number."""


def money_against_chance(comparison: Comparison, shape: ShapeName = "wide", language: str = "") -> str:
    """Price with tax to the right, seasons finished out of twenty up: options, their steps, and leave it."""
    form = SHAPES[shape]
    on, opened = axes(comparison, form), any(option.season for option in comparison.options)
    stairs = with_room_for_bands([stair(option, on) for option in comparison.options])
    placed = _placed(comparison, stairs, on, form, language)
    return drawing(
        f"picture-{shape}",
        form.width,
        form.height + (form.note * 1.8 if opened else 0),
        title=say("What each way of building costs, against the chance of finishing the season"),
        description=_description(comparison, on, language),
        parts=(
            draw_scales(comparison, on, form, language),
            draw_aims(comparison, stairs, on, form),
            draw_budget(comparison, on, form),
            *(draw_ground(label, box) for label, box in placed),
            *(draw_stair(mark) for mark in stairs),
            *(draw_option(mark) for mark in stairs),
            square(*on.point(float(comparison.leave_it.gross), comparison.leave_it.chance.value)),
            *(draw_label(label, box) for label, box in placed),
            draw_key(form, opened=opened),
        ),
    )


def scale_starts_at(comparison: Comparison) -> int:
    """Where the upright scale begins, in seasons out of twenty; every caption says so."""
    return int(axes(comparison, SHAPES["wide"]).seasons.least)


def picture_notes(comparison: Comparison) -> tuple[str, ...]:
    """What has to be said with the picture where an option is opened on the way."""
    if not any(option.season for option in comparison.options):
        return ()
    return (
        say(
            "Where an option is opened on the way its price counts that in, and the diamond is the same "
            "build never opened."
        ),
    )


def opened_in_words(option: Option) -> str:
    """How often it is opened on the way, which its price counts in."""
    if option.season is None:
        return ""
    return say("opened {times}", times=times_in_words(len(option.season.openings)))


def _placed(comparison: Comparison, stairs: list[Stair], on: Axes, form: Shape, language: str) -> Placed:
    leave, aim = comparison.leave_it, shared_aim(comparison)
    left = Box.around(*on.point(float(leave.gross), leave.chance.value), SQUARE)
    labels = [plain_label(left, (inside(leave.name), short_chance(leave.chance.value)), form)]
    for mark in stairs:
        finishes = short_chance(mark.option.chance.value)
        told = [*filter(None, (_price(mark.option, comparison, language), opened_in_words(mark.option)))]
        labels.append(option_label(Box.around(*mark.disc, DISC), mark.option.name, told, finishes, form))
    then = _numbers(stairs, form)
    if aim is not None:
        y = on.seasons.at(aim * OUT_OF)
        then.insert(
            0,
            line_label(
                Box(form.left, y, form.right, y), say("aim: {chance}", chance=short_chance(aim)), form
            ),
        )
    if comparison.budget is not None:
        x = on.money.at(float(comparison.budget))
        spent = say("budget {sum}", sum=round_money(comparison.budget, comparison.currency, language))
        then.insert(0, line_label(Box(x, form.top, x, form.bottom), spent, form))
    return place_all(
        labels,
        then,
        frame=Box(form.left - 6, form.top - 16, form.width, form.bottom - 2),
        discs=[*(Box.around(*mark.disc, DISC + 1) for mark in stairs), left],
        solid=[*(box for mark in stairs for box in mark.solid()), left],
        thin=_lines(stairs, on, form, aim, comparison.budget),
    )


def _numbers(stairs: list[Stair], form: Shape) -> list[Label]:
    """Numbers of the rings; the ends of each staircase first, for they orient where room runs out.

    Of rings that lie close together one is numbered: more numbers could not be told apart.
    """
    ends = [ring for mark in stairs for ring in dict.fromkeys((*mark.rings[:1], *mark.rings[-1:]))]
    between = [ring for mark in stairs for ring in mark.rings[1:-1]]
    numbered: list[Ring] = []
    for ring in (*ends, *between):
        if all(math.hypot(ring.x - other.x, ring.y - other.y) >= APART for other in numbered):
            numbered.append(ring)
    return [number_label(Box.around(ring.x, ring.y, RING), ring.number, form) for ring in numbered]


def _lines(
    stairs: list[Stair], on: Axes, form: Shape, aim: float | None, budget: Decimal | None
) -> list[Box]:
    thin = [box for mark in stairs for box in mark.thin()]
    if aim is not None:
        y = on.seasons.at(aim * OUT_OF)
        thin.append(Box(form.left, y - 0.5, form.right, y + 0.5))
    if budget is not None:
        x = on.money.at(float(budget))
        thin.append(Box(x - 0.5, form.top, x + 0.5, form.bottom))
    return thin


def _price(option: Option, comparison: Comparison, language: str) -> str:
    return round_money(option.planned_gross.typical, comparison.currency, language)


def _description(comparison: Comparison, on: Axes, language: str) -> str:
    leave = comparison.leave_it
    told = [
        say("Price with tax runs to the right, from nothing."),
        say(
            "Seasons finished out of {out_of} run upward, from {least} to {out_of}.",
            out_of=OUT_OF,
            least=f"{on.seasons.least:.0f}",
        ),
        f"{leave.name}: {chance_in_words(leave.chance.value)}.",
    ]
    if comparison.budget is not None:
        budget = round_money(comparison.budget, comparison.currency, language)
        told.append(say("The budget is {sum}.", sum=budget))
    for option in comparison.options:
        price = ", ".join(filter(None, (_price(option, comparison, language), opened_in_words(option))))
        likely = likely_in_words(option.chance.low, option.chance.high)
        told.append(
            say(
                "{name} costs {price} and finishes {chance}, {likely}.",
                name=option.name,
                price=price,
                chance=chance_in_words(option.chance.value),
                likely=likely,
            )
        )
    return " ".join((*told, say("The same numbers stand in the table beside it.")))
