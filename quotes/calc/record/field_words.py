"""What a field is called in the record of changes, and the unit of its value: made from its name."""

from __future__ import annotations

from catalogue.calc.said import say, to_say

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
CALLED = {
    "at": to_say("moment"),
    "by": to_say("by"),
    "on": to_say("day"),
    "pdf": "PDF",
    "xml": "XML",
    "csv": "CSV",
    "iban": "IBAN",
    "bic": "BIC",
    "sha256": "SHA-256",
    "sheet_sha256": to_say("SHA-256 of the sheet"),
    "heads_sha256": to_say("SHA-256 of its heads"),
    "where_from": to_say("where the values come from"),
    "is_superuser": to_say("may do everything"),
    "is_staff": to_say("is staff"),
    "is_active": to_say("may sign in"),
    "email": to_say("mail"),
}
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


def field_label(path: str) -> str:
    """The field in words, in English where no language has a word for it; a path names each step."""
    return ", ".join(_step(step) for step in path.split("."))


def _step(name: str) -> str:
    if name in CALLED:
        return say(CALLED[name])
    if name.isdigit():
        return say("no. {number}", number=name)
    return say(name.removesuffix(_unit_end(name)).replace("_", " "))


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
