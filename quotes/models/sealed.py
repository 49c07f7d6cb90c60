"""Secrets that have to be read again, sealed under a key that comes of SECRET_KEY and is in no backup.

AES-256-GCM under a key by HKDF-SHA256. What is sealed is bound to what it is about, so that it opens in no
other row. A text of 20 bytes takes 66 characters.
"""

from __future__ import annotations

import os
from base64 import b64decode, b64encode
from binascii import Error as NotBase64
from functools import cache
from typing import TYPE_CHECKING

from django.conf import settings

if TYPE_CHECKING:
    from cryptography.hazmat.primitives.ciphers.aead import AESGCM

MARK = "1:"
"""How it was sealed; another way would have another."""
NONCE_BYTES = 12
KEY_BYTES = 32
FOR = b"secrets sealed in the database, 1"


class SealedOtherwise(Exception):
    """None of the keys that the settings name opens it."""


def sealed(secret: bytes, about: str) -> str:
    """The secret as it may be kept: another text each time."""
    nonce = os.urandom(NONCE_BYTES)
    return MARK + b64encode(nonce + _box(settings.SECRET_KEY).encrypt(nonce, secret, about.encode())).decode()


def unsealed(text: str, about: str) -> bytes:
    """The secret, by the key in use or one that was (SECRET_KEY_FALLBACKS)."""
    from cryptography.exceptions import InvalidTag

    if not text.startswith(MARK):
        raise SealedOtherwise(about)
    try:
        kept = b64decode(text.removeprefix(MARK), validate=True)
    except NotBase64 as error:
        raise SealedOtherwise(about) from error
    if len(kept) <= NONCE_BYTES:
        raise SealedOtherwise(about)
    for key in (settings.SECRET_KEY, *settings.SECRET_KEY_FALLBACKS):
        try:
            return _box(key).decrypt(kept[:NONCE_BYTES], kept[NONCE_BYTES:], about.encode())
        except InvalidTag:
            continue
    raise SealedOtherwise(about)


@cache
def _box(key: str) -> AESGCM:
    # Takes a tenth of a second to import, and most pages seal nothing.
    from cryptography.hazmat.primitives.ciphers.aead import AESGCM
    from cryptography.hazmat.primitives.hashes import SHA256
    from cryptography.hazmat.primitives.kdf.hkdf import HKDF

    return AESGCM(HKDF(algorithm=SHA256(), length=KEY_BYTES, salt=None, info=FOR).derive(key.encode()))
