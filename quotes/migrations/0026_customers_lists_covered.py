"""What is found by its customers is sorted within an index: SQLite read every row for its day."""

from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies = [("quotes", "0025_marks_found_by_index")]

    operations = [
        migrations.AddIndex(
            model_name="quote",
            index=models.Index(fields=["customer", "created_at"], name="quote_of_customer"),
        ),
        migrations.RemoveIndex(model_name="invoicedraft", name="draft_in_list"),
        migrations.AddIndex(
            model_name="invoicedraft",
            index=models.Index(
                condition=models.Q(dropped_at=None),
                fields=["customer", "build", "dropped_at", "issued_on", "id"],
                name="draft_in_list",
            ),
        ),
    ]
