"""Lines of the sum opened: their quantity, the price of one, what was set by hand, and the tax."""

from __future__ import annotations

from catalogue.calc.said import say
from quotes.calc.ask.request import LineChange
from quotes.calc.bench.said import exact
from quotes.calc.money.priced import Priced
from quotes.calc.origin.hours import of_kind
from quotes.calc.origin.job import WorkedJob
from quotes.calc.origin.unit_price import unit_price
from quotes.calc.origin.values import TIMES, Origin, money, number
from quotes.calc.sheet.words import first_large


def line(job: WorkedJob, key: str) -> Origin:
    """The net of one line of the sum. KeyError where the job has no such line."""
    return _opened(job, job.lines[key], f"line:{key}")


def needed(job: WorkedJob, key: str) -> Origin:
    """The net of a line that is priced and not included. KeyError where the job has no such line."""
    return _opened(job, job.needed[key], f"needed:{key}")


def price(job: WorkedJob, key: str) -> Origin:
    """The price of one of what a line holds. KeyError where the job has no such line."""
    found = job.lines[key] if key in job.lines else job.needed[key]
    shown = unit_price(job, found)
    return Origin(
        say("Price of one: {line}", line=job.described.get(key, found.description)),
        shown.value,
        shown.rule,
        shown.source,
        shown.parts,
        shown.adds,
        shown.exact,
        job.key(f"price:{key}"),
    )


def _opened(job: WorkedJob, found: Priced, key: str) -> Origin:
    decimals = job.shop.decimals
    change = job.case.edits.lines.get(found.key)
    quantity = f"{number(float(found.quantity), 4)} {found.unit}"
    return Origin(
        first_large(job.described.get(found.key, found.description)),
        money(found.net, decimals),
        _rule(job, found, quantity),
        parts=(
            Origin(say("Quantity"), quantity, parts=_quantity(job, found), exact=found.quantity),
            unit_price(job, found),
            *((_by_hand(change),) if change else ()),
        ),
        adds="price",
        exact=found.net,
        key=job.key(key),
    )


def _quantity(job: WorkedJob, found: Priced) -> tuple[Origin, ...]:
    if found.kind == "labour" and found.code in job.shop.labour_rates:
        return (of_kind(job, found.code),)  # type: ignore[arg-type]
    plan = job.plan
    if found.key not in job.lines:
        return ()
    if found.kind == "part" and found.component is not None:
        if found.component in plan.singly:
            return (
                Origin(
                    say("Taken singly"), "", say("By operations that use up a few; the set is not renewed.")
                ),
            )
        return (Origin(say("A full set"), "", job.brought_by(("new", found.component))),)
    if found.kind == "machine_work" and found.code in job.catalogue.machine_work:
        whole = job.catalogue.machine_work[found.code].quantity
        rule = say("There are {count} on this engine; shared work goes once.", count=whole)
        return (Origin(say("Pieces sent out"), "", rule),)
    return ()


def _by_hand(change: LineChange) -> Origin:
    said = [
        say("quantity {figure}", figure=exact(change.quantity)) if change.quantity is not None else "",
        say("price {figure}", figure=exact(change.unit_price)) if change.unit_price is not None else "",
    ]
    return Origin(say("Set by hand"), ", ".join(each for each in said if each), change.note)


def _rule(job: WorkedJob, found: Priced, quantity: str) -> str:
    decimals = job.shop.decimals
    told = {
        "quantity": quantity,
        "times": TIMES,
        "price": money(found.unit_price, decimals),
        "tax": _tax_words(job, found.tax_code),
    }
    if job.case.request.stripped or found.low == found.high:
        return say("{quantity} {times} {price}, rounded half up. Tax: {tax}.", **told)
    told |= {"low": money(found.low, decimals), "high": money(found.high, decimals)}
    if why := _why_a_band(job, found):
        return say(
            "{quantity} {times} {price}, rounded half up. Before the strip-down between {low} and {high} "
            "({why}). Tax: {tax}.",
            why=why,
            **told,
        )
    return say(
        "{quantity} {times} {price}, rounded half up. Before the strip-down between {low} and {high}. "
        "Tax: {tax}.",
        **told,
    )


def _why_a_band(job: WorkedJob, found: Priced) -> str:
    if found.kind == "labour":
        spread = number(float(job.shop.hours_spread_pct))
        return say("hours may be {spread} % off either way", spread=spread)
    if found.kind == "part":
        return say("the price list's range")
    return say("the outside shop's low and high price") if found.kind == "machine_work" else ""


def _tax_words(job: WorkedJob, code: str) -> str:
    tax = job.shop.tax_codes[code]
    rates = [f"{part.name} {number(float(part.rate_pct), 4)} %" for part in tax.components]
    return say(" and ").join(rates) or tax.reason.rstrip(".") or say("none")
