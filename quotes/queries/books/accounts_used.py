"""The accounts that the journal has lines on."""

from __future__ import annotations

from django.db import connection

from quotes.models import JournalLine

STEPS = """
WITH RECURSIVE used(account) AS (
    SELECT MIN(account) FROM {lines}
    UNION ALL
    SELECT (SELECT MIN(account) FROM {lines} WHERE account > used.account) FROM used
    WHERE used.account IS NOT NULL
)
SELECT account, (SELECT MAX(account_name) FROM {lines} AS named WHERE named.account = used.account)
FROM used WHERE account IS NOT NULL ORDER BY account
"""


def accounts_used() -> list[tuple[str, str]]:
    """Code and name of every account that has a line, by its code; one query.

    From each to the next by an index: of hundreds of thousands of lines a few dozen are looked at.
    """
    with connection.cursor() as cursor:
        cursor.execute(STEPS.format(lines=JournalLine._meta.db_table))
        return [(code, name) for code, name in cursor.fetchall()]
