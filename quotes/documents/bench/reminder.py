"""A reminder that something falls due, as text to send."""

from __future__ import annotations

from datetime import date

from catalogue.calc.said import say, say_figure, to_say
from quotes.calc.bench.ages.next_due import NextDue
from quotes.documents.words import long_day, plain_name

FALLS_DUE = {
    (True, True): to_say(
        "the {part} of your {engine} reaches its planned life after {amount} {unit} more: at your usual "
        "season that is about {day}, before your meeting {meeting} from now."
    ),
    (True, False): to_say(
        "the {part} of your {engine} reaches its planned life after {amount} {unit} more: at your usual "
        "season that is about {day}."
    ),
    (False, True): to_say(
        "the {part} of your {engine} reaches its planned life now: at your usual season that is about "
        "{day}, before your meeting {meeting} from now."
    ),
    (False, False): to_say(
        "the {part} of your {engine} reaches its planned life now: at your usual season that is about {day}."
    ),
}
"""By whether some of its life is left, and whether a meeting comes before."""


def reminder_text(
    *,
    workshop: str,
    telephone: str,
    customer: str,
    engine: str,
    first: NextDue,
    along: tuple[NextDue, ...],
    reported_on: date | None,
) -> str:
    """A letter in plain words: what, when, before which meeting, and on what it rests."""
    others = [plain_name(due.name) for due in along if due.component != first.component]
    said = [_falls_due(first, engine)]
    if others:
        said.append(say("While it is open we would also look at: {parts}.", parts=", ".join(others)))
    return "\n\n".join(
        (
            say("Dear {customer},", customer=customer),
            " ".join(said),
            say(
                "{rests} Lives are estimates, not promises; the maker's manual governs.",
                rests=_rests(reported_on),
            ),
            say("Ring us on {telephone} and we keep a week for you.", telephone=telephone)
            if telephone
            else say("Ring us and we keep a week for you."),
            f"{workshop}\n",
        )
    )


def _rests(reported_on: date | None) -> str:
    if reported_on:
        return say("This rests on the service that you reported up to {day}.", day=long_day(reported_on))
    return say(
        "We have had no word of its service since you fetched it: please tell us, and we reckon again."
    )


def _falls_due(first: NextDue, engine: str) -> str:
    more, meeting = first.amount >= 1, bool(first.before_event)
    return say(
        FALLS_DUE[more, meeting],
        part=plain_name(first.name),
        engine=engine,
        day=long_day(first.on),
        amount=say_figure(first.amount, 0),
        unit=first.unit,
        meeting=first.before_event,
    )
