"""Reminders of what is overdue, and each time that one was sent; no row of either changes."""

import django.db.models.deletion
import uuid
from django.conf import settings
from django.db import migrations, models

from quotes.models.frozen_triggers import Triggers, set_again, take_off


class Migration(migrations.Migration):

    dependencies = [
        ('quotes', '0016_handed_in_outside'),
        migrations.swappable_dependency(settings.AUTH_USER_MODEL),
    ]

    operations = [
        Triggers(take_off, set_again),
        migrations.CreateModel(
            name='PaymentReminder',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('key', models.UUIDField(default=uuid.uuid4, editable=False, unique=True)),
                ('number', models.CharField(max_length=24, unique=True)),
                ('on', models.DateField(db_index=True)),
                ('pay_by', models.DateField()),
                ('amount', models.DecimalField(decimal_places=3, max_digits=16)),
                ('currency', models.CharField(max_length=3)),
                ('sheet', models.JSONField()),
                ('at', models.DateTimeField()),
                ('by', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL)),
                ('customer', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='payment_reminders', to='quotes.customer')),
                ('pdf', models.OneToOneField(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to='quotes.storedfile')),
            ],
            options={
                'ordering': ['-on', '-id'],
            },
        ),
        migrations.CreateModel(
            name='ReminderSent',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('key', models.UUIDField(default=uuid.uuid4, editable=False, unique=True)),
                ('on', models.DateField()),
                ('how', models.CharField(choices=[('letter', 'letter'), ('registered', 'registered letter'), ('email', 'e-mail'), ('message', 'message'), ('handed', 'handed over')], max_length=10)),
                ('to', models.CharField(max_length=400)),
                ('proof', models.CharField(blank=True, default='', max_length=300)),
                ('at', models.DateTimeField()),
                ('by', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL)),
                ('reminder', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='sendings', to='quotes.paymentreminder')),
            ],
            options={
                'ordering': ['on', 'id'],
            },
        ),
        migrations.AddConstraint(
            model_name='paymentreminder',
            constraint=models.CheckConstraint(condition=models.Q(('amount__gt', 0)), name='payment_reminder_above_nought'),
        ),
        migrations.AddConstraint(
            model_name='paymentreminder',
            constraint=models.CheckConstraint(condition=models.Q(('pay_by__gte', models.F('on'))), name='payment_reminder_leaves_time_to_pay'),
        ),
        migrations.AddConstraint(
            model_name='remindersent',
            constraint=models.CheckConstraint(condition=models.Q(('to', ''), _negated=True), name='reminder_sent_to_somebody'),
        ),
        Triggers(set_again, take_off),
    ]
