"""System checks that say what the workshop's set-up still lacks.

They read the database, so they are tagged `database`: plain `manage.py check` leaves them out and stays
clean on an empty site; `manage.py check --database default` and `manage.py migrate` show them as warnings
with id and hint, and the owner sees the same list on the page Today. Only issuing a quote insists on those
that block it.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from django.apps.config import AppConfig
from django.core.checks import CheckMessage, Tags, Warning, register
from django.db import DatabaseError, transaction

from quotes.queries.set_up import set_up_gaps


@register(Tags.database)
def set_up_is_complete(
    *, app_configs: Sequence[AppConfig] | None = None, databases: Sequence[str] | None = None, **options: Any
) -> list[CheckMessage]:
    """One warning for each gap; none before the tables are there."""
    if not databases or "default" not in databases:
        return []
    try:
        with transaction.atomic():
            return [Warning(gap.sentence, hint=gap.hint, id=gap.id) for gap in set_up_gaps()]
    except DatabaseError:
        return []
