"""Invitations, what may be done only so often, and links that all run out."""

from datetime import timedelta

import django.db.models.deletion
import django.db.models.functions.text
from django.conf import settings
from django.db import migrations, models


def a_year_from_its_making(apps, schema_editor):
    """Links were made without an end."""
    links = apps.get_model("quotes", "Link").objects
    for link in links.filter(expires_at=None):
        links.filter(pk=link.pk).update(expires_at=link.created_at + timedelta(days=365))


class Migration(migrations.Migration):

    dependencies = [
        ('quotes', '0004_audit'),
        migrations.swappable_dependency(settings.AUTH_USER_MODEL),
    ]

    operations = [
        migrations.CreateModel(
            name='Allowance',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('what', models.CharField(max_length=30)),
                ('who_hash', models.CharField(max_length=64)),
                ('times', models.JSONField(default=list, help_text='when it was done of late, in ISO 8601, the oldest first')),
                ('last_at', models.DateTimeField(db_index=True)),
            ],
            options={
                'ordering': ['what', '-last_at'],
            },
        ),
        migrations.CreateModel(
            name='Invitation',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('name', models.CharField(help_text="the person's name, as it stands on papers", max_length=150)),
                ('role', models.CharField(max_length=10)),
                ('mail', models.EmailField(max_length=254)),
                ('token_hash', models.CharField(max_length=64, unique=True)),
                ('invited_at', models.DateTimeField()),
                ('sent_at', models.DateTimeField()),
                ('expires_at', models.DateTimeField()),
                ('withdrawn_at', models.DateTimeField(blank=True, null=True)),
                ('taken_at', models.DateTimeField(blank=True, null=True)),
            ],
            options={
                'ordering': ['-invited_at', '-id'],
            },
        ),
        migrations.DeleteModel(
            name='PasswordAsk',
        ),
        migrations.RunPython(a_year_from_its_making, migrations.RunPython.noop),
        migrations.AlterField(
            model_name='link',
            name='expires_at',
            field=models.DateTimeField(),
        ),
        migrations.AddConstraint(
            model_name='allowance',
            constraint=models.UniqueConstraint(fields=('what', 'who_hash'), name='allowance_once_a_who'),
        ),
        migrations.AddField(
            model_name='invitation',
            name='invited_by',
            field=models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL),
        ),
        migrations.AddField(
            model_name='invitation',
            name='user',
            field=models.OneToOneField(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='invitation', to=settings.AUTH_USER_MODEL),
        ),
        migrations.AddConstraint(
            model_name='invitation',
            constraint=models.UniqueConstraint(django.db.models.functions.text.Lower('mail'), condition=models.Q(('taken_at', None), ('withdrawn_at', None)), name='invitation_open_once_a_mail', violation_error_message='An invitation to this mail address is open already: send it again.'),
        ),
        migrations.AddConstraint(
            model_name='invitation',
            constraint=models.CheckConstraint(condition=models.Q(models.Q(('taken_at', None), ('user', None)), models.Q(('taken_at__isnull', False), ('user__isnull', False)), _connector='OR'), name='invitation_taken_by_somebody'),
        ),
        migrations.AddConstraint(
            model_name='invitation',
            constraint=models.CheckConstraint(condition=models.Q(('expires_at__gt', models.F('sent_at'))), name='invitation_runs_out_after_it_was_sent'),
        ),
    ]
