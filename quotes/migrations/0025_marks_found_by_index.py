"""Unanswered quotes in the order of the list; and marks found by any part of them, where there are trigrams.

PostgreSQL knows trigrams where the catalogue's migrations could make the extension; else marks are scanned.
"""

from django.db import migrations, models
from django.db.models import Q

MARKS = (("quotes_job", "tag"), ("quotes_job", "shelf"), ("quotes_payment", "reference"))


def find_by_parts(apps, schema_editor):
    if schema_editor.connection.vendor != "postgresql":
        return
    with schema_editor.connection.cursor() as cursor:
        cursor.execute("SELECT FROM pg_extension WHERE extname = 'pg_trgm'")
        if not cursor.rowcount:
            return
    for table, column in MARKS:
        schema_editor.execute(
            f"CREATE INDEX {table}_{column}_parts ON {table} USING gin (UPPER({column}::text) gin_trgm_ops)"
        )


def no_longer(apps, schema_editor):
    if schema_editor.connection.vendor == "postgresql":
        for table, column in MARKS:
            schema_editor.execute(f"DROP INDEX IF EXISTS {table}_{column}_parts")


class Migration(migrations.Migration):
    dependencies = [
        ("quotes", "0024_found_by_index"),
        ("catalogue", "0006_part_search"),
    ]

    operations = [
        migrations.AddIndex(
            model_name="quote",
            index=models.Index(
                condition=Q(accepted_at=None, asked_at=None, closed_at=None, declined_at=None),
                fields=["created_at", "id", "stands_until"],
                name="quote_unanswered_listed",
            ),
        ),
        migrations.RunPython(find_by_parts, no_longer),
    ]
