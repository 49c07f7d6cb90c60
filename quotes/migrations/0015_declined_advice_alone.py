"""Declined advice holds no link to extra work: what was declined there stands in its own row."""

from django.db import migrations

from quotes.models import frozen_triggers


class Migration(migrations.Migration):

    dependencies = [
        ('quotes', '0014_strip_down'),
    ]

    operations = [
        migrations.RunPython(frozen_triggers.take_off, frozen_triggers.set_again),
        migrations.RemoveField(
            model_name='declinedadvice',
            name='extra_work',
        ),
        migrations.RunPython(frozen_triggers.set_again, frozen_triggers.take_off),
    ]
