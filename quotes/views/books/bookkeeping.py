"""The addresses of the bookkeeper's and the owner's pages, gathered."""

from __future__ import annotations

from quotes.views.books import (
    accounts,
    bank,
    bank_take,
    bill_import,
    bills,
    exports,
    home,
    journal,
    margin,
    months,
    opening,
    overdue,
    reminders,
    statement,
)

AREAS = (
    home,
    overdue,
    reminders,
    statement,
    bank,
    bank_take,
    bill_import,
    bills,
    journal,
    exports,
    months,
    accounts,
    opening,
    margin,
)

urlpatterns = [address for area in AREAS for address in area.urlpatterns]
