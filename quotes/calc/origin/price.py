"""Lines of the sum opened: their quantity, the price of one, what was set by hand, and the tax."""

from __future__ import annotations

from quotes.calc.ask.request import LineChange
from quotes.calc.money.priced import Priced
from quotes.calc.origin.hours import of_kind
from quotes.calc.origin.job import Job
from quotes.calc.origin.unit_price import unit_price
from quotes.calc.origin.values import TIMES, Origin, money, number
from quotes.calc.sheet.words import first_large


def line(job: Job, key: str) -> Origin:
    """The net of one line of the sum. KeyError where the job has no such line."""
    return _opened(job, job.lines[key], f"line:{key}")


def needed(job: Job, key: str) -> Origin:
    """The net of a line that is priced and not included. KeyError where the job has no such line."""
    return _opened(job, job.needed[key], f"needed:{key}")


def price(job: Job, key: str) -> Origin:
    """The price of one of what a line holds. KeyError where the job has no such line."""
    found = job.lines[key] if key in job.lines else job.needed[key]
    shown = unit_price(job, found)
    return Origin(
        f"Price of one: {job.described.get(key, found.description)}",
        shown.value,
        shown.rule,
        shown.source,
        shown.parts,
        shown.adds,
        shown.exact,
        job.key(f"price:{key}"),
    )


def _opened(job: Job, found: Priced, key: str) -> Origin:
    decimals = job.shop.decimals
    change = job.case.edits.lines.get(found.key)
    quantity = f"{number(float(found.quantity), 4)} {found.unit}"
    return Origin(
        first_large(job.described.get(found.key, found.description)),
        money(found.net, decimals),
        f"{quantity} {TIMES} {money(found.unit_price, decimals)}, "
        f"rounded half up.{_band(job, found)} Tax: {_tax_words(job, found.tax_code)}.",
        parts=(
            Origin("Quantity", quantity, parts=_quantity(job, found), exact=found.quantity),
            unit_price(job, found),
            *((_by_hand(change),) if change else ()),
        ),
        adds="price",
        exact=found.net,
        key=job.key(key),
    )


def _quantity(job: Job, found: Priced) -> tuple[Origin, ...]:
    if found.kind == "labour" and found.code in job.shop.labour_rates:
        return (of_kind(job, found.code),)  # type: ignore[arg-type]
    plan = job.plan
    if found.key not in job.lines:
        return ()
    if found.kind == "part" and found.component is not None:
        if found.component in plan.singly:
            return (Origin("Taken singly", "", "By operations that use up a few; the set is not renewed."),)
        return (Origin("A full set", "", job.brought_by(("new", found.component))),)
    if found.kind == "machine_work" and found.code in job.catalogue.machine_work:
        whole = job.catalogue.machine_work[found.code].quantity
        return (Origin("Pieces sent out", "", f"There are {whole} on this engine; shared work goes once."),)
    return ()


def _by_hand(change: LineChange) -> Origin:
    said = [
        f"quantity {change.quantity:f}" if change.quantity is not None else "",
        f"price {change.unit_price:f}" if change.unit_price is not None else "",
    ]
    return Origin("Set by hand", ", ".join(each for each in said if each), change.note)


def _band(job: Job, found: Priced) -> str:
    if job.case.request.stripped or found.low == found.high:
        return ""
    decimals = job.shop.decimals
    why = {
        "labour": f"hours may be {number(float(job.shop.hours_spread_pct))} % off either way",
        "part": "the price list's range",
        "machine_work": "the outside shop's low and high price",
    }.get(found.kind, "")
    reason = f" ({why})" if why else ""
    low, high = money(found.low, decimals), money(found.high, decimals)
    return f" Before the strip-down between {low} and {high}{reason}."


def _tax_words(job: Job, code: str) -> str:
    tax = job.shop.tax_codes[code]
    names = " and ".join(f"{part.name} {number(float(part.rate_pct), 4)} %" for part in tax.components)
    return names or tax.reason.rstrip(".") or "none"
