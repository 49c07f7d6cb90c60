"""A tax code keeps its rates with the day that each holds from, where it kept how it was before a change."""

from datetime import timedelta
from itertools import groupby, pairwise
from typing import Any

import django.db.models.deletion
from django.apps.registry import Apps
from django.db import migrations, models
from django.db.backends.base.schema import BaseDatabaseSchemaEditor

CATEGORIES = [
    ("S", "S: standard rate"),
    ("Z", "Z: zero rated"),
    ("E", "E: exempt"),
    ("AE", "AE: reverse charge"),
    ("K", "K: within the union"),
    ("G", "G: export"),
    ("O", "O: outside the scope of tax"),
]


def to_first_days(apps: Apps, schema_editor: BaseDatabaseSchemaEditor) -> None:
    """What a code was until a day becomes what it is from the day after the one before.

    Of two changes on one day the first kept what had held until then, and only that did.
    """
    kept = apps.get_model("quotes", "TaxCodeBefore").objects.order_by("code", "until", "id")
    codes = {row.code: row for row in apps.get_model("quotes", "TaxCode").objects.all()}
    for code, rows in groupby(kept, key=lambda row: row.code):
        held = [next(same) for _, same in groupby(rows, key=lambda row: row.until)]
        if row := codes.get(code):
            _turn(apps, row, held)


def _turn(apps: Apps, row: Any, held: list[Any]) -> None:
    rates, components = apps.get_model("quotes", "TaxRate"), apps.get_model("quotes", "TaxComponent")
    layers = components.objects.filter(tax_code=row)
    latest = [[layer.name, str(layer.rate_pct)] for layer in layers.order_by("order", "id")]
    day = timedelta(days=1)
    for before, after in pairwise(held):
        rates.objects.create(
            tax_code=row,
            valid_from=before.until + day,
            category=after.category,
            reason=after.reason,
            components=after.components,
        )
    rates.objects.create(
        tax_code=row,
        valid_from=held[-1].until + day,
        category=row.category,
        reason=row.reason,
        components=latest,
    )
    layers.delete()
    for order, (name, rate) in enumerate(held[0].components):
        components.objects.create(tax_code=row, order=order, name=name, rate_pct=rate)
    row.category, row.reason = held[0].category, held[0].reason
    row.save()


def to_last_days(apps: Apps, schema_editor: BaseDatabaseSchemaEditor) -> None:
    """Backwards: each rate but the latest is kept as what held until the next."""
    before = apps.get_model("quotes", "TaxCodeBefore").objects
    components = apps.get_model("quotes", "TaxComponent").objects
    for row in apps.get_model("quotes", "TaxCode").objects.all():
        layers = components.filter(tax_code=row)
        pairs = [[layer.name, str(layer.rate_pct)] for layer in layers.order_by("order", "id")]
        held = {"category": row.category, "reason": row.reason, "components": pairs}
        for rate in apps.get_model("quotes", "TaxRate").objects.filter(tax_code=row).order_by("valid_from"):
            before.create(code=row.code, until=rate.valid_from - timedelta(days=1), **held)
            held = {"category": rate.category, "reason": rate.reason, "components": rate.components}
        layers.delete()
        for order, (name, rate_pct) in enumerate(held["components"]):
            components.create(tax_code=row, order=order, name=name, rate_pct=rate_pct)
        row.category, row.reason = held["category"], held["reason"]
        row.save()


class Migration(migrations.Migration):
    dependencies = [
        ("quotes", "0022_lifed_parts_reconditioned"),
    ]

    operations = [
        migrations.CreateModel(
            name="TaxRate",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("valid_from", models.DateField()),
                ("category", models.CharField(choices=CATEGORIES, max_length=2)),
                ("reason", models.CharField(blank=True, default="", max_length=200)),
                ("components", models.JSONField(blank=True, default=list)),
                (
                    "tax_code",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.CASCADE,
                        related_name="rates",
                        to="quotes.taxcode",
                    ),
                ),
            ],
            options={
                "ordering": ["valid_from"],
                "constraints": [
                    models.UniqueConstraint(
                        fields=("tax_code", "valid_from"),
                        name="tax_rate_begins_once",
                        violation_error_message="A rate of that tax code begins on that day already.",
                    )
                ],
            },
        ),
        migrations.RunPython(to_first_days, to_last_days),
        migrations.DeleteModel(name="TaxCodeBefore"),
    ]
