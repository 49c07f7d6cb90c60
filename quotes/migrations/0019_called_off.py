"""A build may be called off after the yes; the row that says so is kept for good."""

import django.db.models.deletion
from django.conf import settings
from django.db import migrations, models

from quotes.models import frozen_triggers


class Migration(migrations.Migration):
    dependencies = [
        ("quotes", "0018_costs_back_in_work"),
        migrations.swappable_dependency(settings.AUTH_USER_MODEL),
    ]

    operations = [
        migrations.RunPython(frozen_triggers.take_off, frozen_triggers.set_again),
        migrations.CreateModel(
            name="CalledOff",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("reason", models.CharField(max_length=300)),
                ("said_by", models.CharField(max_length=200)),
                ("on", models.DateField()),
                ("at", models.DateTimeField()),
                (
                    "build",
                    models.OneToOneField(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="called_off",
                        to="quotes.acceptance",
                    ),
                ),
                (
                    "by",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to=settings.AUTH_USER_MODEL,
                    ),
                ),
            ],
            options={
                "ordering": ["at", "id"],
                "constraints": [
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(("reason", ""), _negated=True), models.Q(("said_by", ""), _negated=True)
                        ),
                        name="called_off_with_a_reason",
                    )
                ],
            },
        ),
        migrations.RunPython(frozen_triggers.set_again, frozen_triggers.take_off),
    ]
