"""The priced lines of the sample sheet: three ways to build an invented 600 inline four."""

from __future__ import annotations

from decimal import Decimal

from catalogue.calc.money import round_half_up
from quotes.calc.ask.request import TierCode
from quotes.calc.sheet.line_values import Kind, Line, State

LABOUR_RATE = Decimal("110.00")
Row = tuple[Kind, str, str, str, str, str, State, str, str]
"""Kind, code, description, quantity, unit, unit price ("" is the labour rate), state, reason code, reason."""

STRIP: tuple[Row, ...] = (
    ("labour", "intake_check", "Book in, compression and leak-down", "1.2", "h", "", "must", "access",
     "Every job"),
    ("labour", "head_off", "Head off, valves out, wash and measure", "4.6", "h", "", "must", "access",
     "The way in to the valve springs"),
    ("labour", "cases_split", "Split the cases, rods and pistons out", "6.8", "h", "", "must", "access",
     "The way in to the rod bolts"),
    ("labour", "cases_join", "Bearings chosen and checked, cases joined", "9.4", "h", "", "must", "access",
     "Undoes the strip"),
    ("labour", "head_on", "Head on, cams timed, valves shimmed", "7.5", "h", "", "must", "access",
     "Undoes the strip"),
    ("labour", "clutch_plates_swap", "Clutch plates and springs", "1.5", "h", "", "must", "access",
     "The way in to the clutch"),
)  # fmt: skip

PARTS: tuple[Row, ...] = (
    ("part", "S-GK-TOP", "Top-end gasket and seal kit", "1", "set", "186.40", "must", "single_use",
     "Single-use: never refitted once disturbed."),
    ("part", "S-GK-BOT", "Bottom-end gasket and O-ring kit", "1", "set", "148.00", "must", "single_use",
     "Single-use: never refitted once disturbed."),
    ("part", "S-VSP", "Valve springs", "16", "each", "11.85", "must", "past_limit",
     "Cylinder 2 inlet: free length 37.8 mm, limit 38.0 mm. The others have had the same life."),
    ("part", "S-CCH", "Cam chain", "1", "each", "74.50", "must", "age_at_end",
     "4,100 of 6,000 miles used; 6,100 at the end of the season."),
    ("part", "S-RBT", "Connecting rod bolts", "8", "each", "14.20", "must", "rider_safety",
     "Can lock the rear wheel: 4,100 of 4,500 miles used, past it before the season ends."),
    ("part", "S-RBG", "Rod (big end) bearings", "8", "each", "12.40", "worth it", "buys_chance",
     "The cases are open. Saves about 2 engines in 100."),
    ("part", "S-RNG", "Piston ring sets", "4", "set", "58.90", "worth it", "buys_chance",
     "4,100 of 4,500 miles used. Saves about 3 engines in 100."),
    ("part", "S-CLF", "Clutch friction plates", "1", "set", "168.00", "must", "event",
     "Burnt in a launch: told by the rider."),
)  # fmt: skip

SEATS: Row = ("machine_work", "seat_cut", "Valve seats cut", "16", "each", "13.80", "must", "companion",
              "New springs on worn seats do not seal.")  # fmt: skip
PORTS: Row = ("machine_work", "port_light", "Ports cleaned up and matched", "8", "port", "64.40",
               "must", "tier",
              "Mild: matched ports.")  # fmt: skip
FULL_PORTS: Row = ("machine_work", "port_full", "Full port, chambers matched", "8", "port", "178.25",
               "must", "tier",
                   "Full power: full ports.")  # fmt: skip
MILD_PARTS: tuple[Row, ...] = (
    ("part", "P-CAM-I", "Intake camshaft, mild profile", "1", "each", "612.00", "must", "tier",
     "Mild: mild cams."),
    ("part", "P-CAM-E", "Exhaust camshaft, mild profile", "1", "each", "598.00", "must", "tier",
     "Mild: mild cams."),
    ("labour", "dyno_map", "Run in and map on the dyno", "6.0", "h", "", "must", "tier",
     "Cams ask for a new map."),
)  # fmt: skip
FULL_PARTS: tuple[Row, ...] = (
    ("part", "P-ROD", "Race connecting rods", "4", "each", "412.50", "must", "tier",
     "Full power: 7 % more revs."),
    ("part", "P-PST", "Forged pistons, high compression", "4", "each", "268.00", "must", "tier",
     "Full power: one and a half points of compression."),
    ("part", "P-VSP", "Race valve springs, light retainers", "16", "each", "46.20", "must", "tier",
     "Full power: 7 % more revs."),
    ("part", "P-VEX", "Exhaust valves, performance", "8", "each", "72.90", "must", "tier",
     "Full power: more heat."),
    ("part", "P-CAM-I", "Intake camshaft, race profile", "1", "each", "884.00", "must", "tier",
     "Full power: cams."),
    ("part", "P-CAM-E", "Exhaust camshaft, race profile", "1", "each", "866.00", "must", "tier",
     "Full power: cams."),
    ("labour", "balance", "Balance, stretch bolts, check every clearance", "11.5", "h", "", "must", "tier",
     "Full power: second person checks."),
    ("labour", "dyno_map", "Run in and map on the dyno", "9.0", "h", "", "must", "tier",
     "Cams ask for a new map."),
)  # fmt: skip
CONSUMABLES: Row = ("consumables", "consumables", "Workshop consumables", "1", "job", "60.00", "must", "job",
                    "Cleaners, sealant, assembly oil.")  # fmt: skip

ROWS: dict[TierCode, tuple[Row, ...]] = {
    "refresh": (*STRIP, *PARTS, SEATS, CONSUMABLES),
    "mild": (*STRIP, *PARTS, *MILD_PARTS, SEATS, PORTS, CONSUMABLES),
    "full": (*STRIP, *PARTS[:2], *PARTS[3:], *FULL_PARTS, SEATS, FULL_PORTS, CONSUMABLES),
}
"""Full power leaves the stock valve springs out: its own springs take their place."""

IF_NEEDED: tuple[Row, ...] = (
    ("machine_work", "crank_grind", "Crankshaft journals ground", "1", "each", "310.50", "offered",
     "if_needed",
     "Only if a journal measures past its limit."),
    ("machine_work", "replate", "Cylinder replated", "4", "bore", "264.50", "offered", "if_needed",
     "Only if a bore measures past its limit."),
)  # fmt: skip


def line(row: Row) -> Line:
    """One priced line, its net worked out and its tax code by kind: labour is not taxed, all else is."""
    kind, code, description, quantity, unit, price, state, reason_code, reason = row
    unit_price = Decimal(price) if price else LABOUR_RATE
    return Line(
        key=f"{kind}:{code}",
        kind=kind,
        code=code,
        description=description,
        quantity=Decimal(quantity),
        unit=unit,
        unit_price=unit_price,
        net=round_half_up(Decimal(quantity) * unit_price),
        tax_code="exempt" if kind == "labour" else "sales",
        state=state,
        reason_code=reason_code,
        reason=reason,
        cost=round_half_up(unit_price * Decimal("0.7")),
        list_price=unit_price if kind == "part" else None,
    )


def lines(tier: TierCode) -> tuple[Line, ...]:
    return tuple(line(row) for row in ROWS[tier])
