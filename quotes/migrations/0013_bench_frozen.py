"""The database keeps the rows of the bench as it keeps those of the books.

SQLite dropped the triggers of the tables that 0012 rebuilt, so all of them are set again.
"""

from django.db import migrations

from quotes.models import frozen_triggers


class Migration(migrations.Migration):
    dependencies = [("quotes", "0012_bench")]

    operations = [migrations.RunPython(frozen_triggers.set_again, migrations.RunPython.noop)]
