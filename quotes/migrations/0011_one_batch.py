"""The database refuses to put an entry into a second batch, and to change a batch that is ready.

All triggers of the books are set again, so that those that came later stand as well.
"""

from django.db import migrations

from quotes.models import frozen_triggers


class Migration(migrations.Migration):
    dependencies = [("quotes", "0010_tax_code_before")]

    operations = [migrations.RunPython(frozen_triggers.set_again, migrations.RunPython.noop)]
