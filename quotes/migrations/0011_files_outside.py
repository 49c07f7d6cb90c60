"""Files whose bytes are kept outside of the database."""

from django.db import migrations, models

from quotes.models import frozen_triggers


class Migration(migrations.Migration):
    dependencies = [("quotes", "0010_catalogue_workbooks")]

    operations = [
        frozen_triggers.Triggers(frozen_triggers.take_off, frozen_triggers.set_again),
        migrations.RenameField(model_name="storedfile", old_name="content", new_name="held"),
        migrations.AlterField(model_name="storedfile", name="held", field=models.BinaryField(default=b"")),
        migrations.AddField(
            model_name="storedfile",
            name="place",
            field=models.CharField(blank=True, db_index=True, default="", max_length=100),
        ),
        frozen_triggers.Triggers(frozen_triggers.set_again, frozen_triggers.take_off),
    ]
