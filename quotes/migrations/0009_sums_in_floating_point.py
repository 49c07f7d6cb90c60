"""Sums are compared after rounding: SQLite keeps them in floating point, where 320.36 + 19.22 is not 339.58.

SQLite drops a table's triggers when it rebuilds the table for a new constraint, so they are set again.
"""

import django.db.models.functions.math
from django.db import migrations, models

from quotes.models import frozen_triggers

NAMES = {
    "invoice": "invoice_net_and_tax_are_gross",
    "supplierbill": "supplier_bill_net_and_tax_are_gross",
}


def constraint(name):
    gross = django.db.models.functions.math.Round(models.F("net") + models.F("tax"), precision=3)
    return models.CheckConstraint(condition=models.Q(gross=gross), name=name)


class Migration(migrations.Migration):
    dependencies = [("quotes", "0008_books_frozen")]

    operations = [
        migrations.RunPython(migrations.RunPython.noop, frozen_triggers.set_again),
        *(migrations.RemoveConstraint(model, name) for model, name in NAMES.items()),
        *(migrations.AddConstraint(model, constraint(name)) for model, name in NAMES.items()),
        migrations.RunPython(frozen_triggers.set_again, migrations.RunPython.noop),
    ]
