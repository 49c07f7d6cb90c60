
from django.conf import settings
from django.db import migrations, models


class Migration(migrations.Migration):

    dependencies = [
        ('quotes', '0012_indexes_for_long_lists'),
        migrations.swappable_dependency(settings.AUTH_USER_MODEL),
    ]

    operations = [
        migrations.RemoveIndex(
            model_name='invoice',
            name='invoice_found',
        ),
        migrations.AddIndex(
            model_name='acceptance',
            index=models.Index(condition=models.Q(('done_at', None)), fields=['accepted_at'], name='acceptance_in_hand'),
        ),
        migrations.AddIndex(
            model_name='invoice',
            index=models.Index(fields=['search_key', 'draft', 'customer', 'build'], name='invoice_found'),
        ),
        migrations.AddIndex(
            model_name='payment',
            index=models.Index(condition=models.Q(('deposit', True)), fields=['build'], name='payment_deposit'),
        ),
    ]
