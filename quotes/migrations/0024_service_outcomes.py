"""What became of the services that builds were sold for, and the owner's word on the factor."""

import uuid
from decimal import Decimal

import django.core.validators
import django.db.models.deletion
from django.conf import settings
from django.db import migrations, models

from quotes.models import frozen_triggers


class Migration(migrations.Migration):
    dependencies = [
        ("quotes", "0023_tax_rates"),
        migrations.swappable_dependency(settings.AUTH_USER_MODEL),
    ]

    operations = [
        migrations.RunPython(frozen_triggers.take_off, frozen_triggers.set_again),
        migrations.AddField(
            model_name="workshop",
            name="session_loss",
            field=models.DecimalField(
                decimal_places=2,
                default=Decimal("150"),
                help_text="what a lost session costs the customer, from memory",
                max_digits=12,
                validators=[django.core.validators.MinValueValidator(Decimal("0"))],
            ),
        ),
        migrations.AddField(
            model_name="workshop",
            name="weekend_loss",
            field=models.DecimalField(
                decimal_places=2,
                default=Decimal("800"),
                help_text="what a lost weekend costs him: entry, travel, nights; from memory",
                max_digits=12,
                validators=[django.core.validators.MinValueValidator(Decimal("0"))],
            ),
        ),
        migrations.CreateModel(
            name="ServiceOutcome",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("key", models.UUIDField(default=uuid.uuid4, editable=False, unique=True)),
                ("type_code", models.CharField(max_length=64)),
                ("tier", models.CharField(max_length=64)),
                ("duty", models.CharField(max_length=64)),
                ("planned", models.DecimalField(decimal_places=2, max_digits=12)),
                ("ran", models.DecimalField(blank=True, decimal_places=2, max_digits=12, null=True)),
                (
                    "unit",
                    models.CharField(
                        choices=[("mi", "miles"), ("km", "kilometres"), ("h", "hours"), ("runs", "runs")],
                        max_length=4,
                    ),
                ),
                ("chance", models.FloatField()),
                ("chance_low", models.FloatField()),
                ("chance_high", models.FloatField()),
                ("shop_factor", models.FloatField()),
                ("wear_hazard", models.FloatField()),
                ("hands_hazard", models.FloatField()),
                (
                    "end",
                    models.CharField(
                        choices=[
                            ("ran", "it did not stop"),
                            ("stopped", "it stopped"),
                            ("outside", "it was stopped by what no estimate counts"),
                            ("unknown", "nobody knows"),
                        ],
                        max_length=10,
                    ),
                ),
                ("stopped_by", models.CharField(blank=True, default="", max_length=64)),
                ("on", models.DateField()),
                ("told_by", models.CharField(blank=True, default="", max_length=200)),
                ("note", models.CharField(blank=True, default="", max_length=500)),
                ("at", models.DateTimeField()),
                ("withdrawn_at", models.DateTimeField(blank=True, null=True)),
                ("withdrawn_by", models.CharField(blank=True, default="", max_length=150)),
                ("withdrawn_because", models.CharField(blank=True, default="", max_length=300)),
                (
                    "build",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="outcomes",
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
                    "job",
                    models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="outcomes",
                        to="quotes.job",
                    ),
                ),
            ],
            options={
                "ordering": ["on", "id"],
                "constraints": [
                    models.UniqueConstraint(
                        condition=models.Q(("withdrawn_at", None)),
                        fields=("build",),
                        name="service_outcome_once_a_build",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(("end", "unknown"), ("ran", None)),
                            models.Q(models.Q(("end", "unknown"), _negated=True), ("ran__gte", 0)),
                            _connector="OR",
                        ),
                        name="service_outcome_says_how_far",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            ("chance__gt", 0),
                            ("chance__lte", 1),
                            ("hands_hazard__gte", 0),
                            ("wear_hazard__gte", 0),
                        ),
                        name="service_outcome_has_a_promise",
                    ),
                ],
            },
        ),
        migrations.CreateModel(
            name="ShopFactorChange",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("before", models.DecimalField(decimal_places=3, max_digits=5)),
                (
                    "after",
                    models.DecimalField(
                        decimal_places=3,
                        max_digits=5,
                        validators=[
                            django.core.validators.MinValueValidator(Decimal("0.1")),
                            django.core.validators.MaxValueValidator(Decimal("10")),
                        ],
                    ),
                ),
                ("reason", models.CharField(max_length=500)),
                ("record", models.JSONField(blank=True, default=dict)),
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
                    "takes_back",
                    models.OneToOneField(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="taken_back_by",
                        to="quotes.shopfactorchange",
                    ),
                ),
            ],
            options={
                "ordering": ["-at", "-id"],
                "constraints": [
                    models.CheckConstraint(
                        condition=models.Q(("reason", ""), _negated=True),
                        name="shop_factor_changed_for_a_reason",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(("after__gte", Decimal("0.1")), ("after__lte", 10)),
                        name="shop_factor_in_its_limits",
                    ),
                ],
            },
        ),
        migrations.RunPython(frozen_triggers.set_again, frozen_triggers.take_off),
    ]
