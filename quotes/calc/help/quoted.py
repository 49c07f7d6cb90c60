"""What the figures of a quote mean: for desk, bench and customer."""

from __future__ import annotations

from quotes.calc.help.values import Help

QUOTED: dict[str, Help] = {
    "say": Help("Say", "The least and the most to say aloud, rounded, until the engine is stripped."),
    "net": Help("Before tax", "All lines of the option together, without tax."),
    "gross": Help("With tax", "What the customer pays for the option if nothing else is found."),
    "loss": Help(
        "With the loss, weighed",
        "The price, and the loss that the customer named as often as the engine is likely to stop.",
    ),
    "season_price": Help(
        "The season, openings with it",
        "This job and every opening that the planned season needs after it, with tax.",
    ),
    "finishes": Help(
        "Finishes",
        "Of 20 seasons like the one planned, so many in which no engine fault stops a meeting: our middle "
        "estimate; the true figure lies within the likely band in 8 estimates of 10.",
    ),
    "meeting": Help(
        "Stops at a meeting",
        "Of 100 first meetings, so many at which an engine fault stops it; the last meeting of the season, "
        "where it differs, stands behind.",
    ),
    "wheel_lock": Help(
        "Can lock the wheel",
        "Of 100 engines, so many in which a part that can lock the rear wheel or oil the tyre fails on the "
        "planned service; the ceiling is the most that this workshop lets out.",
    ),
    "aim": Help("Aim", "The share of seasons to be finished that was asked for, and whether it is reached."),
    "power": Help(
        "Power",
        "What the build gives more than the tune that is fitted now, with the least and the most beside it.",
    ),
    "good_for": Help(
        "Good for", "How much service until the next part of it is due, by the life that we plan with."
    ),
    "first_due": Help("First due", "The part whose planned life ends first, and after how much service."),
    "hours": Help("Bench hours", "Standard hours of the work in the option; machine work is not among them."),
    "ready": Help(
        "Ready, 8 in 10",
        "The day that we promise: of ten jobs like this, eight are ready by then, parts and machine work "
        "waited for.",
    ),
    "per_season": Help(
        "Cost for a season",
        "What a season of the usual length comes to in the long run, when every part is renewed as it falls "
        "due, with tax.",
    ),
    "deposit": Help("Deposit", "What is due at the yes; it is taken off the invoice."),
    "margin": Help(
        "Margin",
        "Price before tax less what parts and machine work cost us, on the lines whose cost is known.",
    ),
    "causes": Help(
        "What stops it",
        "Of 100 engines on this service, so many that are stopped, by what stops them first; what is left "
        "of 100 finishes.",
    ),
    "life_used": Help(
        "Life used",
        "Share of a part's planned life that is gone before the planned service, and after it; past 100 it "
        "runs on borrowed time.",
    ),
    "money_against_finishing": Help(
        "Money against finishing",
        "Each step is the cheapest way to a better chance; a steep step buys much, a flat one little.",
    ),
    "because": Help(
        "Reason",
        "Must: cannot be left out. Worth it: pays while the engine is open. Offered: the customer decides.",
    ),
    "left_cost": Help(
        "Costs, net", "What taking that part in would add before tax, with the work that it brings along."
    ),
    "tune": Help(
        "Tune",
        "Worked out from bore, stroke, rod, moving mass, compression and revs: loads and wear follow.",
    ),
    "each": Help("Each", "Price of one of its unit before tax, after the workshop's markup."),
}
