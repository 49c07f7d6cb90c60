"""A draft bears the day of the document that came of it, with an index in the order of the list."""

from django.db import migrations, models
from django.db.models import Exists, OuterRef, Q, Subquery


def copy_days(apps, schema_editor):
    drafts, invoices = apps.get_model("quotes", "InvoiceDraft"), apps.get_model("quotes", "Invoice")
    issued = invoices.objects.filter(draft=OuterRef("pk")).order_by()
    drafts.objects.filter(Exists(issued)).update(issued_on=Subquery(issued.values("issued_on")))


class Migration(migrations.Migration):
    dependencies = [("quotes", "0022_quotes_last_day")]

    operations = [
        migrations.AddField(
            model_name="invoicedraft",
            name="issued_on",
            field=models.DateField(blank=True, editable=False, null=True),
        ),
        migrations.RunPython(copy_days, migrations.RunPython.noop),
        migrations.AddIndex(
            model_name="invoicedraft",
            index=models.Index(
                condition=Q(dropped_at=None),
                fields=["issued_on", "id", "dropped_at"],
                name="draft_by_day",
            ),
        ),
    ]
