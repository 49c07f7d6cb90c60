"""Why a price list was not taken in, or not undone."""

from __future__ import annotations

from datetime import date

from django.utils import dateformat, timezone, translation

from catalogue.actions.refused import Refused
from catalogue.calc.said import say
from catalogue.models import ListState, PriceList


def said_name(price_list: PriceList) -> str:
    """Who took a list in, for a sentence."""
    by = price_list.undone_by or price_list.applied_by
    return (by.get_full_name() or by.get_username()) if by else say("Somebody")


class AlreadyTaken(Refused):
    """Somebody else was first."""

    def __init__(self, price_list: PriceList) -> None:
        words = {"name": said_name(price_list), "file": price_list.name}
        if price_list.undone_at:
            said = say("{name} has undone {file} already. Nothing was done a second time.", **words)
        elif price_list.applied_at:
            at = timezone.localtime(price_list.applied_at).strftime("%H:%M")
            said = say(
                "{name} has taken {file} in already, at {time}. Nothing was done a second time.",
                time=at,
                **words,
            )
        else:
            said = say("{file} was dropped: hand it in again.", file=price_list.name)
        super().__init__(said)


class Moved(Refused):
    """What the list would do now is not what was shown."""

    def __init__(self, price_list: PriceList, other: PriceList | None = None) -> None:
        said = say(
            "Since {file} was checked, prices or offers have changed. Nothing was taken in: check it again "
            "to see what it would do now.",
            file=price_list.name,
        )
        if price_list.state == ListState.IN_FORCE:
            said = say(
                "Since {file} was taken in, prices or offers have changed. Nothing was taken in: hand it in "
                "again to see what it would do now.",
                file=price_list.name,
            )
        if other is not None:
            said = say(
                "{name} has taken in {other} since {file} was checked. Nothing was taken in: check it again "
                "to see what it would do now.",
                name=said_name(other),
                other=other.name,
                file=price_list.name,
            )
        super().__init__(said)


class NothingToTake(Refused):
    """Everything in it stands already, or nothing in it could be read."""

    def __init__(self, price_list: PriceList) -> None:
        super().__init__(
            say("{file} would change nothing: there is nothing to take in.", file=price_list.name)
        )


class NoRate(Refused):
    """A list in another currency, and no rate for the day it is in force from."""

    def __init__(self, currency: str, own: str, on: date) -> None:
        self.currency = currency
        with translation.override(translation.get_language()):
            super().__init__(
                say(
                    "The list is in {currency}, and no rate into {own} is set for {day} or before. The owner "
                    "sets it under Exchange rates.",
                    currency=currency,
                    own=own,
                    day=dateformat.format(on, "j F Y"),
                )
            )


class NotTheLast(Refused):
    """A later list of the supplier rests on this one."""

    def __init__(self, later: PriceList) -> None:
        super().__init__(
            say("{file} was taken in after it and rests on it: undo that one first.", file=later.name)
        )
