"""The words that fields of the catalogue choose from."""

from __future__ import annotations

from typing import TYPE_CHECKING

from django.db.models import TextChoices
from django.utils.translation import gettext_lazy as _
from django.utils.translation import pgettext_lazy

if TYPE_CHECKING:
    from django_stubs_ext import StrOrPromise

KINDS: dict[str, StrOrPromise] = {
    "parts": _("parts"),
    "components": _("components"),
    "operations": _("operations"),
    "machine_work": _("machine work"),
    "tiers": _("tiers"),
    "load_laws": _("load laws"),
    "duties": _("duties"),
    "engine_types": _("engine types"),
    "findings": _("findings"),
    "events": _("events"),
    "limits": _("limits"),
    "suppliers": _("suppliers"),
    "sources": _("sources"),
    "facts": _("facts"),
    "policies": _("habits"),
}
"""Kinds of entries, as they stand inside a sentence."""
ONE_OF: dict[str, StrOrPromise] = {
    "parts": _("part"),
    "components": pgettext_lazy("catalogue", "component"),
    "operations": _("operation"),
    "machine_work": _("machine work"),
    "tiers": _("tier"),
    "load_laws": _("load law"),
    "duties": _("duty"),
    "engine_types": _("engine type"),
    "findings": _("finding"),
    "events": _("event"),
    "limits": _("limit"),
    "suppliers": _("supplier"),
    "sources": _("source"),
    "facts": _("fact"),
    "policies": _("habit"),
}
"""The same for one entry."""


class Block(TextChoices):
    SEPARATE = "separate", _("separate block")
    INTEGRAL = "integral", _("cylinders cast in the upper case")


class CaseSplit(TextChoices):
    VERTICAL = "vertical", _("cases part upright")
    HORIZONTAL = "horizontal", _("cases part level")


class GearboxAccess(TextChoices):
    IN_CASES = "in_cases", _("in the cases")
    CASSETTE = "cassette", _("a cassette")


class GearboxOil(TextChoices):
    ENGINE = "engine", _("the engine's oil")
    OWN = "own", _("oil of its own")


class RodType(TextChoices):
    SPLIT_PLAIN = "split_plain", _("split rods on plain bearings")
    ONE_PIECE_ROLLER = "one_piece_roller", _("one-piece rods on rollers, pressed-up crank")


class SingleUse(TextChoices):
    YES = "yes", _("always new once undone")
    NO = "no", _("may be used again if it measures within limits")
    POLICY = "policy", _("using it again is the workshop's choice")


class Consequence(TextChoices):
    SESSION = "session", _("stops the session")
    WEEKEND = "weekend", _("ends the meeting")
    ENGINE = "engine", _("can wreck the engine")


class JudgedBy(TextChoices):
    LIFE = "life", _("its life")
    MEASURE = "measure", _("what it measures")
    DISTURBED = "disturbed", _("being disturbed")


class Confidence(TextChoices):
    UNSAID = "", _("not said")
    LOW = "low", _("low")
    MEDIUM = "medium", _("medium")
    HIGH = "high", _("high")


class LifeBasis(TextChoices):
    MILES = "miles", _("track miles")
    HOURS_MX = "hours_mx", _("motocross hours")


class LoadCause(TextChoices):
    INERTIA = "inertia", _("inertia")
    GAS = "gas", _("gas")


class KindOfWork(TextChoices):
    OFFICE = "office", _("office")
    STRIP = "strip", _("strip")
    CLEAN = "clean", _("clean")
    INSPECT = "inspect", _("inspect")
    ASSEMBLE = "assemble", _("assemble")
    TEST = "test", _("test")


class Attribute(TextChoices):
    BLOCK = "block", _("block")
    CASE_SPLIT = "case_split", _("how the cases part")
    GEARBOX_ACCESS = "gearbox_access", _("way into the gearbox")
    ROD_TYPE = "rod_type", _("rods")
    DELIVERED = "delivered", _("how it was delivered")


class TakenRule(TextChoices):
    ALWAYS = "always", _("always")
    POLICY = "policy", _("the workshop's choice")


class WorkUnit(TextChoices):
    CYLINDER = "cylinder", _("cylinder")
    VALVE = "valve", _("valve")
    ROD = "rod", _("rod")
    GEAR_PAIR = "gear_pair", _("gear pair")
    HEAD = "head", _("head")
    CRANK = "crank", _("crank")
    ENGINE = "engine", _("engine")


class Grade(TextChoices):
    STOCK = "stock", pgettext_lazy("catalogue", "stock")
    PERFORMANCE = "performance", _("performance")


class SupplierKind(TextChoices):
    PARTS = "parts", _("parts")
    MACHINE_WORK = "machine_work", _("machine work")


class FindingGrade(TextChoices):
    INSPECT = "inspect", _("look closer")
    RENEW = "renew", _("renew")
    STOP = "stop", _("stop, tell the customer first")


class BadWhen(TextChoices):
    ABOVE = "above", _("above the limit")
    BELOW = "below", _("below the limit")
