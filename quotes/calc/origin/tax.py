"""Tax opened: the lines that bear it, its category and rate, and the rounding, once for all of them."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

from catalogue.calc.money import HUNDRED, ZERO, round_half_up
from catalogue.calc.said import say
from quotes.calc.money.tax import tax_code_of
from quotes.calc.origin.job import WorkedJob
from quotes.calc.origin.price import line
from quotes.calc.origin.values import TIMES, Origin, money, number
from quotes.calc.sheet.line_values import TaxGroup


def taxes(job: WorkedJob) -> tuple[Origin, ...]:
    """One figure for each category and rate of a job."""
    return tuple(_group(job, group) for group in job.sums.groups)


def tax(job: WorkedJob, code: str) -> Origin:
    """The tax of a group by its code, or one of its components as `code:2`. KeyError where there is none."""
    code, _, place = code.partition(":")
    found = next((group for group in job.sums.groups if group.code == code), None)
    if found is None:
        raise KeyError(code)
    if not place:
        return _group(job, found)
    if not place.isdigit() or not 1 <= int(place) <= len(found.components):
        raise KeyError(place)
    return _component(job, found, int(place))


def _group(job: WorkedJob, group: TaxGroup) -> Origin:
    """Base times rate, rounded half up once; its components share out the same sum."""
    decimals = job.shop.decimals
    components = tuple(
        replace(_component(job, group, place), parts=(), adds="", exact=None)
        for place in range(1, len(group.components) + 1)
    )
    return Origin(
        say("Tax on {amount}", amount=money(group.taxable, decimals)),
        money(group.tax, decimals),
        say(
            "{amount} {times} {rate} %, rounded half up once for all lines of this rate. {reason}",
            amount=money(group.taxable, decimals),
            times=TIMES,
            rate=number(float(group.rate_pct), 4),
            reason=group.reason,
        ).strip(),
        say("the workshop's taxes"),
        (_base(job, group), _rate(group), *components),
        "price",
        group.tax,
        job.key(f"tax:{group.code}"),
    )


def _rate(group: TaxGroup) -> Origin:
    said = f"{number(float(group.rate_pct), 4)} %"
    category = say("Category {code}.", code=group.category)
    return Origin(say("Rate"), said, category, exact=group.rate_pct / HUNDRED)


def _base(job: WorkedJob, group: TaxGroup) -> Origin:
    """The lines that bear it: tax codes of one category and rate are taxed together."""
    return _taxable(job, _bearing(job, group))


def _taxable(job: WorkedJob, keys: list[str]) -> Origin:
    base = sum((job.lines[key].net for key in keys), ZERO)
    return Origin(
        say("Taxable"),
        money(base, job.shop.decimals),
        say("The lines that bear this tax, net."),
        parts=tuple(replace(line(job, key), parts=(), adds="") for key in keys),
        adds="sum",
        exact=base,
    )


def _component(job: WorkedJob, group: TaxGroup, place: int) -> Origin:
    """One tax of several on the same base; what their rounding leaves over goes to the first."""
    decimals = job.shop.decimals
    name, rate, shown = group.components[place - 1]
    parts = [_own_share(job, group, name, rate)]
    over = shown - Decimal(str(parts[0].exact))
    if over:
        rule = say("The whole tax is rounded once; what its components leave over goes to the first.")
        parts.append(Origin(say("Rounding"), money(over, decimals), rule, exact=over))
    return Origin(
        f"{name}, {number(float(rate), 4)} %",
        money(shown, decimals),
        say("Category {code}.", code=group.category),
        say("the workshop's taxes"),
        tuple(parts),
        "sum",
        shown,
        job.key(f"tax:{group.code}:{place}"),
    )


def _own_share(job: WorkedJob, group: TaxGroup, name: str, rate: Decimal) -> Origin:
    """Its base times its rate, rounded half up."""
    decimals, codes = job.shop.decimals, job.shop.tax_codes
    keys = [
        key
        for key in _bearing(job, group)
        if any(
            (part.name, part.rate_pct) == (name, rate) for part in codes[job.lines[key].tax_code].components
        )
    ]
    base = _taxable(job, keys)
    share = round_half_up(Decimal(str(base.exact)) * rate / HUNDRED, decimals)
    percent = f"{number(float(rate), 4)} %"
    return Origin(
        say("Its own share"),
        money(share, decimals),
        say("{amount} {times} {rate}, rounded half up.", amount=base.value, times=TIMES, rate=percent),
        parts=(base, Origin(say("Rate"), percent, exact=rate / HUNDRED)),
        adds="price",
        exact=share,
    )


def _bearing(job: WorkedJob, group: TaxGroup) -> list[str]:
    """The keys of the lines of its category and rate."""
    codes = job.shop.tax_codes
    taxed = tax_code_of(group.code, codes)
    return [
        key
        for key, each in job.lines.items()
        if (codes[each.tax_code].category, codes[each.tax_code].rate_pct) == (taxed.category, taxed.rate_pct)
    ]
