"""A year of trading as its file describes it: the engines that came in, and what happened on which day."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date, timedelta
from decimal import Decimal
from typing import Literal

from pydantic import Field

from quotes.calc.ask.request import Code, EngineAsked, Planned, Request, Segment, Value
from quotes.calc.demo.job import DemoJob

Act = Literal[
    "call",
    "decline",
    "accept",
    "ask_deposit",
    "pay_deposit",
    "give_back_deposit",
    "bills",
    "hours",
    "offer_extra",
    "accept_extra",
    "decline_extra",
    "take_own_parts",
    "done",
    "invoice",
    "invoice_labour",
    "invoice_rest",
    "invoice_second",
    "pay",
    "pay_cheque",
    "pay_half",
    "pay_over",
    "refund",
    "bounce",
    "credit_part",
    "credit_whole",
    "write_off",
    "receive",
    "leave",
    "strip",
    "measure",
    "work_again",
    "report_findings",
    "order",
    "take_in",
    "send_out",
    "take_back",
    "find_extra",
    "begin_record",
    "record",
    "try_out",
    "release",
    "report_service",
]

ASKED: tuple[tuple[int, Act], ...] = ((0, "call"),)
AGREED: tuple[tuple[int, Act], ...] = (*ASKED, (4, "accept"))
BEGUN: tuple[tuple[int, Act], ...] = (*AGREED, (5, "ask_deposit"), (8, "pay_deposit"), (19, "bills"))
BUILT: tuple[tuple[int, Act], ...] = (*BEGUN, (24, "hours"), (31, "done"))
FINISHED: tuple[tuple[int, Act], ...] = ((24, "hours"), (31, "done"), (32, "invoice"))
INVOICED: tuple[tuple[int, Act], ...] = (*BEGUN, *FINISHED)
MEASURED: tuple[tuple[int, Act], ...] = (
    (0, "call"),
    (4, "receive"),
    (5, "leave"),
    (6, "strip"),
    (7, "measure"),
    (8, "work_again"),
    (8, "report_findings"),
)
WHOLE_JOB: tuple[tuple[int, Act], ...] = (
    *MEASURED,
    (11, "accept"),
    (12, "ask_deposit"),
    (14, "pay_deposit"),
    (15, "order"),
    (15, "send_out"),
    (18, "find_extra"),
    (19, "accept_extra"),
    (27, "take_in"),
    (34, "take_back"),
    (35, "order"),
    (42, "take_in"),
    (43, "bills"),
    (45, "hours"),
    (47, "record"),
    (48, "try_out"),
    (49, "done"),
    (50, "invoice"),
    (52, "pay"),
    (53, "release"),
    (65, "report_service"),
)
ASSEMBLING: tuple[tuple[int, Act], ...] = (
    *MEASURED,
    (10, "accept"),
    (11, "ask_deposit"),
    (13, "pay_deposit"),
    (14, "order"),
    (21, "take_in"),
    (22, "begin_record"),
    (23, "find_extra"),
)

COURSES: Mapping[str, tuple[tuple[int, Act], ...]] = {
    "lapsed": ASKED,
    "declined": (*ASKED, (9, "decline")),
    "waiting": (*AGREED, (5, "ask_deposit")),
    "on_bench": BEGUN,
    "ready": BUILT,
    "paid": (*INVOICED, (34, "pay")),
    "cheque": (*INVOICED, (35, "pay_cheque")),
    "part_payments": (*INVOICED, (33, "pay_half"), (52, "pay")),
    "part_paid": (*INVOICED, (36, "pay_half")),
    "overdue": INVOICED,
    "overpaid": (*INVOICED, (35, "pay_over"), (38, "refund")),
    "bounced": (*INVOICED, (34, "pay_cheque"), (39, "bounce"), (44, "pay")),
    "written_off": (*INVOICED, (36, "pay_half"), (130, "write_off")),
    "credited": (*INVOICED, (33, "credit_part"), (36, "pay")),
    "reissued": (*INVOICED, (34, "credit_whole"), (34, "invoice"), (39, "pay")),
    "extra": (*BEGUN, (20, "offer_extra"), (21, "accept_extra"), *FINISHED, (35, "pay")),
    "extra_declined": (*BEGUN, (20, "offer_extra"), (22, "decline_extra"), *FINISHED, (35, "pay")),
    "own_parts": (*BUILT, (32, "take_own_parts"), (35, "pay")),
    "part_invoices": (*BUILT, (26, "invoice_labour"), (30, "pay"), (33, "invoice_rest"), (38, "pay")),
    "two_payers": (*BUILT, (32, "invoice_labour"), (32, "invoice_second"), (36, "pay")),
    "in_hand": MEASURED,
    "assembling": ASSEMBLING,
    "whole_job": WHOLE_JOB,
    "deposit_back": (*AGREED, (5, "ask_deposit"), (8, "pay_deposit"), (17, "give_back_deposit")),
}
"""Days after the call on which each thing happened."""


class YearCustomer(Value):
    name: str
    address: str
    place: str


class YearOpening(Value):
    """What the books began with."""

    bank: Decimal
    stock: Decimal


class YearBuild(Value):
    """One engine that came in. `called` is days before the demo is loaded."""

    customer: str
    engine: str
    type: Code
    used: str
    planned: str
    tier: Code
    called: int = Field(ge=0)
    course: str
    second: str = ""
    """Who pays the rest, where two pay."""
    job: DemoJob | None = None
    """What happened on the bench, where its course goes over it."""

    def engine_asked(self, on: date) -> EngineAsked:
        amount, unit, duty = self.used.split()
        began, ended = on - timedelta(days=self.called + 400), on - timedelta(days=self.called + 20)
        past = Segment(amount=Decimal(amount), unit=unit, duty=duty, start=began, end=ended)
        return EngineAsked(type=self.type, history=(past,))

    def request(self, on: date) -> Request:
        """`on` is the day on which the demo is loaded."""
        amount, unit, duty = self.planned.split()
        return Request(
            on=on - timedelta(days=self.called),
            engine=self.engine_asked(on),
            planned=Planned(amount=Decimal(amount), unit=unit, duty=duty),
            tiers=tuple(dict.fromkeys(("refresh", self.tier))),
        )


class YearTold(Value):
    """How a build's service went, told `days` before the demo is loaded; `ran` in the unit planned."""

    engine: str
    end: Literal["ran", "stopped", "outside", "unknown"]
    days: int = Field(ge=0)
    ran: Decimal | None = None
    by: str = ""
    note: str = ""


class Year(Value):
    opening: YearOpening
    customers: tuple[YearCustomer, ...]
    builds: tuple[YearBuild, ...]
    told: tuple[YearTold, ...] = ()


@dataclass(frozen=True, slots=True)
class Happening:
    """One thing that happened, `days_ago` days before the demo is loaded."""

    days_ago: int
    order: int
    build: YearBuild
    act: Act


def happenings(year: Year) -> Iterator[Happening]:
    """All that happened, earliest first, so that numbers are given in the order of their days."""
    found = [
        Happening(build.called - after, order, build, act)
        for order, build in enumerate(year.builds)
        for after, act in COURSES[build.course]
        if build.called >= after
    ]
    yield from sorted(found, key=lambda each: (-each.days_ago, each.order))
