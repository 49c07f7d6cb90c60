"""The secrets of one-time codes, sealed under a key that is not in the database."""

from binascii import unhexlify

import django_otp.models
from django.db import migrations

from quotes.models.sealed import MARK, sealed, unsealed
from quotes.models.telephone import about


def seal(apps, schema_editor):
    for device in apps.get_model("otp_totp", "TOTPDevice").objects.exclude(key__startswith=MARK):
        device.key = sealed(unhexlify(device.key), about(device.user_id))
        device.save(update_fields=["key"])


def unseal(apps, schema_editor):
    for device in apps.get_model("otp_totp", "TOTPDevice").objects.filter(key__startswith=MARK):
        device.key = unsealed(device.key, about(device.user_id)).hex()
        device.save(update_fields=["key"])


class Migration(migrations.Migration):
    dependencies = [
        ("quotes", "0013_builds_in_hand"),
        ("otp_totp", "0003_add_timestamps"),
    ]

    operations = [
        migrations.CreateModel(
            name="Telephone",
            fields=[],
            options={"proxy": True, "indexes": [], "constraints": []},
            bases=("otp_totp.totpdevice",),
            managers=[("objects", django_otp.models.DeviceManager())],
        ),
        migrations.RunPython(seal, unseal),
    ]
