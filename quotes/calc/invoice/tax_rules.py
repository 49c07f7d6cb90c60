"""What the standard asks of the taxes of a document beyond their sums: reasons, rates, which stand alone."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from catalogue.calc.said import say
from quotes.calc.invoice.values import Sums
from quotes.calc.sheet.line_values import TaxGroup

RULE_NAMES = {"S": "S", "Z": "Z", "E": "E", "AE": "AE", "K": "IC", "G": "G", "O": "O"}
"""How the rules of a category are called: BR-S-05, BR-IC-10, ..."""
WITH_REASON = frozenset({"E", "AE", "K", "G", "O"})
"""Nothing is charged, so it must be said why."""


@dataclass(frozen=True, slots=True)
class TaxFault:
    """A rule that is broken, the field it is about, and what is allowed there, in words."""

    rule: str
    field: str
    text: str


def tax_faults(sums: Sums) -> tuple[TaxFault, ...]:
    """Every rule on categories that these groups break; empty where the document may be issued."""
    found = [fault for group in sums.tax_groups for fault in _of_group(group)]
    categories = {group.category for group in sums.tax_groups}
    if "O" in categories and len(categories) > 1:
        others = ", ".join(sorted(categories - {"O"}))
        text = say(
            "outside the scope of tax (O) can't stand with {others} on one invoice: make two", others=others
        )
        found.append(TaxFault("BR-O-11", say("lines"), text))
    return tuple(found)


def _of_group(group: TaxGroup) -> Iterator[TaxFault]:
    name = RULE_NAMES.get(group.category)
    field = say("tax code {code}", code=group.code)
    if name is None:
        known = ", ".join(RULE_NAMES)
        text = say("category {code}: one of {known}", code=repr(group.category), known=known)
        yield TaxFault("BR-CO-18", field, text)
        return
    if group.category == "S" and group.rate_pct <= 0:
        yield TaxFault("BR-S-05", field, say("category S needs a rate above 0; Z is zero rated"))
    if group.category != "S" and group.rate_pct:
        rate = f"{group.rate_pct:f} %"
        text = say("{rate}: category {code} bears no tax", rate=rate, code=group.category)
        yield TaxFault(f"BR-{name}-05", field, text)
    if group.category in WITH_REASON and not group.reason.strip():
        text = say("category {code} needs a reason, such as the article that exempts it", code=group.category)
        yield TaxFault(f"BR-{name}-10", field, text)
