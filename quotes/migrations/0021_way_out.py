"""The last look before an engine leaves, and how each type is run in."""

import uuid

import django.db.models.deletion
from django.conf import settings
from django.db import migrations, models

from quotes.models import frozen_triggers


class Migration(migrations.Migration):
    dependencies = [
        ("quotes", "0020_bills_taken_back"),
        migrations.swappable_dependency(settings.AUTH_USER_MODEL),
    ]

    operations = [
        migrations.RunPython(frozen_triggers.take_off, frozen_triggers.set_again),
        migrations.CreateModel(
            name="FinalCheck",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("key", models.UUIDField(default=uuid.uuid4, editable=False, unique=True)),
                ("answers", models.JSONField(default=list)),
                ("asked", models.JSONField(blank=True, default=dict)),
                ("done", models.JSONField(blank=True, default=list)),
                ("rings", models.CharField(blank=True, default="", max_length=20)),
                ("bore", models.CharField(blank=True, default="", max_length=20)),
                ("note", models.CharField(blank=True, default="", max_length=500)),
                ("at", models.DateTimeField()),
                (
                    "by",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to=settings.AUTH_USER_MODEL,
                    ),
                ),
                (
                    "job",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="final_checks",
                        to="quotes.job",
                    ),
                ),
            ],
            options={
                "ordering": ["at", "id"],
            },
        ),
        migrations.CreateModel(
            name="RunningInRule",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("type_code", models.CharField(max_length=64, unique=True)),
                ("manual", models.CharField(blank=True, default="", max_length=200)),
                ("page", models.CharField(blank=True, default="", max_length=40)),
                (
                    "unit",
                    models.CharField(
                        choices=[("mi", "miles"), ("km", "kilometres"), ("h", "hours"), ("runs", "runs")],
                        max_length=4,
                    ),
                ),
                ("rev_limit_pct", models.PositiveSmallIntegerField()),
                ("revs_until", models.DecimalField(decimal_places=2, max_digits=12)),
                ("oil_at", models.DecimalField(decimal_places=2, max_digits=12)),
                ("recheck_at", models.DecimalField(blank=True, decimal_places=2, max_digits=12, null=True)),
                ("words", models.CharField(blank=True, default="", max_length=1000)),
            ],
            options={
                "ordering": ["type_code"],
                "constraints": [
                    models.CheckConstraint(
                        condition=models.Q(("rev_limit_pct__gte", 20), ("rev_limit_pct__lte", 100)),
                        name="running_in_revs_are_a_share",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(("oil_at__gte", 0), ("revs_until__gte", 0)),
                        name="running_in_not_negative",
                    ),
                ],
            },
        ),
        migrations.RunPython(frozen_triggers.set_again, frozen_triggers.take_off),
    ]
