"""The key stands in the index of drafts, so that PostgreSQL sorts a long list without their content."""

from django.db import migrations, models


class Migration(migrations.Migration):

    dependencies = [
        ('quotes', '0018_orders_done'),
    ]

    operations = [
        migrations.RemoveIndex(model_name='invoicedraft', name='draft_in_list'),
        migrations.AddIndex(
            model_name='invoicedraft',
            index=models.Index(
                condition=models.Q(dropped_at=None),
                fields=['customer', 'build', 'dropped_at', 'id'],
                name='draft_in_list',
            ),
        ),
    ]
