
from django.conf import settings
from django.db import migrations, models

from quotes.database.at_once import at_once


class Migration(migrations.Migration):

    dependencies = [
        ('quotes', '0011_files_outside'),
        migrations.swappable_dependency(settings.AUTH_USER_MODEL),
    ]

    operations = at_once([
        migrations.AddIndex(
            model_name='acceptance',
            index=models.Index(fields=['accepted_at'], name='acceptance_accepted_at'),
        ),
        migrations.AddIndex(
            model_name='acceptance',
            index=models.Index(fields=['done_at'], name='acceptance_done_at'),
        ),
        migrations.AddIndex(
            model_name='allocation',
            index=models.Index(fields=['on'], name='allocation_on'),
        ),
        migrations.AddIndex(
            model_name='invoice',
            index=models.Index(fields=['build', 'kind'], name='invoice_of_build'),
        ),
        migrations.AddIndex(
            model_name='invoice',
            index=models.Index(fields=['draft', 'issued_on'], name='invoice_of_draft'),
        ),
        migrations.AddIndex(
            model_name='invoice',
            index=models.Index(fields=['search_key', 'draft'], name='invoice_found'),
        ),
        migrations.AddIndex(
            model_name='invoicedraft',
            index=models.Index(condition=models.Q(('dropped_at', None)), fields=['customer', 'build'], name='draft_listed'),
        ),
        migrations.AddIndex(
            model_name='journalentry',
            index=models.Index(fields=['on', 'batch', 'total'], name='journal_entry_by_day'),
        ),
        migrations.AddIndex(
            model_name='journalline',
            index=models.Index(fields=['account', 'account_name'], name='journal_line_account'),
        ),
        migrations.AddIndex(
            model_name='openitem',
            index=models.Index(condition=models.Q(('open_amount__gt', 0)), fields=['due_on', 'open_amount'], name='open_item_owed_to_us'),
        ),
        migrations.AddIndex(
            model_name='openitem',
            index=models.Index(condition=models.Q(('open_amount__lt', 0)), fields=['customer'], name='open_item_owed_by_us'),
        ),
        migrations.AddIndex(
            model_name='quote',
            index=models.Index(fields=['created_at', 'search_key', 'customer', 'engine'], name='quote_listed'),
        ),
        migrations.AddIndex(
            model_name='quote',
            index=models.Index(condition=models.Q(('accepted_at', None), ('closed_at', None), ('declined_at', None)), fields=['latest'], name='quote_open'),
        ),
        migrations.AddIndex(
            model_name='quote',
            index=models.Index(condition=models.Q(('accepted_at', None), ('closed_at', None), ('declined_at', None)), fields=['version'], name='quote_open_changed'),
        ),
        migrations.AddIndex(
            model_name='revision',
            index=models.Index(fields=['valid_until'], name='revision_valid_until'),
        ),
    ])
