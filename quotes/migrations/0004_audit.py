"""The record of changes, its chain, and triggers on what was issued, agreed to and stored."""

import django.db.models.deletion
from django.db import migrations, models

from quotes.models import frozen_triggers


class Migration(migrations.Migration):

    dependencies = [
        ('quotes', '0003_sent_forms'),
    ]

    operations = [
        frozen_triggers.Triggers(frozen_triggers.take_off, frozen_triggers.set_again),
        migrations.CreateModel(
            name='AuditEntry',
            fields=[
                ('number', models.PositiveBigIntegerField(primary_key=True, serialize=False)),
                ('at', models.DateTimeField(db_index=True)),
                ('by_kind', models.CharField(choices=[('person', 'a person signed in'), ('customer', 'a customer, by link'), ('command', 'a command')], max_length=10)),
                ('by_id', models.CharField(blank=True, default='', max_length=64)),
                ('action', models.CharField(choices=[('added', 'added'), ('changed', 'changed'), ('deleted', 'deleted'), ('loaded', 'loaded')], max_length=10)),
                ('record_type', models.CharField(max_length=60)),
                ('record_id', models.CharField(max_length=64)),
                ('under_type', models.CharField(blank=True, default='', max_length=60)),
                ('under_id', models.CharField(blank=True, default='', max_length=64)),
                ('digest', models.CharField(max_length=64)),
                ('previous', models.CharField(max_length=64)),
                ('hash', models.CharField(max_length=64, unique=True)),
            ],
            options={
                'verbose_name_plural': 'audit entries',
                'ordering': ['-number'],
            },
        ),
        migrations.CreateModel(
            name='AuditHead',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('count', models.PositiveBigIntegerField(default=0)),
                ('hash', models.CharField(max_length=64)),
            ],
        ),
        migrations.CreateModel(
            name='AuditWords',
            fields=[
                ('entry', models.OneToOneField(on_delete=django.db.models.deletion.PROTECT, primary_key=True, related_name='words', serialize=False, to='quotes.auditentry')),
                ('told', models.TextField()),
                ('erased_at', models.DateTimeField(blank=True, null=True)),
            ],
            options={
                'verbose_name_plural': 'audit words',
            },
        ),
        migrations.AddIndex(
            model_name='auditentry',
            index=models.Index(fields=['record_type', 'record_id'], name='audit_record'),
        ),
        migrations.AddIndex(
            model_name='auditentry',
            index=models.Index(fields=['under_type', 'under_id'], name='audit_under'),
        ),
        migrations.AddIndex(
            model_name='auditentry',
            index=models.Index(fields=['by_kind', 'by_id'], name='audit_by'),
        ),
        migrations.AddConstraint(
            model_name='audithead',
            constraint=models.CheckConstraint(condition=models.Q(('id', 1)), name='one_audit_head'),
        ),
        frozen_triggers.Triggers(frozen_triggers.set_again, frozen_triggers.take_off),
    ]
