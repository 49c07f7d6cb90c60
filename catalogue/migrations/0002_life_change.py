import uuid

import django.db.models.deletion
from django.conf import settings
from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies = [
        ("catalogue", "0001_initial"),
        migrations.swappable_dependency(settings.AUTH_USER_MODEL),
    ]

    operations = [
        migrations.CreateModel(
            name="LifeChange",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("key", models.UUIDField(default=uuid.uuid4, editable=False, unique=True)),
                ("component", models.CharField(max_length=64)),
                (
                    "basis",
                    models.CharField(
                        choices=[("miles", "track miles"), ("hours_mx", "motocross hours")], max_length=10
                    ),
                ),
                ("engine_type", models.CharField(blank=True, default="", max_length=64)),
                (
                    "rule",
                    models.CharField(
                        choices=[("learnt", "learnt"), ("likelihood", "likelihood")], max_length=10
                    ),
                ),
                ("low", models.FloatField()),
                ("typical", models.FloatField()),
                ("high", models.FloatField()),
                ("shape", models.FloatField()),
                ("evidence", models.FloatField()),
                ("was", models.JSONField()),
                ("data", models.JSONField()),
                ("counted", models.JSONField(default=list)),
                ("teardowns", models.JSONField(default=list)),
                ("reason", models.CharField(max_length=500)),
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
                    "rests_on",
                    models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="carries",
                        to="catalogue.lifechange",
                    ),
                ),
                (
                    "takes_back",
                    models.OneToOneField(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="taken_back",
                        to="catalogue.lifechange",
                    ),
                ),
            ],
            options={
                "ordering": ["-id"],
                "constraints": [
                    models.CheckConstraint(
                        condition=models.Q(
                            ("high__gte", models.F("typical")),
                            ("low__gt", 0),
                            ("typical__gte", models.F("low")),
                        ),
                        name="life_change_low_to_high",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(("evidence__gt", 0), ("shape__gt", 0)),
                        name="life_change_has_a_law",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(("reason", ""), _negated=True), name="life_change_says_why"
                    ),
                ],
            },
        ),
    ]
