"""A request read from JSON or a mapping: a value, or one fault for each field that is not as it must be."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from typing import Any

from pydantic import ValidationError

from catalogue.calc.said import say
from quotes.calc.ask.fault import BadRequest, Fault
from quotes.calc.ask.request import Request

ALLOWED_LENGTH = 120
"""Longer values are cut in a message, so that the message stays readable."""


def read_request(raw: object, on: date) -> Request:
    """The request in `raw`, a mapping as JSON gives it; `on` stands in where it names no day.

    Raises BadRequest, with the field, its value and what is allowed for each fault.
    """
    if not isinstance(raw, Mapping):
        raise BadRequest((Fault("request", _cut(raw), say("an object with engine and planned")),))
    try:
        return Request.model_validate({"on": on.isoformat(), **raw})
    except ValidationError as error:
        raise BadRequest(tuple(fault_of(each) for each in error.errors())) from error


def fault_of(error: Any, whole: str = "request") -> Fault:
    """A fault from one of pydantic's errors; `whole` names the thing where no field of it is at fault."""
    field = ".".join(str(step) for step in error["loc"]) or whole
    value = say("missing") if error["type"] == "missing" else _cut(error["input"])
    return Fault(field, value, _allowed(error))


def _allowed(error: Any) -> str:
    message = str(error["msg"])
    if error["type"] == "extra_forbidden":
        return say("no such field")
    if error["type"] == "missing":
        return say("must be given")
    if error["type"] == "number":
        return say("must be a number")
    return message[:1].lower() + message[1:]


def _cut(value: object) -> str:
    text = str(value).replace("\x00", "\\x00")
    if len(text) <= ALLOWED_LENGTH:
        return text
    return say("{text}... ({count} characters)", text=text[:ALLOWED_LENGTH], count=len(text))
