"""One engine on one day of its visit to the demo's bench."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime
from uuid import NAMESPACE_URL, UUID, uuid5

from django.contrib.auth.models import User
from django.utils import timezone

from quotes.calc.demo.job import DemoJob
from quotes.calc.demo.year import YearBuild
from quotes.models import Acceptance, Job, Quote


@dataclass(frozen=True, slots=True)
class BenchDay:
    """One engine on one day of its visit, and who was there."""

    given: YearBuild
    quote: Quote
    at: datetime
    desk: User
    owner: User
    builder: User

    @property
    def on(self) -> date:
        return timezone.localdate(self.at)

    @property
    def told(self) -> DemoJob:
        assert self.given.job is not None, f"{self.given.engine}: its course goes over the bench"
        return self.given.job

    @property
    def job(self) -> Job:
        return Job.objects.select_related("engine", "customer", "quote").get(quote=self.quote)

    @property
    def build(self) -> Acceptance:
        return Acceptance.objects.get(quote=self.quote)

    def key(self, *what: object) -> UUID:
        """The same each time the demo is loaded."""
        return uuid5(NAMESPACE_URL, ":".join(["demo-job", self.given.engine, *map(str, what)]))
