"""What the workshop still lacks before it can promise anything, or before its figures are its own."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from django.contrib.auth.models import User
from django.db.models import Q

from catalogue.calc.said import say
from catalogue.models import Basis
from quotes.models import KindOfWork, LabourRate, MarkupBand, Workshop


@dataclass(frozen=True, slots=True)
class Gap:
    """One thing that is missing. `url_name` is where it is mended; `blocks` says that no quote is issued."""

    id: str
    sentence: str
    hint: str
    url_name: str = "settings"
    blocks: bool = False


def set_up_gaps() -> tuple[Gap, ...]:
    """All gaps, what blocks an issue first. A fixed number of queries."""
    workshop = Workshop.objects.get_or_default()
    found = (
        *_name(workshop),
        *_tax(workshop),
        *_catalogue(workshop),
        *_rates(),
        *_texts(workshop),
        *_people(),
    )
    return tuple(sorted(found, key=lambda gap: not gap.blocks))


def issuing_gaps() -> tuple[Gap, ...]:
    """The gaps that keep quotes from being issued."""
    return tuple(gap for gap in set_up_gaps() if gap.blocks)


def _name(workshop: Workshop) -> Iterator[Gap]:
    if not workshop.name:
        yield Gap(
            "quotes.W001",
            say("The workshop has no name."),
            say("Give its name in Settings: it stands at the head of every quote."),
            blocks=True,
        )
    if not (workshop.address and (workshop.telephone or workshop.email)):
        yield Gap(
            "quotes.W002",
            say("The workshop's address, or both its telephone and its email, are missing."),
            say("Fill them in in Settings: a customer must be able to reach you."),
        )


def _tax(workshop: Workshop) -> Iterator[Gap]:
    kinds = {
        say("labour"): workshop.tax_on_labour_id,
        say("parts"): workshop.tax_on_parts_id,
        say("machine work"): workshop.tax_on_machine_work_id,
        say("consumables"): workshop.tax_on_consumables_id,
    }
    if missing := [kind for kind, code in kinds.items() if code is None]:
        yield Gap(
            "quotes.W003",
            say("No tax code is chosen for {kinds}.", kinds=", ".join(missing)),
            say("Write your tax codes in Settings and choose one for each kind of line, exempt ones too."),
            blocks=True,
        )
    if workshop.tax_registration == "" and workshop.tax_style == "value-added-tax":
        yield Gap(
            "quotes.W004",
            say("The tax registration is missing."),
            say("Give the number in Settings: invoices need it where value added tax is charged."),
        )


def _catalogue(workshop: Workshop) -> Iterator[Gap]:
    currency = Basis.objects.values_list("currency", flat=True).first()
    if currency is None:
        yield Gap(
            "quotes.W005",
            say("The catalogue is empty: there is nothing to quote from."),
            say("Run `manage.py load_catalogue` to load the one that ships."),
            url_name="catalogue:home",
            blocks=True,
        )
    elif currency != workshop.currency:
        yield Gap(
            "quotes.W006",
            say(
                "The catalogue's prices are in {prices}, the workshop's currency is {currency}.",
                prices=currency,
                currency=workshop.currency,
            ),
            say(
                "Run `manage.py load_catalogue --currency {currency} --rate ...` with the day's rate, or "
                "choose the catalogue's currency in Settings.",
                currency=workshop.currency,
            ),
            blocks=True,
        )


def _rates() -> Iterator[Gap]:
    kept = set(LabourRate.objects.values_list("kind", flat=True))
    if missing := [str(label) for kind, label in KindOfWork.choices if kind not in kept]:
        yield Gap(
            "quotes.W007",
            say("No labour rate of your own for {kinds}: a trade figure is used.", kinds=", ".join(missing)),
            say("Check the rates in Settings and keep them."),
        )
    if not MarkupBand.objects.exists():
        yield Gap(
            "quotes.W008",
            say("The markup schedule is the trade's, not your own."),
            say("Check the schedule in Settings and keep it."),
        )


def _texts(workshop: Workshop) -> Iterator[Gap]:
    if not workshop.terms:
        yield Gap(
            "quotes.W009",
            say("The terms are a text to start from, not your own."),
            say("Write yours in Settings and let someone licensed where you are read them."),
        )
    if not workshop.calendar_country:
        yield Gap(
            "quotes.W010",
            say("No calendar is chosen: public holidays count as working days."),
            say("Choose country and region in Settings."),
        )


def _people() -> Iterator[Gap]:
    owners = User.objects.filter(Q(groups__name="owner") | Q(is_superuser=True), is_active=True)
    if not owners.exists():
        yield Gap(
            "quotes.W011",
            say("Nobody can sign in as the owner."),
            say("Run `manage.py add_person NAME --role owner`."),
            url_name="home",
        )
