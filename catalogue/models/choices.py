"""The words that fields of the catalogue choose from."""

from __future__ import annotations

from django.db.models import TextChoices


class Block(TextChoices):
    SEPARATE = "separate", "separate block"
    INTEGRAL = "integral", "cylinders cast in the upper case"


class CaseSplit(TextChoices):
    VERTICAL = "vertical", "cases part upright"
    HORIZONTAL = "horizontal", "cases part level"


class GearboxAccess(TextChoices):
    IN_CASES = "in_cases", "in the cases"
    CASSETTE = "cassette", "a cassette"


class GearboxOil(TextChoices):
    ENGINE = "engine", "the engine's oil"
    OWN = "own", "oil of its own"


class RodType(TextChoices):
    SPLIT_PLAIN = "split_plain", "split rods on plain bearings"
    ONE_PIECE_ROLLER = "one_piece_roller", "one-piece rods on rollers, pressed-up crank"


class SingleUse(TextChoices):
    YES = "yes", "always new once undone"
    NO = "no", "may be used again if it measures within limits"
    POLICY = "policy", "using it again is the workshop's choice"


class Consequence(TextChoices):
    SESSION = "session", "stops the session"
    WEEKEND = "weekend", "ends the meeting"
    ENGINE = "engine", "can wreck the engine"


class JudgedBy(TextChoices):
    LIFE = "life", "its life"
    MEASURE = "measure", "what it measures"
    DISTURBED = "disturbed", "being disturbed"


class Confidence(TextChoices):
    UNSAID = "", "not said"
    LOW = "low", "low"
    MEDIUM = "medium", "medium"
    HIGH = "high", "high"


class LifeBasis(TextChoices):
    MILES = "miles", "track miles"
    HOURS_MX = "hours_mx", "motocross hours"


class LoadCause(TextChoices):
    INERTIA = "inertia", "inertia"
    GAS = "gas", "gas"


class KindOfWork(TextChoices):
    OFFICE = "office", "office"
    STRIP = "strip", "strip"
    CLEAN = "clean", "clean"
    INSPECT = "inspect", "inspect"
    ASSEMBLE = "assemble", "assemble"
    TEST = "test", "test"


class Attribute(TextChoices):
    BLOCK = "block", "block"
    CASE_SPLIT = "case_split", "how the cases part"
    GEARBOX_ACCESS = "gearbox_access", "way into the gearbox"
    ROD_TYPE = "rod_type", "rods"
    DELIVERED = "delivered", "how it was delivered"


class TakenRule(TextChoices):
    ALWAYS = "always", "always"
    POLICY = "policy", "the workshop's choice"


class WorkUnit(TextChoices):
    CYLINDER = "cylinder", "cylinder"
    VALVE = "valve", "valve"
    ROD = "rod", "rod"
    GEAR_PAIR = "gear_pair", "gear pair"
    HEAD = "head", "head"
    CRANK = "crank", "crank"
    ENGINE = "engine", "engine"


class Grade(TextChoices):
    STOCK = "stock", "stock"
    PERFORMANCE = "performance", "performance"


class SupplierKind(TextChoices):
    PARTS = "parts", "parts"
    MACHINE_WORK = "machine_work", "machine work"


class FindingGrade(TextChoices):
    INSPECT = "inspect", "look closer"
    RENEW = "renew", "renew"
    STOP = "stop", "stop, tell the customer first"


class BadWhen(TextChoices):
    ABOVE = "above", "above the limit"
    BELOW = "below", "below the limit"
