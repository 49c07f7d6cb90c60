"""Erases a customer within what tax law has the workshop keep, and says what went, what stayed and why."""

from __future__ import annotations

from datetime import date
from typing import Any

from django.core.management.base import BaseCommand, CommandError, CommandParser
from django.utils import timezone

from quotes.actions.erasing import StillInHand, erase_customer
from quotes.management.one_customer import customer_named
from quotes.queries.erasure.plan import BY_HAND, ErasurePlan, erasure_plan, in_hand

BY = "manage.py erase_customer"


class Command(BaseCommand):
    """`erase_customer CUSTOMER [--dry-run] [--as-of DATE]`: by number (7 or C-7) or by the whole name."""

    help = (__doc__ or "").partition("\n")[0]

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument(
            "customer", help="number of the customer, as in the address of his page, or his name"
        )
        parser.add_argument(
            "--dry-run", action="store_true", help="say what would go and stay, and do nothing"
        )
        parser.add_argument(
            "--as-of",
            type=date.fromisoformat,
            metavar="YYYY-MM-DD",
            help="as on that day; a day to come with --dry-run only",
        )

    def handle(self, *args: Any, customer: str, dry_run: bool, as_of: date | None, **options: Any) -> None:
        now = timezone.now()
        on = as_of or timezone.localdate(now)
        if on > timezone.localdate(now) and not dry_run:
            raise CommandError(f"--as-of {on}: that day is still to come; what would go then, --dry-run says")
        found = customer_named(customer.removeprefix("C-").removeprefix("c-"))
        if dry_run:
            plan = erasure_plan(found, on)
            for reason in in_hand(found):
                self.stdout.write(f"Not yet: {reason}")
        else:
            try:
                plan = erase_customer(customer=found, by=BY, now=now, as_of=on)
            except StillInHand as refused:
                raise CommandError(str(refused)) from None
        self._say(plan)

    def _say(self, plan: ErasurePlan) -> None:
        if not plan.goes:
            self.stdout.write(f"Nothing is left to erase of C-{plan.customer.pk}.")
        for words in plan.goes:
            self.stdout.write(f"Goes: {words}")
        for words in plan.stays:
            self.stdout.write(f"Stays: {words}")
        for by_hand in BY_HAND:
            self.stdout.write(f"By hand: {by_hand}")
