"""The database refuses to put an entry into a second batch, and to change a batch that is ready.

All triggers of the books are set again, so that those that came later stand as well.
"""

from django.db import migrations

from quotes.models import frozen_triggers


def set_again(apps, schema_editor):
    vendor = schema_editor.connection.vendor
    off = [*frozen_triggers.thaw(vendor), *frozen_triggers.let_go(vendor)]
    on = [*frozen_triggers.freeze(vendor), *frozen_triggers.keep(vendor)]
    for statement in [*off, *on]:
        schema_editor.execute(statement)


class Migration(migrations.Migration):
    dependencies = [("quotes", "0010_tax_code_before")]

    operations = [migrations.RunPython(set_again, migrations.RunPython.noop)]
