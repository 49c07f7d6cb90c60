"""What can hurt whoever works on an engine or rides it, said where the work is done.

The maker's manual goes before all of it. By what is being done, and on which part of the engine.
"""

from __future__ import annotations

from catalogue.calc.said import say, to_say

WHOLE = "engine"
_EYES = to_say("Springs and collets fly: cover your eyes, and set the compressor square.")
MIND = {
    ("strip", WHOLE): to_say(
        "The maker's service manual governs every sequence, torque and limit. Let the engine cool, and hold "
        "it so that it can't tip. Oil, coolant and solvent are caught and got rid of as local rules say. "
        "Swarf and dust of magnesium or titanium burn: keep them dry and away from sparks."
    ),
    ("strip", "as_received"): to_say(
        "Air let into a cylinder can spin the crankshaft: bar and socket off, hands clear of sprocket and "
        "rotor, piston at top dead centre, and the pressure raised slowly."
    ),
    ("strip", "valve_train"): _EYES,
    ("strip", "top_end"): to_say(
        "Circlips fly and ring edges cut: cover your eyes, and use no circlip twice."
    ),
    ("build", "valve_train"): to_say(
        "Springs and collets fly: cover your eyes. Titanium and coated valves are never lapped; a new valve "
        "wants a newly cut seat."
    ),
    ("build", "top_end"): to_say(
        "Circlips are used once: cover your eyes, and see each one in its groove. A plated bore is not honed "
        "with ordinary stones."
    ),
    ("build", "bottom_end"): to_say(
        "Rods, their bolts and the crankshaft can lock the wheel: drawn to the maker's torque, angle or "
        "stretch, new where he says so, and looked at by a second person."
    ),
    ("build", "gearbox"): to_say(
        "What is put together wrong here can lock the wheel: shaft circlips new, and every gear tried by "
        "hand before the cases close."
    ),
    ("build", "oil_cooling"): to_say(
        "Oil that gets out reaches the tyre: washers and seals new, filter and plug to the maker's torque, "
        "and wired where the rules ask for it."
    ),
    ("test", WHOLE): to_say(
        "Chain and shafts guarded, exhaust drawn out of the room, ears covered, an extinguisher at hand. Two "
        "people, and nobody in line with wheel, chain or coupling. Stop at falling oil pressure or a new "
        "noise. The manuals of the engine's and the dyno's makers go before this."
    ),
}


def mind(part: str, doing: str) -> str:
    """The caution of one kind of work on one part of the engine, or nothing.

    >>> mind("electrical", "build")
    ''
    """
    return say(MIND[doing, part]) if (doing, part) in MIND else ""
