"""The sentences that stand wherever a chance does: five of honesty, and the cautions of the trade."""

from __future__ import annotations

from catalogue.calc.said import say, say_count, say_figure, to_say
from quotes.calc.sheet.line_values import Risk
from quotes.calc.sheet.name_words import plain_name
from quotes.calc.sheet.values import Comparison
from quotes.calc.sheet.words import listed

COUNTS_IN_100 = 0.5
"""Below this a risk is said as less than one in a hundred."""

_CHECKS = {
    "each_meeting": to_say("with the engine checked at each meeting"),
    "each_season": to_say("with the engine checked once a season"),
    "never": to_say("with the engine not checked in between"),
}


_BAND = to_say(
    "The likely figures and the boxes in the picture hold 8 estimates in 10: the truth may lie outside them."
)
_OUTSIDE = to_say(
    "Wiring, fuel, ignition, chassis, a crash and an over-rev are not counted; "
    "nor are oil starvation, detonation and hidden cracks."
)
_NO_WARRANTY = to_say("This is no promise and no warranty: it says what we expect, not what we guarantee.")


def honesty(comparison: Comparison) -> tuple[str, ...]:
    """What the figures rest on: assumed service, evidence, band, what is outside, no warranty."""
    return (
        say(
            "Every chance here is for {planned}, {checked}. Other use gives other chances.",
            planned=comparison.planned_in_words,
            checked=say(_CHECKS[comparison.checks]),
        ),
        _evidence(comparison.teardowns_seen, comparison.shop_factor),
        say(_BAND),
        say(_OUTSIDE),
        say(_NO_WARRANTY),
    )


def honesty_in_general(teardowns_seen: int, shop_factor: float) -> tuple[str, ...]:
    """The same five where chances of several services stand on one page."""
    return (
        say(
            "Every chance here is for the service named with it, with the engine looked after as was said "
            "then. Other use gives other chances."
        ),
        _evidence(teardowns_seen, shop_factor),
        say(
            "A chance is the middle of our estimates: 8 in 10 lie in its band, and the truth may lie "
            "outside it."
        ),
        say(_OUTSIDE),
        say(_NO_WARRANTY),
    )


def _evidence(seen: int, shop_factor: float) -> str:
    own = say("no strip-down of our own yet")
    if seen:
        own = say_count("{count} strip-down of our own", "{count} strip-downs of our own", seen)
    rests_on = say(
        "They are estimates from our catalogue of lives, most of them habits of the trade, and {own}.",
        own=own,
    )
    decimals = 0 if round(shop_factor, 2) == round(shop_factor) else 2
    factor = say_figure(shop_factor, decimals).rstrip("0") if decimals else say_figure(shop_factor, 0)
    if shop_factor == 1:
        scales = say("The factor for our own record is {factor}, which changes nothing.", factor=factor)
    else:
        scales = say("The factor for our own record is {factor}, which scales every risk.", factor=factor)
    return f"{rests_on} {scales}"


def cautions(comparison: Comparison) -> tuple[str, ...]:
    """The cautions of the trade, with the parts of this comparison that bear on the rider's safety."""
    return (
        say(
            "The maker's service manual for the engine in hand governs every limit, torque and sequence. "
            "Limits marked as default are not from your manual and yield to it."
        ),
        say(
            "Single-use means new. Advice to use a part again never overrides a measured limit "
            "or a maker's rule."
        ),
        _rider_safety(comparison),
        say(
            "Chances, lives and power are estimates from the assumptions stated here. The safety of the "
            "rider is not part of them."
        ),
        say(
            "Estimates, limits on what may be spent, taxes, storage and warranty follow the law of the "
            "place: ask someone licensed there."
        ),
    )


def _rider_safety(comparison: Comparison) -> str:
    rule = say(
        "Anything that can lock the rear wheel or put oil on the tyre bears on the rider's safety: "
        "leaving it as it is needs your signed word, and we may refuse the job."
    )
    left = {
        plain_name(risk.name)
        for option in comparison.options
        for risk in (*option.left.values(), *option.offered.values())
        if counts_for_safety(risk)
    }
    if not left:
        return rule
    which = say("Left in one or other of these: {names}.", names=listed(sorted(left)))
    return f"{rule} {which}"


def counts_for_safety(risk: Risk) -> bool:
    """Whether leaving this part is worth naming to the rider: refused, worn out, or a risk one can count.

    Almost every part of an engine could lock the wheel; naming them all would hide those that matter.
    """
    return risk.rider_safety and (
        bool(risk.refused_by) or risk.used_pct_at_end >= 100 or risk.stops_in_100 >= COUNTS_IN_100
    )
