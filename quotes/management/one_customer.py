"""The customer that somebody at the terminal means."""

from __future__ import annotations

from django.core.management.base import CommandError

from catalogue.calc.typed_figure import typed_number
from quotes.models import Customer

MOST_NAMED = 10


def customer_named(said: str) -> Customer:
    """By number or by the whole name; CommandError where there is none, or more than one."""
    if (key := typed_number(said)) is not None:
        found = Customer.objects.filter(pk=key)
    else:
        found = Customer.objects.filter(name__iexact=said.strip().replace("\x00", ""))
    rows: list[Customer] = [*found[:MOST_NAMED]]
    if not rows:
        raise CommandError(f"{said}: there is no customer of that number or name")
    if len(rows) > 1:
        numbers = ", ".join(str(row.pk) for row in rows)
        raise CommandError(f"{said}: several customers are called so. Give a number: {numbers}")
    return rows[0]
