"""What a strip-down costs here, and the leave to strip as a value."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from typing import Any, Literal, cast

from catalogue.calc.money import ZERO
from catalogue.queries import engine_type_choices
from quotes.calc.ask.request import Delivered
from quotes.calc.bench.teardown.leave_sheet import LeaveSheet
from quotes.calc.bench.teardown.price import TeardownSums, worked_out
from quotes.models import Job, TeardownPrice, Workshop
from quotes.queries.bench.read_by import read_by_customer
from quotes.queries.books.day import MoneyOfDay, money_of
from quotes.queries.engines import known_catalogue
from quotes.queries.sheets import customer_party, workshop_party
from quotes.queries.workshop import labour_rates, taxability

NOTHING = TeardownSums(ZERO, ZERO, ZERO)


@dataclass(frozen=True, slots=True)
class LabourTax:
    """The tax that work bears on a day."""

    code: str
    rate_pct: Decimal


def labour_tax(money: MoneyOfDay, workshop: Workshop) -> LabourTax:
    """The code and the rate of bench work."""
    code = taxability(workshop)["labour"]
    known = money.tax_codes.get(code)
    return LabourTax(code, known.rate_pct if known else ZERO)


def teardown_sums(job: Job, on: date) -> TeardownSums:
    """What the strip-down of this engine costs: as the owner has set it for its type, or worked out.

    What the owner sets is for a loose engine; getting it out of the chassis and in again comes to it.
    """
    code, delivered = job.engine.type_code, cast(Delivered, str(job.delivered))
    kept = TeardownPrice.objects.filter(type_code=code).first()
    as_it_is = default_sums(code, on, delivered)
    if kept is None:
        return as_it_is
    loose = default_sums(code, on, "loose")
    return TeardownSums(
        price=kept.price + as_it_is.price - loose.price,
        put_back=kept.put_back_price + as_it_is.put_back - loose.put_back,
        deposit=kept.deposit,
    )


def default_sums(type_code: str, on: date, delivered: Delivered = "loose") -> TeardownSums:
    """From the catalogue's hours at the workshop's rates; nought for a type that is not there any more."""
    workshop = Workshop.objects.get_or_default()
    catalogue = known_catalogue(type_code)
    if catalogue is None:
        return NOTHING
    tax = labour_tax(money_of(on, workshop), workshop)
    return worked_out(catalogue, labour_rates(), tax.rate_pct, delivered)


def prices_set(types: Iterable[str], on: date) -> dict[str, TeardownSums]:
    """What stands for each engine type, loose: the owner's prices, or those worked out."""
    kept = {row.type_code: row for row in TeardownPrice.objects.all()}
    return {
        code: TeardownSums(kept[code].price, kept[code].put_back_price, kept[code].deposit)
        if code in kept
        else default_sums(code, on)
        for code in types
    }


@read_by_customer
def leave_sheet(job: Job, sums: TeardownSums, on: date, **given: Any) -> LeaveSheet:
    """The leave as it would be printed on that day; `given` says by whom, where it was given."""
    workshop = Workshop.objects.get_or_default()
    money = money_of(on, workshop)
    code = job.engine.type_code
    return LeaveSheet(
        number=job.number,
        workshop=workshop_party(workshop),
        customer=customer_party(job.customer),
        engine_name=dict(engine_type_choices()).get(code, code),
        engine_number=job.engine.number,
        tag=job.tag,
        paper=cast(Literal["A4", "Letter"], str(workshop.paper)),
        language=job.customer.reads,
        currency=money.currency,
        decimals=money.decimals,
        on=on,
        price=sums.price,
        put_back=sums.put_back,
        deposit=sums.deposit,
        **given,
    )
