"""Bank files with how many of their lines wait, were taken or put aside."""

from __future__ import annotations

from typing import Any

from django.db.models import Count, Max, Min, Q, QuerySet

from quotes.models import BankFile, BankLineState


def listed_bank_files() -> QuerySet[Any]:
    """Every file, without its content."""
    rows = BankFile.objects.select_related("kept_by")
    return rows.annotate(
        held=Count("lines"),
        first=Min("lines__on"),
        last=Max("lines__on"),
        waiting=_in_state(BankLineState.WAITING),
        taken=_in_state(BankLineState.TAKEN),
        aside=_in_state(BankLineState.PUT_ASIDE),
    )


def _in_state(state: BankLineState) -> Count:
    return Count("lines", filter=Q(lines__state=state))
