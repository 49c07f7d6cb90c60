"""A bill says when it was taken back; only among those that stand is a supplier's number kept once."""

from django.apps.registry import Apps
from django.db import migrations, models
from django.db.backends.base.schema import BaseDatabaseSchemaEditor
from django.db.models import F, OuterRef, Q, Subquery

from quotes.models import frozen_triggers


def note_the_taken_back(apps: Apps, schema_editor: BaseDatabaseSchemaEditor) -> None:
    """A bill was taken back when the one that did it was entered."""
    bills = apps.get_model("quotes", "SupplierBill").objects.order_by()
    by = bills.filter(reverses=OuterRef("pk"))
    bills.annotate(by=Subquery(by.values("entered_at"))).filter(by__isnull=False).update(
        taken_back_at=F("by")
    )


class Migration(migrations.Migration):
    dependencies = [
        ("quotes", "0019_called_off"),
    ]

    operations = [
        migrations.RunPython(frozen_triggers.take_off, frozen_triggers.set_again),
        migrations.RemoveConstraint(
            model_name="supplierbill",
            name="supplier_bill_entered_once",
        ),
        migrations.AddField(
            model_name="supplierbill",
            name="taken_back_at",
            field=models.DateTimeField(blank=True, null=True),
        ),
        migrations.RunPython(note_the_taken_back, migrations.RunPython.noop),
        migrations.AddConstraint(
            model_name="supplierbill",
            constraint=models.UniqueConstraint(
                condition=Q(reverses=None, taken_back_at=None),
                fields=("supplier", "supplier_number"),
                name="supplier_bill_entered_once",
                violation_error_message="A bill of that supplier with that number stands in the books.",
            ),
        ),
        migrations.RunPython(frozen_triggers.set_again, frozen_triggers.take_off),
    ]
