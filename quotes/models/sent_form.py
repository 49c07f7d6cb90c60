"""A form that was sent and has had its effect, so that sending it again has none."""

from __future__ import annotations

from typing import ClassVar, Self

from django.db import models


class SentForm(models.Model):
    """Written in the transaction of what the form did: both are there, or neither."""

    key = models.CharField(
        max_length=64, primary_key=True, help_text="SHA-256 of the page's token and of what was sent"
    )
    at = models.DateTimeField(db_index=True)
    led_to = models.TextField(default="", help_text="the address that the answer sent the browser to")

    objects: ClassVar[models.Manager[Self]] = models.Manager()

    def __str__(self) -> str:
        return f"sent {self.at:%Y-%m-%d %H:%M}, led to {self.led_to}"
