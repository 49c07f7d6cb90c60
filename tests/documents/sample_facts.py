"""Chances, risks, dates and steps of the sample sheet, by tier."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

from quotes.calc.sheet.base_values import Ready
from quotes.calc.sheet.chance_values import Against, Chance, Due, HazardShare, WheelLock
from quotes.calc.sheet.line_values import Reason, Risk

TARGET = 0.947


def _chance(value: float, low: float, high: float, first: float, last: float) -> Chance:
    return Chance(
        value=value,
        low=low,
        high=high,
        target=TARGET,
        target_met=value >= TARGET,
        events=4,
        first_event=first,
        last_event=last,
    )


CHANCES = {
    "leave": _chance(0.797, 0.702, 0.871, 0.961, 0.924),
    "refresh": _chance(0.951, 0.922, 0.972, 0.990, 0.985),
    "mild": _chance(0.948, 0.917, 0.970, 0.989, 0.984),
    "full": _chance(0.822, 0.731, 0.894, 0.968, 0.931),
}
WHEEL = {
    "leave": WheelLock(value=0.082, ceiling=0.05, met=False),
    "refresh": WheelLock(value=0.018, ceiling=0.05, met=True),
    "mild": WheelLock(value=0.021, ceiling=0.05, met=True),
    "full": WheelLock(value=0.047, ceiling=0.05, met=True),
}
READY = {
    "refresh": Ready(typical=date(2027, 1, 8), p80=date(2027, 1, 21), p90=date(2027, 2, 3)),
    "mild": Ready(typical=date(2027, 2, 3), p80=date(2027, 3, 5), p90=date(2027, 4, 1)),
    "full": Ready(typical=date(2027, 2, 15), p80=date(2027, 3, 15), p90=date(2027, 4, 8)),
}
LEFT_SHARES = (
    HazardShare(name="Connecting rod bolts", state="left", stops_in_100=5.1),
    HazardShare(name="Valve springs", state="left", stops_in_100=4.2),
    HazardShare(name="Piston ring set", state="left", stops_in_100=3.4),
    HazardShare(name="All else together", state="left", stops_in_100=7.6),
)
SHARES = {
    "refresh": (("Piston", "left", 1.6), ("Main bearings", "left", 0.9), ("Our own assembly", "must", 0.6)),
    "mild": (("Piston", "left", 1.8), ("Main bearings", "left", 1.0), ("Our own assembly", "must", 0.7)),
    "full": (
        ("Valve springs", "must", 6.4),
        ("Con rods and bolts", "must", 3.1),
        ("Our own assembly", "must", 0.9),
    ),
}
GAINS = {"refresh": (0.0, 0.0, 3.0), "mild": (4.0, 7.0, 10.0), "full": (10.0, 16.0, 22.0)}
LADDERS: dict[str, tuple[tuple[tuple[str, ...], str, float, bool], ...]] = {
    "refresh": (
        (("Gaskets", "Valve springs", "Cam chain", "Clutch friction plates"), "-1850.00", 0.871, False),
        (("Connecting rod bolts", "Rod bearings", "Piston rings"), "0.00", 0.951, True),
        (("Pistons", "Main bearings"), "772.20", 0.962, False),
        (("Valves", "Cam chain tensioner"), "2046.15", 0.969, False),
    ),
    "mild": (
        (("Everything mild asks for",), "-1320.00", 0.894, False),
        (("Connecting rod bolts", "Rod bearings", "Piston rings"), "0.00", 0.948, True),
        (("Pistons",), "506.22", 0.957, False),
    ),
    "full": (
        (("Everything full power asks for",), "-571.60", 0.795, False),
        (("Small end bushes", "Oil pressure relief valve"), "0.00", 0.822, True),
        (("Gear pairs 2 and 3", "Shift forks"), "680.40", 0.831, False),
    ),
}
"""What a step adds, how far its price stands from the option's, its chance, whether it is the option."""

_DUE = {
    "leave": (("rod_bolt", "Connecting rod bolts", 400.0, 0.2), ("rings", "Piston ring set", 410.0, 0.2)),
    "refresh": (("piston", "Piston", 2030.0, 1.0),),
    "mild": (("piston", "Piston", 1850.0, 0.9),),
    "full": (("valve_spring", "Valve springs", 1340.0, 0.7),),
}


def falls_due(which: str) -> tuple[Due, ...]:
    return tuple(
        Due(component=code, name=name, amount=amount, unit="mi", seasons=seasons)
        for code, name, amount, seasons in _DUE[which]
    )


RENEWED = (
    Reason(
        component="valve_spring",
        name="Valve springs",
        code="past_limit",
        state="must",
        sentence="Cylinder 2 inlet: free length 37.8 mm, limit 38.0 mm. The others have had the same life.",
        chain=("Reading past its limit",),
    ),
    Reason(
        component="rod_bolt",
        name="Connecting rod bolts",
        code="rider_safety",
        state="must",
        sentence="Can lock the rear wheel: 4,100 of 4,500 miles used, past it before the season ends.",
        rider_safety=True,
    ),
    Reason(
        component="clutch_friction",
        name="Clutch friction plates",
        code="event",
        state="must",
        sentence="Burnt in a launch: told by the rider.",
    ),
    Reason(
        component="rod_bearing",
        name="Rod bearings",
        code="buys_chance",
        state="worth it",
        sentence="The cases are open. Saves about 2 engines in 100.",
    ),
)
SEATS_CUT = Reason(
    component="valve_seat",
    name="Valve seats",
    code="companion",
    state="must",
    sentence="New springs on worn seats do not seal.",
    chain=("Valve springs", "Valve seats"),
)
CAMS = Reason(
    component="cam_intake",
    name="Camshafts",
    code="tier",
    state="must",
    sentence="Part of this way of building.",
)
RODS = Reason(
    component="con_rod",
    name="Connecting rods",
    code="tier",
    state="must",
    sentence="Race rods, for 7 % more revs.",
)


def _risk(code: str, name: str, used: tuple[float, float], stops: float, cost: str, *, rider: bool) -> Risk:
    return Risk(
        component=code,
        name=name,
        used_pct=used[0],
        used_pct_at_end=used[1],
        stops_in_100=stops,
        rider_safety=rider,
        sentence=f"{used[0]:.0f} % of its life used, {used[1]:.0f} % when the season ends.",
        cost_to_renew=Decimal(cost),
    )


PISTON = _risk("piston", "Piston", (68.0, 99.0), 1.6, "472.00", rider=True)
MAINS = _risk("main_bearing", "Main bearings", (51.0, 76.0), 0.9, "248.00", rider=True)
VALVES = _risk("valve_exhaust", "Exhaust valves", (46.0, 66.0), 0.5, "583.20", rider=False)
TENSIONER = _risk("cam_chain_tensioner", "Cam chain tensioner", (82.0, 102.0), 0.4, "96.50", rider=False)


def against(tier: str, other: str) -> Against:
    """The paired comparison of two of the sample's options on chance."""
    difference = CHANCES[tier].value - CHANCES[other].value
    even = abs(difference) < 0.02
    verdict = "cannot be told apart" if even else ("better" if difference > 0 else "worse")
    share = 0.56 if even else 0.93
    return Against.model_validate(
        {
            "other": other,
            "better_share": share if difference > 0 else 1 - share,
            "verdict": verdict,
            "difference": difference,
            "difference_low": difference - 0.04,
            "difference_high": difference + 0.04,
            "sentence": f"Against {other}: {verdict}.",
        }
    )
