"""What shows a person's one-time codes."""

from __future__ import annotations

import secrets
from typing import ClassVar, Self

from django.contrib.auth.models import User
from django_otp.models import DeviceManager
from django_otp.plugins.otp_totp.models import TOTPDevice

from quotes.models.sealed import SealedOtherwise, sealed, unsealed

SECRET_BYTES = 20


class Telephone(TOTPDevice):  # type: ignore[misc]
    """django-otp's device, whose `key` is sealed: who has a copy of the database alone makes no codes."""

    objects: ClassVar[DeviceManager[Self]] = DeviceManager()

    class Meta:
        proxy = True

    @classmethod
    def learning(cls, user: User) -> Self:
        """A new secret, which counts from its first right code on."""
        device = cls(user=user, confirmed=False, name="codes")
        device.keep_secret(secrets.token_bytes(SECRET_BYTES))
        device.save()
        return device

    @property
    def bin_key(self) -> bytes:
        """The secret that the telephone knows. SealedOtherwise where it was sealed under another key."""
        return unsealed(self.key, about(self.user_id))

    @property
    def can_be_opened(self) -> bool:
        """Whether the settings name the key of its secret."""
        try:
            return bool(self.bin_key)
        except SealedOtherwise:
            return False

    def keep_secret(self, secret: bytes) -> None:
        """Seal it, under the key in use."""
        self.key = sealed(secret, about(self.user_id))


def about(user_id: int) -> str:
    """What a secret is bound to: its person."""
    return f"one-time codes of {user_id}"
