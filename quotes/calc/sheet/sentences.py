"""The sentences that stand wherever a chance does: five of honesty, and the cautions of the trade."""

from __future__ import annotations

from quotes.calc.sheet.name_words import plain_name
from quotes.calc.sheet.values import Comparison, Risk
from quotes.calc.sheet.words import listed

COUNTS_IN_100 = 0.5
"""Below this a risk is said as less than one in a hundred."""

_CHECKS = {
    "each_meeting": "with the engine checked at each meeting",
    "each_season": "with the engine checked once a season",
    "never": "with the engine not checked in between",
}


_BAND = (
    "The likely figures and the boxes in the picture hold 8 estimates in 10: the truth may lie outside them."
)
_OUTSIDE = (
    "Wiring, fuel, ignition, chassis, a crash and an over-rev are not counted; "
    "nor are oil starvation, detonation and hidden cracks."
)
_NO_WARRANTY = "This is no promise and no warranty: it says what we expect, not what we guarantee."


def honesty(comparison: Comparison) -> tuple[str, ...]:
    """What the figures rest on: assumed service, evidence, band, what is outside, no warranty."""
    return (
        f"Every chance here is for {comparison.planned_in_words}, {_CHECKS[comparison.checks]}. "
        "Other use gives other chances.",
        _evidence(comparison.teardowns_seen, comparison.shop_factor),
        _BAND,
        _OUTSIDE,
        _NO_WARRANTY,
    )


def honesty_in_general(teardowns_seen: int, shop_factor: float) -> tuple[str, ...]:
    """The same five where chances of several services stand on one page."""
    return (
        "Every chance here is for the service named with it, with the engine looked after as was said then. "
        "Other use gives other chances.",
        _evidence(teardowns_seen, shop_factor),
        "A chance is the middle of our estimates: 8 in 10 lie in its band, and the truth may lie outside it.",
        _OUTSIDE,
        _NO_WARRANTY,
    )


def _evidence(seen: int, shop_factor: float) -> str:
    own = {0: "no strip-down of our own yet", 1: "1 strip-down of our own"}.get(
        seen, f"{seen} strip-downs of our own"
    )
    factor = f"{shop_factor:.2f}".rstrip("0").rstrip(".")
    change = "which changes nothing" if shop_factor == 1 else "which scales every risk"
    return (
        f"They are estimates from our catalogue of lives, most of them habits of the trade, and {own}. "
        f"The factor for our own record is {factor}, {change}."
    )


def cautions(comparison: Comparison) -> tuple[str, ...]:
    """The cautions of the trade, with the parts of this comparison that bear on the rider's safety."""
    return (
        "The maker's service manual for the engine in hand governs every limit, torque and sequence. "
        "Limits marked as default are not from your manual and yield to it.",
        "Single-use means new. Advice to use a part again never overrides a measured limit "
        "or a maker's rule.",
        _rider_safety(comparison),
        "Chances, lives and power are estimates from the assumptions stated here. The safety of the rider "
        "is not part of them.",
        "Estimates, limits on what may be spent, taxes, storage and warranty follow the law of the place: "
        "ask someone licensed there.",
    )


def _rider_safety(comparison: Comparison) -> str:
    rule = (
        "Anything that can lock the rear wheel or put oil on the tyre bears on the rider's safety: "
        "leaving it as it is needs your signed word, and we may refuse the job."
    )
    left = {
        plain_name(risk.name)
        for option in comparison.options
        for risk in (*option.left.values(), *option.offered.values())
        if counts_for_safety(risk)
    }
    return f"{rule} Left in one or other of these: {listed(sorted(left))}." if left else rule


def counts_for_safety(risk: Risk) -> bool:
    """Whether leaving this part is worth naming to the rider: refused, worn out, or a risk one can count.

    Almost every part of an engine could lock the wheel; naming them all would hide those that matter.
    """
    return risk.rider_safety and (
        bool(risk.refused_by) or risk.used_pct_at_end >= 100 or risk.stops_in_100 >= COUNTS_IN_100
    )
