"""Where people are signed in."""

import django.db.models.deletion
from django.conf import settings
from django.db import migrations, models


class Migration(migrations.Migration):

    dependencies = [
        ('quotes', '0025_evidence_by_hand'),
        ('sessions', '0001_initial'),
        migrations.swappable_dependency(settings.AUTH_USER_MODEL),
    ]

    operations = [
        migrations.CreateModel(
            name='SignIn',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('browser', models.CharField(blank=True, default='', max_length=255)),
                ('address', models.GenericIPAddressField(blank=True, null=True)),
                ('since', models.DateTimeField()),
                ('last_used', models.DateTimeField(help_text='written once in some minutes, not at every page')),
                ('session', models.OneToOneField(on_delete=django.db.models.deletion.CASCADE, related_name='sign_in', to='sessions.session')),
                ('user', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='sign_ins', to=settings.AUTH_USER_MODEL)),
            ],
            options={
                'ordering': ['-last_used', '-id'],
            },
        ),
    ]
