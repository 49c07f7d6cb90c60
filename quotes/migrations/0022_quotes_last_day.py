"""A quote bears the last day of its latest revision, with an index of those that nobody has answered."""

from django.db import migrations, models
from django.db.models import OuterRef, Q, Subquery


def copy_last_days(apps, schema_editor):
    quotes, revisions = apps.get_model("quotes", "Quote"), apps.get_model("quotes", "Revision")
    of_latest = revisions.objects.filter(pk=OuterRef("latest")).order_by().values("valid_until")
    quotes.objects.exclude(latest=None).update(stands_until=Subquery(of_latest))


class Migration(migrations.Migration):
    dependencies = [("quotes", "0021_builds_invoiced")]

    operations = [
        migrations.AddField(
            model_name="quote",
            name="stands_until",
            field=models.DateField(blank=True, editable=False, null=True),
        ),
        migrations.RunPython(copy_last_days, migrations.RunPython.noop),
        migrations.AddIndex(
            model_name="quote",
            index=models.Index(
                condition=Q(accepted_at=None, closed_at=None, declined_at=None, asked_at=None),
                fields=["stands_until", "created_at"],
                name="quote_unanswered",
            ),
        ),
        migrations.AddConstraint(
            model_name="quote",
            constraint=models.CheckConstraint(
                condition=Q(latest=None, stands_until=None)
                | Q(latest__isnull=False, stands_until__isnull=False),
                name="quote_stands_until_when_issued",
            ),
        ),
    ]
