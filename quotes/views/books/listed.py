"""What the lists of the books have in common: who opens them, and the decimals of their sums."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from django.http import QueryDict

from catalogue.calc.typed_figure import typed_number
from quotes.models import Workshop
from quotes.queries.workshop import currency_decimals
from quotes.views.table_page import TablePage


def decimals_now() -> int:
    """Decimal places of the workshop's currency."""
    return currency_decimals(Workshop.objects.get_or_default().currency)


def currency_now() -> str:
    """The workshop's currency, by its three letters."""
    return Workshop.objects.get_or_default().currency


def with_more_rows(data: QueryDict, names: Iterable[str], more: int) -> QueryDict:
    """What was typed, with more blank rows where the press was for those; `more` names the list."""
    typed = data.copy()
    name = typed.get("more", "")
    if name in names:
        count = typed_number(typed.get(f"{name}-TOTAL_FORMS", "")) or 0
        typed[f"{name}-TOTAL_FORMS"] = str(count + more)
    return typed


class BooksList(TablePage):
    """A list whose sums have the decimals of the workshop's currency."""

    def get_table_kwargs(self) -> dict[str, Any]:
        return {"decimals": decimals_now()}
