import django.db.models.deletion
from django.conf import settings
from django.db import migrations, models

from quotes.models import frozen_triggers


class Migration(migrations.Migration):
    dependencies = [
        ("quotes", "0024_service_outcomes"),
        ("catalogue", "0002_life_change"),
        migrations.swappable_dependency(settings.AUTH_USER_MODEL),
    ]

    operations = [
        migrations.RunPython(frozen_triggers.take_off, frozen_triggers.set_again),
        migrations.AddField(
            model_name="evidence",
            name="at",
            field=models.DateTimeField(blank=True, null=True),
        ),
        migrations.AddField(
            model_name="evidence",
            name="by",
            field=models.ForeignKey(
                blank=True,
                null=True,
                on_delete=django.db.models.deletion.PROTECT,
                related_name="+",
                to=settings.AUTH_USER_MODEL,
            ),
        ),
        migrations.AddField(
            model_name="evidence",
            name="engine_name",
            field=models.CharField(blank=True, default="", max_length=120),
        ),
        migrations.AddField(
            model_name="evidence",
            name="key",
            field=models.UUIDField(blank=True, editable=False, null=True, unique=True),
        ),
        migrations.AddField(
            model_name="evidence",
            name="ran",
            field=models.FloatField(blank=True, null=True),
        ),
        migrations.AddField(
            model_name="evidence",
            name="ran_at_entry",
            field=models.FloatField(blank=True, null=True),
        ),
        migrations.AddField(
            model_name="evidence",
            name="source",
            field=models.CharField(blank=True, default="", max_length=300),
        ),
        migrations.AddField(
            model_name="evidence",
            name="withdrawn_at",
            field=models.DateTimeField(blank=True, null=True),
        ),
        migrations.AddField(
            model_name="evidence",
            name="withdrawn_because",
            field=models.CharField(blank=True, default="", max_length=300),
        ),
        migrations.AddField(
            model_name="evidence",
            name="withdrawn_by",
            field=models.CharField(blank=True, default="", max_length=150),
        ),
        migrations.AddConstraint(
            model_name="evidence",
            constraint=models.CheckConstraint(
                condition=models.Q(
                    models.Q(("failure", None), ("job", None), _negated=True),
                    models.Q(("by__isnull", False), models.Q(("engine_name", ""), _negated=True)),
                    _connector="OR",
                ),
                name="evidence_says_whence",
            ),
        ),
        migrations.AddConstraint(
            model_name="evidence",
            constraint=models.CheckConstraint(
                condition=models.Q(
                    ("withdrawn_at", None),
                    models.Q(("withdrawn_because", ""), _negated=True),
                    _connector="OR",
                ),
                name="evidence_withdrawn_says_why",
            ),
        ),
        migrations.RunPython(frozen_triggers.set_again, frozen_triggers.take_off),
    ]
