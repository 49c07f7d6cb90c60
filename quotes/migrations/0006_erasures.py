"""Erasures of customers, with triggers, and how long the books are kept."""

import django.core.validators
import django.db.models.deletion
from django.db import migrations, models

from quotes.models import frozen_triggers


class Migration(migrations.Migration):

    dependencies = [
        ('quotes', '0005_invitations'),
    ]

    operations = [
        migrations.AddField(
            model_name='workshop',
            name='books_kept_years',
            field=models.PositiveSmallIntegerField(default=10, validators=[django.core.validators.MinValueValidator(1), django.core.validators.MaxValueValidator(50)]),
        ),
        migrations.CreateModel(
            name='Erasure',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('as_of', models.DateField()),
                ('at', models.DateTimeField()),
                ('by', models.CharField(max_length=150)),
                ('went', models.JSONField()),
                ('stayed', models.JSONField()),
                ('customer', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='erasures', to='quotes.customer')),
            ],
            options={
                'ordering': ['at', 'id'],
            },
        ),
        migrations.CreateModel(
            name='ErasedRow',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('model', models.CharField(max_length=60)),
                ('row', models.BigIntegerField()),
                ('fields', models.JSONField()),
                ('old_sha256', models.CharField(blank=True, default='', max_length=64)),
                ('new_sha256', models.CharField(blank=True, default='', max_length=64)),
                ('erasure', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='rows', to='quotes.erasure')),
            ],
            options={
                'ordering': ['erasure', 'id'],
                'constraints': [models.UniqueConstraint(fields=('erasure', 'model', 'row'), name='erased_row_once')],
            },
        ),
        frozen_triggers.Triggers(frozen_triggers.set_again, frozen_triggers.take_off),
    ]
