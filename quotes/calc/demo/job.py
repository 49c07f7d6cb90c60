"""An engine of the demo followed over the bench: what came with it, what was read and seen, what went out."""

from __future__ import annotations

from decimal import Decimal
from typing import Literal

from quotes.calc.ask.request import Code, Text, Value
from quotes.calc.bench.parts.target_sizes import Target


class DemoReading(Value):
    """One row of the teardown sheet as it stood on the instrument, in the order of the row's places."""

    code: Code
    unit: Text
    values: tuple[Text, ...]
    when: Literal["as_received", "stripped", "machined"] = "stripped"


class DemoFinding(Value):
    judged: Literal["serviceable", "until", "renew", "companions", "stop"]
    code: Text = ""
    component: Text = ""
    place: Text = ""
    words: Text = ""
    cause: Text = ""
    until_amount: Decimal | None = None
    until_unit: Text = ""


class DemoSent(Value):
    """A piece that went to the outside shop: the sizes asked for, and what was measured on its return."""

    machine_work: Code
    component: Code
    vendor: Text
    tag: Text
    targets: tuple[Target, ...] = ()
    checked: dict[str, Decimal] = {}
    words: Text = ""
    read_back: tuple[DemoReading, ...] = ()


class DemoExtra(Value):
    """What was found after the yes, and what it is told to the customer as."""

    finding: DemoFinding
    words: Text
    risk: Text


class DemoRun(Value):
    """A test after the assembly; values are name, figure and unit."""

    name: Text
    values: tuple[tuple[Text, Text, Text], ...] = ()
    dyno: Text = ""
    correction: Text = ""
    note: Text = ""


class DemoWayOut(Value):
    """How it left: tests, what its running-in goes by, its seal, and what it has run since."""

    tests: tuple[DemoRun, ...] = ()
    rings: Code = "not_renewed"
    bore: Code = "plated"
    seal: Text = ""
    run_since: Text = "0 mi"


class DemoJob(Value):
    """One visit of an engine, as far as its course goes."""

    brought_by: Text
    shelf: Text
    symptoms: Text
    oil_seen: Text
    missing: Text = ""
    marks: dict[str, Text]
    came_with: tuple[Text, ...] = ()
    readings: tuple[DemoReading, ...] = ()
    findings: tuple[DemoFinding, ...] = ()
    as_built: dict[Code, Text] = {}
    """What the assembly record holds, by requirement, at each of its places."""
    extra: DemoExtra | None = None
    sent: DemoSent | None = None
    way_out: DemoWayOut = DemoWayOut()
