"""The log without the secrets that stand in addresses."""

from __future__ import annotations

import logging
import re

IN_AN_ADDRESS = re.compile(r"(/(?:q|invited|sign-in/new/[^/\s]+)/)[^/\s]+")
"""A customer's link, an invitation, a way back in: whoever reads the log could open them."""


class Masked(logging.Formatter):
    """Each line, its traceback too, with three dots in the place of a token."""

    def format(self, record: logging.LogRecord) -> str:
        return IN_AN_ADDRESS.sub(r"\1...", super().format(record))
