"""Price lists may be kept outside of the database, as all other files; back again they are in their rows."""

import hashlib

from django.core.files.storage import storages
from django.db import migrations, models


def back_into_rows(apps, schema_editor):
    rows = apps.get_model("catalogue", "PriceList").objects.using(schema_editor.connection.alias)
    for row in rows.exclude(place="").only("sha256", "place", "held").iterator(chunk_size=1):
        with storages["default"].open(row.place) as file:
            row.held = file.read()
        if hashlib.sha256(row.held).hexdigest() != row.sha256:
            raise ValueError(f"{row.place} is not what was kept: its SHA-256 differs. Nothing was changed.")
        row.save(update_fields=["held"])


class Migration(migrations.Migration):
    dependencies = [("catalogue", "0007_price_list_first_lines")]

    operations = [
        migrations.AlterField(
            model_name="heldprice",
            name="price_list",
            field=models.ForeignKey(
                on_delete=models.CASCADE, related_name="held_prices", to="catalogue.pricelist"
            ),
        ),
        migrations.RenameField(model_name="pricelist", old_name="content", new_name="held"),
        migrations.AlterField(
            model_name="pricelist", name="held", field=models.BinaryField(default=b"")
        ),
        migrations.AddField(
            model_name="pricelist",
            name="place",
            field=models.CharField(blank=True, db_index=True, default="", max_length=100),
        ),
        migrations.RunPython(migrations.RunPython.noop, back_into_rows),
    ]
