"""The sum of a job opened: net by section and line, tax by group, and the sum with tax."""

from __future__ import annotations

from catalogue.calc.money import ZERO
from catalogue.calc.said import say, to_say
from quotes.calc.origin.job import WorkedJob
from quotes.calc.origin.price import line
from quotes.calc.origin.tax import taxes
from quotes.calc.origin.values import Origin, money

SECTIONS = {
    "labour": to_say("Strip and rebuild"),
    "part": to_say("Parts"),
    "machine_work": to_say("Machine work sent out"),
    "consumables": to_say("Consumables"),
    "discount": to_say("Discount"),
}


def gross(job: WorkedJob) -> Origin:
    """The sum with tax."""
    sums, decimals = job.sums.gross, job.shop.decimals
    return Origin(
        say("With tax"),
        money(sums.typical, decimals),
        _band(job),
        parts=(net(job), *taxes(job)),
        adds="sum",
        exact=sums.typical,
        key=job.key("gross"),
    )


def net(job: WorkedJob) -> Origin:
    """The sum before tax, by section."""
    kinds = [kind for kind in SECTIONS if any(each.kind == kind for each in job.lines.values())]
    whole = job.sums.net.typical
    return Origin(
        say("Net"),
        money(whole, job.shop.decimals),
        parts=tuple(section(job, kind) for kind in kinds),
        adds="sum",
        exact=whole,
        key=job.key("net"),
    )


def section(job: WorkedJob, kind: str) -> Origin:
    """The lines of one kind."""
    found = [key for key, each in job.lines.items() if each.kind == kind]
    whole = sum((job.lines[key].net for key in found), ZERO)
    return Origin(
        say(SECTIONS[kind]),
        money(whole, job.shop.decimals),
        parts=tuple(line(job, key) for key in found),
        adds="sum",
        exact=whole,
        key=job.key(f"section:{kind}"),
    )


def _band(job: WorkedJob) -> str:
    sums, decimals = job.sums.gross, job.shop.decimals
    if job.case.request.stripped:
        return say("The engine has been stripped and measured: the price is firm.")
    if_needed = sum((each.net for each in job.if_needed), ZERO)
    told = {"low": money(sums.low, decimals), "high": money(sums.high, decimals)}
    if not if_needed:
        return say(
            "Before the strip-down between {low} and {high}: the low and high of every line added up.", **told
        )
    return say(
        "Before the strip-down between {low} and {high}: the low and high of every line added up, and what "
        "is priced and not included ({net} net).",
        net=money(if_needed, decimals),
        **told,
    )
