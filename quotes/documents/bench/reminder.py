"""A reminder that something falls due, as text to send."""

from __future__ import annotations

from datetime import date

from quotes.calc.bench.next_due import NextDue
from quotes.documents.words import long_day, plain_name


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
    taken = f" While it is open we would also look at: {', '.join(others)}." if others else ""
    meeting = f", before your meeting {first.before_event} from now" if first.before_event else ""
    rests = (
        f"This rests on the service that you reported up to {long_day(reported_on, 'en')}."
        if reported_on
        else "We have had no word of its service since you fetched it: please tell us, and we reckon again."
    )
    due = f"after {first.amount:,.0f} {first.unit} more" if first.amount >= 1 else "now"
    return (
        f"Dear {customer},\n\n"
        f"the {plain_name(first.name)} of your {engine} reaches its planned life {due}: at your usual season "
        f"that is about {long_day(first.on, 'en')}{meeting}.{taken}\n\n"
        f"{rests} Lives are estimates, not promises; the maker's manual governs.\n\n"
        f"Ring us{f' on {telephone}' if telephone else ''} and we keep a week for you.\n\n{workshop}\n"
    )
