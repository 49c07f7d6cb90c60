"""Work that is done in the background."""

import django.db.models.deletion
from django.conf import settings
from django.db import migrations, models


class Migration(migrations.Migration):

    dependencies = [
        ('quotes', '0008_earlier_day'),
        migrations.swappable_dependency(settings.AUTH_USER_MODEL),
    ]

    operations = [
        migrations.CreateModel(
            name='BackgroundWork',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('key', models.CharField(max_length=200, unique=True)),
                ('function', models.CharField(help_text='the dotted name of what does it', max_length=200)),
                ('arguments', models.JSONField(default=dict)),
                ('about', models.CharField(help_text='what it is, in the words of who asked', max_length=200)),
                ('page', models.CharField(blank=True, default='', help_text='where its result is seen', max_length=200)),
                ('language', models.CharField(help_text='in which it says how far it is, and what failed', max_length=10)),
                ('asked_at', models.DateTimeField()),
                ('state', models.CharField(choices=[('waiting', 'waits for its turn'), ('running', 'is being done'), ('done', 'done'), ('failed', 'failed')], default='waiting', max_length=10)),
                ('holder', models.CharField(blank=True, default='', max_length=100)),
                ('seen_at', models.DateTimeField(blank=True, help_text="the holder's last sign of life", null=True)),
                ('tries', models.PositiveIntegerField(default=0)),
                ('done', models.PositiveIntegerField(default=0)),
                ('of', models.PositiveIntegerField(default=0, help_text='nothing where nobody knows yet')),
                ('doing', models.CharField(blank=True, default='', max_length=200)),
                ('started_at', models.DateTimeField(blank=True, null=True)),
                ('ended_at', models.DateTimeField(blank=True, null=True)),
                ('failed_because', models.TextField(blank=True, default='')),
                ('asked_by', models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL)),
            ],
            options={
                'ordering': ['-asked_at', '-id'],
                'indexes': [models.Index(fields=['state', 'seen_at'], name='background_state')],
            },
        ),
    ]
