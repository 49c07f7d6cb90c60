"""Searching over parts: an index for the words, and on PostgreSQL one that forgives typing errors.

Where the extension can't be created, which is for the database's owner to allow, the search is a plain one.
"""

import logging

from django.db import Error, migrations, models, transaction

TRIGRAMS = "listed_part_trigrams"


def forgive(apps, schema_editor):
    connection = schema_editor.connection
    if connection.vendor != "postgresql":
        return
    try:
        with transaction.atomic(using=connection.alias), connection.cursor() as cursor:
            cursor.execute("CREATE EXTENSION IF NOT EXISTS pg_trgm")
            cursor.execute(
                f"CREATE INDEX {TRIGRAMS} ON catalogue_listedpart USING gin (search_key gin_trgm_ops)"
            )
    except Error as error:
        logging.getLogger(__name__).warning(
            "Searching over parts stays plain, typing errors find nothing: %s. "
            "Have the database's owner run CREATE EXTENSION pg_trgm, then migrate back and forth.",
            error,
        )


def no_longer(apps, schema_editor):
    if schema_editor.connection.vendor == "postgresql":
        schema_editor.execute(f"DROP INDEX IF EXISTS {TRIGRAMS}")


class Migration(migrations.Migration):
    dependencies = [("catalogue", "0005_price_lists")]

    operations = [
        migrations.AddIndex(
            model_name="listedpart",
            index=models.Index(fields=["search_key"], name="listed_part_found"),
        ),
        migrations.RunPython(forgive, no_longer),
    ]
