"""Indexes in the order that long lists are sorted in, so that a page reads a page."""

from django.conf import settings
from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies = [
        ("quotes", "0019_drafts_by_key"),
        migrations.swappable_dependency(settings.AUTH_USER_MODEL),
    ]

    operations = [
        migrations.RemoveIndex("revision", "revision_sorted"),
        migrations.RemoveIndex("revision", "revision_valid_until"),
        migrations.AddIndex(
            "revision", models.Index(fields=["valid_until", "quote"], name="revision_by_last_day")
        ),
        migrations.AddIndex(
            "revision", models.Index(fields=["gross_from", "quote"], name="revision_by_least")
        ),
        migrations.AddIndex("revision", models.Index(fields=["gross_to", "quote"], name="revision_by_most")),
        migrations.AddIndex("customer", models.Index(fields=["name"], name="customer_by_name")),
        migrations.AddIndex("engine", models.Index(fields=["number"], name="engine_by_number")),
    ]
