"""What goes to a customer is said in the language that he reads."""

from __future__ import annotations

from collections.abc import Callable
from functools import wraps
from typing import Any, TypeVar, cast

from django.utils import translation

from quotes.models import Job

Made = TypeVar("Made", bound=Callable[..., Any])


def read_by_customer(make: Made) -> Made:
    """`make`, whose first argument is a job, in the language of its customer, whatever the bench reads."""

    @wraps(make)
    def made(job: Job, *args: Any, **given: Any) -> Any:
        with translation.override(job.customer.reads):
            return make(job, *args, **given)

    return cast(Made, made)
