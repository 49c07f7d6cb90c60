"""An order says itself when it is done; indexes for what the day sheet asks for."""

from django.db import migrations, models
from django.db.models import Max, Q

from quotes.calc.bench.parts.pieces import standing
from quotes.models.frozen_triggers import Triggers, set_again, take_off

AT_ONCE = 500


def mark_done(apps, schema_editor):
    """As of the last thing that was heard of each order of which nothing is waited for."""
    orders, events = apps.get_model("quotes", "PurchaseOrder"), apps.get_model("quotes", "OrderEvent")
    rows = orders.objects.annotate(last=Max("lines__events__at")).exclude(last=None).order_by("pk")
    done = []
    for order in rows.only("pk").iterator(chunk_size=AT_ONCE):
        lines = order.lines.values_list("pk", "quantity")
        told = {pk: [] for pk, _ in lines}
        for line, kind, quantity in events.objects.filter(line__order=order).values_list(
            "line", "kind", "quantity"
        ):
            told[line].append((kind, quantity))
        if all(standing(quantity, told[pk]).done for pk, quantity in lines):
            order.done_at = order.last
            done.append(order)
    for start in range(0, len(done), AT_ONCE):
        orders.objects.bulk_update(done[start : start + AT_ONCE], ["done_at"])


class Migration(migrations.Migration):
    dependencies = [
        ("quotes", "0017_payment_reminders"),
    ]

    operations = [
        Triggers(take_off, set_again),
        migrations.AddField(
            model_name="purchaseorder",
            name="done_at",
            field=models.DateTimeField(blank=True, null=True),
        ),
        migrations.RemoveIndex(model_name="acceptance", name="acceptance_done_at"),
        migrations.AddIndex(
            model_name="acceptance",
            index=models.Index(fields=["done_at", "id"], name="acceptance_done"),
        ),
        migrations.AddIndex(
            model_name="enquiry",
            index=models.Index(
                condition=Q(dropped_at=None, quote=None), fields=["kept_at"], name="enquiry_not_quoted"
            ),
        ),
        migrations.AddIndex(
            model_name="journalentry",
            index=models.Index(condition=Q(batch=None), fields=["on"], name="journal_entry_not_exported"),
        ),
        migrations.AddIndex(
            model_name="purchaseorder",
            index=models.Index(condition=Q(done_at=None), fields=["ordered_at"], name="order_waited_for"),
        ),
        migrations.AddIndex(
            model_name="reply",
            index=models.Index(
                condition=Q(kind="question", answered_at=None), fields=["at"], name="reply_unanswered"
            ),
        ),
        migrations.RunPython(mark_done, migrations.RunPython.noop),
        Triggers(set_again, take_off),
    ]
