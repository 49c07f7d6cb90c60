"""The enquiry card: who asked for what, the band that was said, and the earliest week."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from django.template.loader import render_to_string

from catalogue.calc.said import say, to_say
from quotes.calc.bench_words import hours_in_words
from quotes.calc.intake.enquiry_card import Said, SaidOption
from quotes.calc.intake.enquiry_sheet import EnquirySheet
from quotes.documents.letterhead import LANGUAGE, PaperHeading, paper_frame, paper_style
from quotes.documents.pdf import printed
from quotes.documents.words import currency_in_words, day, long_day, round_money

BUDGETED = {
    "within": to_say("within budget"),
    "may go above": to_say("may go above budget"),
    "above": to_say("above budget"),
}


@dataclass(frozen=True, slots=True)
class SaidRow:
    """One option in words. Bands are whole money with tax."""

    tier: str
    name: str
    low: str
    high: str
    hours: str
    start: str
    arrive_by: str
    ready_on: str
    in_time: str
    budget: str


def enquiry_pdf(sheet: EnquirySheet) -> bytes:
    """The card on paper."""
    return printed(
        render_to_string("documents/enquiry.html", enquiry_context(sheet)), paper_style(sheet.paper)
    )


def enquiry_context(sheet: EnquirySheet) -> dict[str, Any]:
    """Everything that the card says."""
    said = sheet.said
    kept = long_day(sheet.kept_on, LANGUAGE)
    engine = ", ".join(filter(None, (said.engine_name, sheet.engine_number)))
    return paper_frame(
        PaperHeading(sheet.workshop, sheet.customer),
        sheet.kept_on,
        title=say("Enquiry {number}: {engine}", number=sheet.number, engine=engine),
        foot=say(
            "{workshop} · Enquiry {number} · {day}",
            workshop=sheet.workshop.name,
            number=sheet.number,
            day=kept,
        ),
        strip=(
            (say("Enquiry"), sheet.number),
            (say("Taken down"), f"{kept}, {sheet.kept_by}"),
            (say("Engine"), engine),
            (say("Prices said on"), long_day(said.on, LANGUAGE)),
        ),
    ) | {
        "sheet": sheet,
        "said": said,
        "currency": currency_in_words(said.currency, LANGUAGE),
        "rows": said_rows(said),
        "dated": any(option.slot and option.slot.in_time is not None for option in said.options),
        "budgeted": any(option.against_budget for option in said.options),
    }


def said_rows(said: Said) -> list[SaidRow]:
    """The options of an enquiry as they are said."""
    return [_row(said, option) for option in said.options]


def _row(said: Said, option: SaidOption) -> SaidRow:
    slot = option.slot
    in_time = {None: "", True: say("in time"), False: say("not in time")}
    return SaidRow(
        tier=option.tier,
        name=option.name,
        low=round_money(option.low, said.currency, LANGUAGE),
        high=round_money(option.high, said.currency, LANGUAGE),
        hours=hours_in_words(option.hours),
        start=day(slot.start, LANGUAGE) if slot else say("no week yet"),
        arrive_by=day(slot.arrive_by, LANGUAGE) if slot else "",
        ready_on=day(slot.ready_on, LANGUAGE) if slot else "",
        in_time=in_time[slot.in_time] if slot else "",
        budget=say(BUDGETED[option.against_budget]) if option.against_budget else "",
    )
