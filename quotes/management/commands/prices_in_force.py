"""Brings into force every price list that was agreed to and whose day has come."""

from __future__ import annotations

from argparse import ArgumentParser
from datetime import date
from typing import Any

from django.core.management.base import BaseCommand
from django.utils import timezone

from catalogue.models import PriceList
from catalogue.queries.price_lists import due
from quotes.actions.background_hand import Hand
from quotes.imports.taking_prices import due_now
from quotes.queries.price_list_words import in_words


class Command(BaseCommand):
    """`prices_in_force [--on DAY]`: for who has no site running at midnight, and after a fault."""

    help = __doc__ or ""

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("--on", type=date.fromisoformat, help="as of that day instead of today")

    def handle(self, *args: Any, **options: Any) -> None:
        waiting = due(options["on"] or timezone.localdate())
        for pk in waiting:
            due_now(Hand(), pk=pk)
            row = PriceList.objects.told().get(pk=pk)
            self.stdout.write(f"{row.name} of {row.supplier}: {in_words(row)}")
        if not waiting:
            self.stdout.write("No price list is due.")
