"""The sum of a job opened: net by section and line, tax by group, and the sum with tax."""

from __future__ import annotations

from catalogue.calc.money import ZERO
from quotes.calc.origin.job import Job
from quotes.calc.origin.price import line
from quotes.calc.origin.tax import taxes
from quotes.calc.origin.values import Origin, money

SECTIONS = {
    "labour": "Strip and rebuild",
    "part": "Parts",
    "machine_work": "Machine work sent out",
    "consumables": "Consumables",
    "discount": "Discount",
}


def gross(job: Job) -> Origin:
    """The sum with tax."""
    sums, decimals = job.sums.gross, job.shop.decimals
    return Origin(
        "With tax",
        money(sums.typical, decimals),
        _band(job),
        parts=(net(job), *taxes(job)),
        adds="sum",
        exact=sums.typical,
        key=job.key("gross"),
    )


def net(job: Job) -> Origin:
    """The sum before tax, by section."""
    kinds = [kind for kind in SECTIONS if any(each.kind == kind for each in job.lines.values())]
    whole = job.sums.net.typical
    return Origin(
        "Net",
        money(whole, job.shop.decimals),
        parts=tuple(section(job, kind) for kind in kinds),
        adds="sum",
        exact=whole,
        key=job.key("net"),
    )


def section(job: Job, kind: str) -> Origin:
    """The lines of one kind."""
    found = [key for key, each in job.lines.items() if each.kind == kind]
    whole = sum((job.lines[key].net for key in found), ZERO)
    return Origin(
        SECTIONS[kind],
        money(whole, job.shop.decimals),
        parts=tuple(line(job, key) for key in found),
        adds="sum",
        exact=whole,
        key=job.key(f"section:{kind}"),
    )


def _band(job: Job) -> str:
    sums, decimals = job.sums.gross, job.shop.decimals
    if job.case.request.stripped:
        return "The engine has been stripped and measured: the price is firm."
    if_needed = sum((each.net for each in job.if_needed), ZERO)
    more = f", and what is priced and not included ({money(if_needed, decimals)} net)" if if_needed else ""
    return (
        f"Before the strip-down between {money(sums.low, decimals)} and {money(sums.high, decimals)}: the "
        f"low and high of every line added up{more}."
    )
