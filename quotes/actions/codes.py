"""Writes on one-time codes: set up, taken once, dropped."""

from __future__ import annotations

import hashlib
import secrets
from base64 import b32encode

from django.contrib.auth.models import User
from django.db import transaction
from django_otp.plugins.otp_static.models import StaticDevice

from catalogue.calc.said import say
from quotes.actions.refused import Refused
from quotes.models import Telephone
from quotes.models.sealed import SealedOtherwise

RECOVERY_CODES = 10
_DIGITS = 6


class CodesSealedOtherwise(Refused):
    """The site has another SECRET_KEY than the one under which the secret was sealed."""

    def __init__(self) -> None:
        super().__init__(
            say(
                "This site can't read the secrets of telephones: it was put back, or moved, without its old"
                " SECRET_KEY. A recovery code still lets you in. Whoever looks after the machine puts the old"
                " key back, or has no code asked of you: manage.py drop_codes and your name."
            )
        )


def _bare(typed: str) -> str:
    return "".join(one for one in typed.casefold() if one.isalnum())


def _kept(recovery_code: str) -> str:
    """What is stored of a recovery code: enough of its SHA-256 that a copy of the database opens nothing."""
    return hashlib.sha256(_bare(recovery_code).encode()).hexdigest()[:16]


def begin_codes(*, user: User) -> Telephone:
    """The secret that a person's telephone is to learn; the same until a first code has proved it."""
    begun: Telephone | None = Telephone.objects.filter(user=user, confirmed=False).order_by("pk").first()
    if begun and begun.can_be_opened:
        return begun
    if begun:
        begun.delete()
    return Telephone.learning(user)


@transaction.atomic
def confirm_codes(*, user: User, code: str) -> tuple[str, ...]:
    """From the first code on they are asked for: gives the recovery codes, which are told this once.

    Nothing where the code is wrong, or where the person has codes already.
    """
    own = Telephone.objects.select_for_update().filter(user=user)
    device = own.filter(confirmed=False).order_by("pk").first()
    if device is None or own.filter(confirmed=True).exists() or not device.verify_token(_bare(code)):
        return ()
    device.confirmed = True
    device.save(update_fields=["confirmed"])
    StaticDevice.objects.filter(user=user).delete()
    spare = StaticDevice.objects.create(user=user, name="recovery")
    codes = tuple(_new_recovery_code() for _ in range(RECOVERY_CODES))
    for each in codes:
        spare.token_set.create(token=_kept(each))
    return codes


def _new_recovery_code() -> str:
    text = b32encode(secrets.token_bytes(10)).decode().lower()
    return "-".join(text[start : start + 4] for start in range(0, 16, 4))


@transaction.atomic
def take_code(*, user: User, code: str) -> bool:
    """Whether a code, or a recovery code, is right; each is good once. Wrong ones make the next try wait.

    Raises CodesSealedOtherwise for a code whose secret can't be read here; a recovery code needs none.
    """
    typed = _bare(code)
    if len(typed) == _DIGITS and typed.isdecimal():
        devices, told = Telephone.objects.filter(user=user, confirmed=True), typed
    else:
        devices, told = StaticDevice.objects.filter(user=user), _kept(typed)
    device = devices.select_for_update().first()
    try:
        return device is not None and bool(device.verify_token(told))
    except SealedOtherwise:
        raise CodesSealedOtherwise from None


@transaction.atomic
def seal_codes() -> tuple[int, list[str]]:
    """Seal all secrets anew under the key in use: how many, and whose can't be opened by any key."""
    done, shut = 0, []
    for device in Telephone.objects.select_for_update(of=("self",)).select_related("user").order_by("pk"):
        if not device.can_be_opened:
            shut.append(str(device.user.get_username()))
            continue
        device.keep_secret(device.bin_key)
        device.save(update_fields=["key"])
        done += 1
    return done, shut


@transaction.atomic
def drop_codes(*, user: User) -> bool:
    """Ask a person for no code any more: the telephone is lost, and the recovery codes too."""
    StaticDevice.objects.filter(user=user).delete()
    return bool(Telephone.objects.filter(user=user).delete()[0])
