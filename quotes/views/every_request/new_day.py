"""On the first page of a day: prices that were agreed to for it come into force."""

from __future__ import annotations

import logging
from collections.abc import Callable
from datetime import date

from django.conf import settings
from django.db import DatabaseError, transaction
from django.http import HttpRequest
from django.http.response import HttpResponseBase
from django.utils import timezone

from quotes.actions.refused import Refused
from quotes.imports.taking_prices import ask_due

log = logging.getLogger(__name__)


class NewDayMiddleware:
    """Looks once a day in each process, which is one query; `manage.py prices_in_force` looks at any time."""

    looked_on: date | None = None

    def __init__(self, get_response: Callable[[HttpRequest], HttpResponseBase]) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponseBase:
        today = timezone.localdate()
        if self.looked_on != today and settings.PRICES_BY_THEMSELVES:
            self.looked_on = today
            self.look(today)
        return self.get_response(request)

    def look(self, today: date) -> None:
        """A fault here keeps nobody from his page; the list says what it was."""
        try:
            with transaction.atomic():
                ask_due(on=today)
        except (DatabaseError, Refused):
            log.exception("Prices due on %s did not come into force", today)
