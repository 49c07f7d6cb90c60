"""Forms that were sent and have had their effect."""

from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies = [("quotes", "0002_frozen_rows")]

    operations = [
        migrations.CreateModel(
            name="SentForm",
            fields=[
                (
                    "key",
                    models.CharField(
                        help_text="SHA-256 of the page's token and of what was sent",
                        max_length=64,
                        primary_key=True,
                        serialize=False,
                    ),
                ),
                ("at", models.DateTimeField(db_index=True)),
                (
                    "led_to",
                    models.TextField(default="", help_text="the address that the answer sent the browser to"),
                ),
            ],
        ),
    ]
