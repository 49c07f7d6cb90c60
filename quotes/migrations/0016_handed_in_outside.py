"""Files that were handed in may be kept outside of the database, as all others."""

from django.db import migrations, models

KINDS = ("customerfile", "cataloguefile")


def of(kind):
    return [
        migrations.RenameField(model_name=kind, old_name="content", new_name="held"),
        migrations.AlterField(model_name=kind, name="held", field=models.BinaryField(default=b"")),
        migrations.AddField(
            model_name=kind,
            name="place",
            field=models.CharField(blank=True, db_index=True, default="", max_length=100),
        ),
    ]


class Migration(migrations.Migration):
    dependencies = [("quotes", "0015_indexes_for_ten_years")]

    operations = [one for kind in KINDS for one in of(kind)]
