"""The database refuses to change or delete what the books have issued, whoever asks.

SQLite drops a table's triggers when a later migration rebuilds the table: such a migration runs
`set_again`.
"""

from django.db import migrations

from quotes.models import frozen_triggers


class Migration(migrations.Migration):
    dependencies = [("quotes", "0007_books")]

    operations = [migrations.RunPython(frozen_triggers.set_again, frozen_triggers.take_off)]
