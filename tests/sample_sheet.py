"""A hand-made sheet that hangs together: leave it and three options of an invented 600 inline four.

The shapes and magnitudes are a race shop's; every name is invented. Sums are added up from the lines, so
that net + tax = gross for each option. `sample_sheet(number="Q-2026-0099")` changes the heading.
"""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from typing import Any

from catalogue.calc.money import round_half_up
from quotes.calc.sheet.base_values import Service
from quotes.calc.sheet.issued_values import Heading, Party, RevisionChange, Sheet
from quotes.calc.sheet.sentences import cautions, honesty
from quotes.calc.sheet.values import Comparison, LeaveIt, Option
from tests.documents.sample_facts import CHANCES, LEFT_SHARES, WHEEL, falls_due
from tests.documents.sample_options import sample_option

ON = date(2026, 11, 25)

WORKSHOP = Party(
    name="Sorrel Yard Engines",
    lines=("4 Sorrel Yard", "Anyborough"),
    telephone="000 555 0142",
    email="desk@sorrelyard.example",
    tax_registration="00-0000000",
)
CUSTOMER = Party(
    name="Marel Otten",
    lines=("9 Quince Lane", "Anyborough"),
    telephone="000 555 0199",
    email="marel@otten.example",
)
TERMS = (
    "Payment is due on collection. Parts made or ordered for you are not taken back.",
    "Engines not fetched within 30 days of the word that they are ready are stored at the posted rate.",
)


def sample_leave_it() -> LeaveIt:
    """The engine as it came in, with oil and filter."""
    net, tax = Decimal("143.50"), round_half_up(Decimal("88.50") * Decimal("7.25") / 100)
    return LeaveIt(
        name="Leave it",
        tune="refresh",
        net=net,
        tax=tax,
        gross=net + tax,
        hours=Decimal("0.5"),
        chance=CHANCES["leave"],
        wheel_lock=WHEEL["leave"],
        falls_due=falls_due("leave"),
        good_for=Service(amount=400, unit="mi"),
        good_for_reason="Rod bolts reach their life at 4,500 miles.",
        attention=("Parts that can lock the rear wheel stop it more often than our ceiling allows.",),
        where_the_chance_goes=LEFT_SHARES,
        notes=("Oil and filter only.",),
    )


def sample_options() -> tuple[Option, ...]:
    return tuple(sample_option(tier) for tier in ("refresh", "mild", "full"))


def sample_comparison(**change: Any) -> Comparison:
    """Leave it, refresh, mild and full power for 2,000 endurance miles, before the strip-down."""
    fields: dict[str, Any] = {
        "on": ON,
        "currency": "USD",
        "decimals": 2,
        "engine_type": "four600",
        "engine_type_name": "600 inline four",
        "duty": "endurance",
        "duty_name": "Endurance race, 4 to 24 h",
        "planned": Service(amount=2000, unit="mi"),
        "planned_in_words": "2,000 miles of endurance racing over 4 meetings",
        "target_in_words": "about 19 in 20",
        "history_in_words": (
            "4,100 miles of sprint racing so far, at standard tune, from your logbook.",
            "Clutch friction plates new at 3,000 miles.",
        ),
        "checks": "each_meeting",
        "firm": False,
        "teardowns_seen": 0,
        "shop_factor": 1.0,
        "leave_it": sample_leave_it(),
        "options": sample_options(),
        "assumptions": (
            "The service planned is 2,000 miles of endurance racing over 4 meetings.",
            "Oil and filter changed at every meeting; plugs and coolant in their time.",
            "Filter cut open, leak-down and clutch play checked at each meeting.",
            "Standard rev limit on refresh, 1 % more on mild, 7 % more on full power.",
        ),
    }
    return Comparison(**(fields | change))


def sample_sheet(*, comparison: Comparison | None = None, **heading: Any) -> Sheet:
    """The issued sheet of the sample; keyword arguments change the heading."""
    fields: dict[str, Any] = {
        "number": "Q-2026-0312",
        "revision": 2,
        "issued_on": ON,
        "valid_until": date(2026, 12, 25),
        "workshop": WORKSHOP,
        "customer": CUSTOMER,
        "engine_name": "600 inline four",
        "engine_number": "H4-20417",
        "class_name": "Club open",
    }
    comparison = comparison or sample_comparison()
    return Sheet(
        heading=Heading(**(fields | heading)),
        comparison=comparison,
        terms=TERMS,
        cautions=cautions(comparison),
        honesty=honesty(comparison),
        changes=(
            RevisionChange(
                what="Planned service",
                before="1,800 miles of sprint racing",
                after="2,000 miles of endurance",
            ),
            RevisionChange(what="Refresh, with tax", before="4,870.22", after="5,014.14"),
        ),
        limit_without_asking_pct=Decimal(10),
    )
