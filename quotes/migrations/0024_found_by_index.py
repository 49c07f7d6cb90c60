"""Indexes along which the box finds anything: an entry by the beginning of its number, suppliers by name."""

from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies = [("quotes", "0023_drafts_by_day")]

    operations = [
        migrations.AddIndex(
            model_name="journalentry",
            index=models.Index(
                fields=["number"], name="journal_entry_by_number", opclasses=["varchar_pattern_ops"]
            ),
        ),
        migrations.AddIndex(
            model_name="purchaseorder",
            index=models.Index(fields=["supplier_name"], name="order_by_supplier"),
        ),
        migrations.AddIndex(
            model_name="supplierbill",
            index=models.Index(fields=["supplier"], name="bill_by_supplier"),
        ),
    ]
