"""The database refuses to change or delete what the books have issued, whoever asks.

SQLite drops a table's triggers when a later migration rebuilds the table: such a migration runs `freeze`
again.
"""

from django.db import migrations

from quotes.models import frozen_triggers


def freeze(apps, schema_editor):
    vendor = schema_editor.connection.vendor
    for statement in [*frozen_triggers.freeze(vendor), *frozen_triggers.keep(vendor)]:
        schema_editor.execute(statement)


def thaw(apps, schema_editor):
    vendor = schema_editor.connection.vendor
    for statement in [*frozen_triggers.thaw(vendor), *frozen_triggers.let_go(vendor)]:
        schema_editor.execute(statement)


class Migration(migrations.Migration):
    dependencies = [("quotes", "0007_books")]

    operations = [migrations.RunPython(freeze, thaw)]
