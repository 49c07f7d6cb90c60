"""Sending a mail: beside an answer that must not tell whether one went, or before it."""

from __future__ import annotations

import logging
from smtplib import SMTPException
from threading import Thread

from django.core.mail import EmailMessage

BESIDE = "mail"
"""The name of the thread that a mail goes out in."""


def send_beside(message: EmailMessage) -> None:
    """Beside the answer, which would otherwise take longer where somebody has the address."""
    Thread(target=send, args=(message,), name=BESIDE).start()


def send(message: EmailMessage) -> bool:
    """Whether the mail went out; why it did not is in the log."""
    try:
        message.send()
    except (OSError, SMTPException):
        logging.getLogger(__name__).exception("A mail could not be sent")
        return False
    return True
