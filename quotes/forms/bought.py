"""Of whom a line written by hand is bought: what its form offers, refuses, and is filled in with."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal

from catalogue.calc.said import say
from catalogue.models import Supplier
from quotes.forms.fields import figure_shown, quoted


def suppliers_of_parts() -> dict[str, str]:
    """Name by code."""
    return dict(Supplier.objects.filter(kind="parts").order_by("name").values_list("code", "name"))


def bought_choices(suppliers: Mapping[str, str]) -> list[tuple[str, str]]:
    return [("", say("not ordered by us")), *suppliers.items()]


def bought_fault(supplier: str, number: str, suppliers: Mapping[str, str]) -> tuple[str, str] | None:
    """The field and what is wrong with it: a number and who has it belong together."""
    if supplier and supplier not in suppliers:
        offered = ", ".join(suppliers.values())
        return "supplier", say("{typed} is not one of: {offered}.", typed=quoted(supplier), offered=offered)
    if supplier and not number:
        return "number", say("Nothing is given. Part number: by which the supplier knows it.")
    if number and not supplier:
        return "supplier", say("Nothing is chosen. Bought of: who has this number.")
    return None


def filled_in(told: Mapping[str, Decimal | str], typed: Mapping[str, str]) -> dict[str, str]:
    """A line as typed so far, filled in with what a supplier lists; one of it unless a quantity stands."""
    shown = {
        name: figure_shown(f"{value:f}") if isinstance(value, Decimal) else value
        for name, value in told.items()
    }
    return {**typed, **shown, "quantity": typed.get("quantity") or "1"}
