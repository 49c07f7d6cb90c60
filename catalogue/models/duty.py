"""Duties: kinds of use, with a severity per cause of wear, and their usual event and season."""

from __future__ import annotations

from django.db import models

from catalogue.models.base import Entry, in_order, name_field, not_negative, one_of, positive, text_field
from catalogue.models.choices import LifeBasis


def _maybe() -> models.FloatField[float | None, float | None]:
    return models.FloatField(null=True, blank=True)


def grade_field(label: str) -> models.CharField[str, str]:
    return models.CharField(label, max_length=40, blank=True, default="")


class Duty(Entry):
    """Severities against the reference duty of the basis; 1 is as hard."""

    name = name_field()
    basis = models.CharField(max_length=10, choices=LifeBasis)
    severity_inertia = models.FloatField()
    severity_gas = models.FloatField()
    severity_heat = models.FloatField()
    severity_shifts = models.FloatField()
    severity_launches = models.FloatField()
    severity_dirt = models.FloatField()
    severity_time = models.FloatField()
    event_miles_typical = _maybe()
    event_miles_low = _maybe()
    event_miles_high = _maybe()
    event_hours_typical = models.FloatField()
    event_hours_low = models.FloatField()
    event_hours_high = models.FloatField()
    event_runs = models.PositiveIntegerField(null=True, blank=True)
    season_events = models.PositiveSmallIntegerField()
    season_miles_typical = _maybe()
    season_miles_low = _maybe()
    season_miles_high = _maybe()
    season_hours_typical = models.FloatField()
    season_hours_low = models.FloatField()
    season_hours_high = models.FloatField()
    season_runs = models.PositiveIntegerField(null=True, blank=True)
    matters = text_field()
    """What matters in this use, one a line."""
    oil_with_gearbox = grade_field("engine oil where the gearbox runs in it")
    oil_with_gearbox_why = text_field()
    oil_without_gearbox = grade_field("engine oil where the gearbox has its own")
    oil_without_gearbox_why = text_field()
    source = text_field()

    class Meta(Entry.Meta):
        verbose_name_plural = "duties"
        constraints = [
            one_of("duty", "basis", LifeBasis),
            not_negative(
                "duty",
                "severity_inertia",
                "severity_gas",
                "severity_heat",
                "severity_shifts",
                "severity_launches",
                "severity_dirt",
                "severity_time",
                "event_hours_low",
                "season_hours_low",
            ),
            positive("duty", "season_events"),
            in_order("duty", "event_miles_low", "event_miles_typical", "event_miles_high"),
            in_order("duty", "event_hours_low", "event_hours_typical", "event_hours_high"),
            in_order("duty", "season_miles_low", "season_miles_typical", "season_miles_high"),
            in_order("duty", "season_hours_low", "season_hours_typical", "season_hours_high"),
        ]
