"""What is read along an index: what begins with a text, and which names there are."""

from __future__ import annotations

from django.db import connection, models
from django.db.models import Q

LAST = "\U0010ffff"
"""Comes after every letter that may follow."""
STEPS = """
WITH RECURSIVE seen(name) AS (
    SELECT MIN({column}) FROM {rows}
    UNION ALL
    SELECT (SELECT MIN({column}) FROM {rows} WHERE {column} > seen.name) FROM seen WHERE seen.name IS NOT NULL
)
SELECT name FROM seen WHERE name IS NOT NULL
"""


def begins(column: str, text: str) -> Q:
    """That it begins so. SQLite reads an index for that only between two ends."""
    if connection.vendor == "sqlite":
        return Q(**{f"{column}__gte": text, f"{column}__lt": text + LAST})
    return Q(**{f"{column}__startswith": text})


def names_along(model: type[models.Model], column: str) -> list[str]:
    """Every name in the column: from each to the next, so that few rows are looked at; one query."""
    with connection.cursor() as cursor:
        cursor.execute(STEPS.format(rows=model._meta.db_table, column=column))
        return [name for (name,) in cursor.fetchall()]
