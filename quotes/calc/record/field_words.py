"""What a field is called in the record of changes, and the unit of its value: mostly made from its name."""

from __future__ import annotations

from catalogue.calc.said import say, say_as, to_say
from quotes.calc.record.field_names import CALLED
from quotes.calc.record.inner_names import INSIDE

UNITS = {
    "_pct": "%",
    "_pct_a_year": to_say("% a year"),
    "_mm": "mm",
    "_cc": "cc",
    "_hp": "hp",
    "_rpm": "rev/min",
    "_mass_g": "g",
    "_days": to_say("days"),
    "_hours": "h",
    "_miles": to_say("miles"),
}
"""By the end of the name, the longest first."""
NAME = "name of a field"
"""Where such a word stands, for a language that has others for the same word elsewhere."""
MONEY = frozenset(
    {
        "amount",
        "net",
        "tax",
        "gross",
        "due",
        "prepaid",
        "total",
        "debit",
        "credit",
        "cost",
        "unit_cost",
        "unit_price",
        "expected_cost",
        "quoted_unit_cost",
        "price",
        "put_back_price",
        "deposit",
        "limit_sum",
        "gross_from",
        "gross_to",
        "open_amount",
        "old_gross",
        "new_gross",
        "per_hour",
        "cost_from",
        "fault_cost",
        "consumables_least",
        "consumables_most",
        "session_loss",
        "weekend_loss",
        "storage_a_day",
        "labour_cost_an_hour",
        "budget",
        "list_price",
        "cost_typical",
        "cost_low",
        "cost_high",
    }
)
"""Fields that hold a sum in the workshop's currency."""
NOT_MONEY = frozenset({"quotes.segment", "quotes.servicereport", "quotes.failurereport"})
"""Records whose amounts are service, not money."""


def field_label(record_type: str, path: str) -> str:
    """The field in words; a path names each step."""
    return ", ".join(_step(record_type, step) for step in path.split("."))


def _step(record_type: str, name: str) -> str:
    if name.isdigit():
        return say("no. {number}", number=name)
    return say_as(NAME, plain_name(record_type, name))


def plain_name(record_type: str, name: str) -> str:
    """A field of a record, or what stands inside of one, in plain English words.

    >>> plain_name("quotes.core", "deposit"), plain_name("quotes.link", "withdrawn_at")
    ('deposit on it', 'withdrawn on')
    """
    of_record = f"{record_type.rpartition('.')[2]}.{name}"
    if words := CALLED.get(of_record) or CALLED.get(name) or INSIDE.get(name):
        return words
    bare = name.removesuffix(_unit_end(name))
    return (f"{bare[:-3]}_on" if bare.endswith("_at") else bare).replace("_", " ")


def field_unit(path: str) -> str:
    """The unit of its value; nothing where its name has none."""
    unit = UNITS.get(_unit_end(path.rpartition(".")[2]), "")
    return say(unit) if unit else ""


def _unit_end(name: str) -> str:
    ends = sorted(UNITS, key=len, reverse=True)
    return next((end for end in ends if name.endswith(end) and name != end.strip("_")), "")


def holds_money(record_type: str, path: str) -> bool:
    """Whether a field holds a sum of money."""
    return path.rpartition(".")[2] in MONEY and record_type not in NOT_MONEY
