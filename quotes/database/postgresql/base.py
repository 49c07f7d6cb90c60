"""PostgreSQL as Django has it, which writes what waits before it commits."""

from django.db.backends.postgresql import base

from quotes.database.before_commit import WritesBeforeCommit


class DatabaseWrapper(WritesBeforeCommit, base.DatabaseWrapper):
    """See `quotes.database.before_commit`."""
