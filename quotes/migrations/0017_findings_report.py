"""The findings report, the build worked out again, and when a quote was issued again without a change."""

import django.db.models.deletion
from django.conf import settings
from django.db import migrations, models

from quotes.models import frozen_triggers


class Migration(migrations.Migration):
    dependencies = [
        ("quotes", "0016_lifed_parts_ran_before"),
        migrations.swappable_dependency(settings.AUTH_USER_MODEL),
    ]

    operations = [
        migrations.RunPython(frozen_triggers.take_off, frozen_triggers.set_again),
        migrations.AddField(
            model_name="quote",
            name="confirmed_at",
            field=models.DateTimeField(blank=True, null=True),
        ),
        migrations.CreateModel(
            name="WorkedAgain",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("request", models.JSONField()),
                ("option", models.JSONField()),
                ("made_at", models.DateTimeField()),
                (
                    "build",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="worked_again",
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
                (
                    "extra_work",
                    models.OneToOneField(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="worked_again",
                        to="quotes.extrawork",
                    ),
                ),
                (
                    "job",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="worked_again",
                        to="quotes.job",
                    ),
                ),
            ],
            options={
                "ordering": ["made_at", "id"],
            },
        ),
        migrations.CreateModel(
            name="FindingsReport",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("index", models.PositiveSmallIntegerField()),
                ("sheet", models.JSONField()),
                ("sheet_sha256", models.CharField(max_length=64)),
                ("issued_at", models.DateTimeField()),
                (
                    "issued_by",
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
                        related_name="findings_reports",
                        to="quotes.job",
                    ),
                ),
                (
                    "pdf",
                    models.OneToOneField(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to="quotes.storedfile",
                    ),
                ),
            ],
            options={
                "ordering": ["job", "index"],
                "constraints": [
                    models.UniqueConstraint(fields=("job", "index"), name="findings_report_index_once"),
                    models.CheckConstraint(
                        condition=models.Q(("index__gte", 1)), name="findings_report_counts_from_one"
                    ),
                ],
            },
        ),
        migrations.RunPython(frozen_triggers.set_again, frozen_triggers.take_off),
    ]
