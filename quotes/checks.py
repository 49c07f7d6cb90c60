"""System checks: what the workshop's set-up still lacks, and pages that nobody was given a right to.

Those of the set-up read the database, so they are tagged `database`: plain `manage.py check` leaves them out
and stays clean on an empty site; `manage.py check --database default` and `manage.py migrate` show them as
warnings with id and hint, and the owner sees the same list on the page Today. Only issuing a quote insists on
those that block it.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from django.apps.config import AppConfig
from django.core.checks import CheckMessage, Error, Tags, Warning, register
from django.db import DatabaseError, transaction
from django.urls import URLPattern, URLResolver, get_resolver

from quotes.queries.rights import by_page
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


@register(Tags.security)
def every_page_has_its_right(
    *, app_configs: Sequence[AppConfig] | None = None, **options: Any
) -> list[CheckMessage]:
    """An error for each page that nobody has been given a right to, and each right without a page."""
    there, given = pages_of_the_site(), set(by_page())
    hint = "Put the name of its address into a row of quotes/queries/rights.py."
    untold = [
        Error(f"Nobody has a right to the page “{page}”.", hint=hint, id="quotes.E001")
        for page in sorted(there - given)
    ]
    gone = [
        Error(
            f"There is no page “{page}” to have a right to.",
            hint="Take it out of quotes/queries/rights.py.",
            id="quotes.E002",
        )
        for page in sorted(given - there)
    ]
    return [*untold, *gone]


def pages_of_the_site() -> set[str]:
    """The names of all addresses, as the rights know them."""
    found: set[str] = set()

    def walk(patterns: Sequence[URLPattern | URLResolver], within: str) -> None:
        for one in patterns:
            if isinstance(one, URLResolver):
                walk(one.url_patterns, f"{within}{one.namespace}:" if one.namespace else within)
            else:
                found.add(f"{within}{one.name}")

    walk(get_resolver().url_patterns, "")
    return found
