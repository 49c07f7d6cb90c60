"""Seals the secrets of one-time codes anew, after SECRET_KEY was changed."""

from __future__ import annotations

from typing import Any

from django.core.management.base import BaseCommand, CommandError

from quotes.actions.codes import seal_codes


class Command(BaseCommand):
    help = (
        "Seals the secrets of one-time codes anew under SECRET_KEY; the old key has to stand in"
        " SECRET_KEY_FALLBACKS until then. Exits 1 where some can't be opened by any key."
    )

    def handle(self, *args: Any, **options: Any) -> None:
        done, shut = seal_codes()
        self.stdout.write(f"{done} secrets are sealed under SECRET_KEY.")
        if shut:
            raise CommandError(
                f"No key opens those of {', '.join(shut)}: give the key of before in SECRET_KEY_FALLBACKS, or"
                " manage.py drop_codes NAME."
            )
