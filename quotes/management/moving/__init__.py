"""A workshop moved from the embedded database to PostgreSQL: every table, compared on both sides."""
