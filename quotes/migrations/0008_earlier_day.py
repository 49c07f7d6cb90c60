"""The owner's word for an invoice that bears an earlier day than the one before it."""

from django.db import migrations, models

from quotes.models import frozen_triggers


class Migration(migrations.Migration):
    dependencies = [("quotes", "0007_language_of_papers")]

    operations = [
        frozen_triggers.Triggers(frozen_triggers.take_off, frozen_triggers.set_again),
        migrations.AddField(
            model_name="invoice",
            name="earlier_because",
            field=models.CharField(blank=True, default="", max_length=300),
        ),
        frozen_triggers.Triggers(frozen_triggers.set_again, frozen_triggers.take_off),
    ]
