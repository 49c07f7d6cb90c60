from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies = [("quotes", "0003_frozen_rows")]

    operations = [
        migrations.AddField(
            model_name="quote",
            name="card_key",
            field=models.UUIDField(default=None, editable=False, null=True, unique=True),
        ),
    ]
