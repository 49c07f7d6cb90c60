"""A build says itself when it was invoiced, with an index of those that are done and were not."""

from django.db import migrations, models
from django.db.models import Exists, Max, OuterRef, Q, Subquery, Sum

from quotes.models.frozen_triggers import Triggers, set_again, take_off


def mark_invoiced(apps, schema_editor):
    """As of the last invoice, where credit notes have not taken back all of them."""
    builds, invoices = apps.get_model("quotes", "Acceptance"), apps.get_model("quotes", "Invoice")
    of_build = invoices.objects.filter(build=OuterRef("pk"), kind="invoice").order_by().values("build")
    last = Subquery(of_build.annotate(last=Max("issued_at")).values("last"))
    builds.objects.filter(Exists(of_build)).update(invoiced_at=last)
    credited = invoices.objects.filter(kind="credit_note").values("build")
    for build in builds.objects.filter(pk__in=credited).only("pk"):
        sums = dict(build.invoices.order_by().values_list("kind").annotate(Sum("gross")))
        # SQLite adds in floating point: sums have three decimals at most.
        if round(sums["credit_note"] - sums.get("invoice", 0), 3) >= 0:
            builds.objects.filter(pk=build.pk).update(invoiced_at=None)


class Migration(migrations.Migration):
    dependencies = [("quotes", "0020_lists_sorted_by_index")]

    operations = [
        Triggers(take_off, set_again),
        migrations.AddField(
            model_name="acceptance",
            name="invoiced_at",
            field=models.DateTimeField(blank=True, null=True),
        ),
        migrations.AddIndex(
            model_name="acceptance",
            index=models.Index(
                condition=Q(done_at__isnull=False, invoiced_at=None),
                fields=["done_at", "id"],
                name="acceptance_to_invoice",
            ),
        ),
        migrations.RunPython(mark_invoiced, migrations.RunPython.noop),
        Triggers(set_again, take_off),
    ]
