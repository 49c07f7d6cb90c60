"""How often a way back in was asked for."""

from django.db import migrations, models


class Migration(migrations.Migration):

    dependencies = [
        ('quotes', '0026_sign_ins'),
    ]

    operations = [
        migrations.CreateModel(
            name='PasswordAsk',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('address', models.GenericIPAddressField(blank=True, db_index=True, null=True)),
                ('mail_hash', models.CharField(db_index=True, help_text='SHA-256 of what was typed', max_length=64)),
                ('asked_at', models.DateTimeField()),
            ],
            options={
                'ordering': ['-asked_at', '-id'],
            },
        ),
    ]
