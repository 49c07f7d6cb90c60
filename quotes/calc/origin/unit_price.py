"""The price of one opened: cost, markup band and list cap; the hour's rate; a share of labour; or by hand."""

from __future__ import annotations

from decimal import Decimal

from catalogue.calc.engine import MachineWork, Part
from catalogue.calc.money import HUNDRED, ZERO, round_half_up
from catalogue.calc.said import say
from quotes.calc.ask.request import OwnLine
from quotes.calc.money.price import machine_work_unit_price, with_markup
from quotes.calc.money.priced import Priced
from quotes.calc.origin.job import WorkedJob
from quotes.calc.origin.values import TIMES, Adds, Origin, money, number
from quotes.calc.shop import MarkupBand


def unit_price(job: WorkedJob, found: Priced) -> Origin:
    """The price of one of what a line holds, by the way in which it was made."""
    price, change = found.unit_price, job.case.edits.lines.get(found.key)
    typed = _own(job, found) is not None
    if typed or (change is not None and change.unit_price is not None):
        said = say("Typed by the desk.") if typed else say("Fixed by hand, in place of the price worked out.")
        return Origin(say("Price of one"), money(price, job.shop.decimals), said, exact=price)
    if found.kind == "labour":
        said = say("{price} an hour", price=money(price, job.shop.decimals))
        rate = Origin(say("Labour rate"), said, source=say("the workshop's rates"), exact=price)
        return _one(job, price, (rate,))
    if found.kind == "part" and found.component is not None and (part := job.case.part(found.component)):
        return _of_part(job, part, price)
    if found.kind == "machine_work" and found.code in job.catalogue.machine_work:
        return _of_machine_work(job, job.catalogue.machine_work[found.code], price)
    return _consumables(job, price) if found.kind == "consumables" else _discount(job, price)


def _one(job: WorkedJob, price: Decimal, parts: tuple[Origin, ...], adds: Adds = "sum") -> Origin:
    return Origin(say("Price of one"), money(price, job.shop.decimals), parts=parts, adds=adds, exact=price)


def _own(job: WorkedJob, found: Priced) -> OwnLine | None:
    number_ = found.code.removeprefix("own-")
    lines = job.case.edits.own_lines
    is_own = number_ != found.code and number_.isdigit() and 1 <= int(number_) <= len(lines)
    return lines[int(number_) - 1] if is_own else None


def _of_part(job: WorkedJob, part: Part, price: Decimal) -> Origin:
    """Cost through the markup schedule, capped at list."""
    decimals = job.shop.decimals
    marked = _markup(job, part)
    if not job.shop.cap_at_list:
        return _one(job, price, (marked,))
    listed = round_half_up(part.list_price, decimals)
    above = isinstance(marked.exact, Decimal) and listed < marked.exact
    said = say("Never more than list, and it is not.")
    if above:
        said = say("Never more than list, and it is: the list price holds.")
    cap = Origin(
        say("List price"),
        money(part.list_price, decimals),
        said,
        part.source,
        exact=listed,
        part_number=part.number,
    )
    return _one(job, price, (marked, cap), "least")


def _cost(job: WorkedJob, part: Part) -> Origin:
    return Origin(
        say("Cost to us"),
        money(part.cost, job.shop.decimals),
        f"{part.supplier}, {part.number}",
        part.source,
        exact=part.cost,
        private=True,
        part_number=part.number,
    )


def _markup(job: WorkedJob, part: Part) -> Origin:
    """The cost with the markup of its band, never less than a part of the band below sells for."""
    decimals, cost = job.shop.decimals, part.cost
    band, after = _band_of(job.shop.markup_bands, cost)
    marked = round_half_up(with_markup(cost, job.shop.markup_bands), decimals)
    if band is None:
        rule = say("No schedule is set: sold at cost.")
        return _marked(job, rule, marked, (_cost(job, part),), "price")
    said = _of_band(band, after, decimals)
    own = round_half_up(cost * (HUNDRED + band.markup_pct) / HUNDRED, decimals)
    parts = (_cost(job, part), _factor(band.markup_pct))
    if own == marked:
        return _marked(job, said, marked, parts, "price")
    lifted = Origin(
        say("What the dearest part of the band below sells for"), money(marked, decimals), exact=marked
    )
    plain = Origin(say("By its own band"), money(own, decimals), parts=parts, adds="price", exact=own)
    rule = say("{rule} Lifted: a dearer part never sells for less.", rule=said)
    return _marked(job, rule, marked, (plain, lifted), "most")


def _of_band(band: MarkupBand, after: MarkupBand | None, decimals: int) -> str:
    told = {"percent": number(float(band.markup_pct)), "least": money(band.cost_from, decimals)}
    if after is None:
        return say("{percent} % on a cost of {least} and more.", **told)
    under = money(after.cost_from, decimals)
    return say("{percent} % on a cost of {least} and under {under}.", under=under, **told)


def _marked(job: WorkedJob, rule: str, marked: Decimal, parts: tuple[Origin, ...], adds: Adds) -> Origin:
    return Origin(
        say("With markup"),
        money(marked, job.shop.decimals),
        rule,
        say("the workshop's markup schedule"),
        parts,
        adds,
        marked,
        private=True,
    )


def _factor(markup_pct: Decimal) -> Origin:
    factor = (HUNDRED + markup_pct) / HUNDRED
    return Origin(say("Markup"), f"{TIMES} {number(float(factor), 4)}", exact=factor, private=True)


def _band_of(bands: tuple[MarkupBand, ...], cost: Decimal) -> tuple[MarkupBand | None, MarkupBand | None]:
    """The band that a cost falls into, and the next one up."""
    ranked = sorted(bands, key=lambda one: one.cost_from)
    place = max((number for number, band in enumerate(ranked) if cost >= band.cost_from), default=0)
    if not ranked:
        return None, None
    return ranked[place], ranked[place + 1] if place + 1 < len(ranked) else None


def _of_machine_work(job: WorkedJob, work: MachineWork, price: Decimal) -> Origin:
    decimals, markup = job.shop.decimals, job.shop.machine_work_markup_pct
    cost = Origin(
        say("The outside shop's price"),
        money(work.cost, decimals),
        work.vendor,
        work.source,
        exact=work.cost,
        private=True,
    )
    marked = machine_work_unit_price(work.cost, job.shop)
    with_it = Origin(
        say("With markup"),
        money(marked, decimals),
        say("{percent} % on work sent out.", percent=number(float(markup))),
        say("the workshop's settings"),
        (cost, _factor(markup)),
        "price",
        marked,
        private=True,
    )
    return _one(job, price, (with_it,))


def _consumables(job: WorkedJob, price: Decimal) -> Origin:
    """A share of labour between a least and a most."""
    rule, decimals = job.shop.consumables, job.shop.decimals
    labour = sum((each.net for each in job.lines.values() if each.kind == "labour"), ZERO)
    percent = number(float(rule.labour_pct))
    share = round_half_up(labour * rule.labour_pct / HUNDRED, decimals)
    parts = (
        Origin(say("{percent} % of labour", percent=percent), money(share, decimals), exact=share),
        Origin(say("At least"), money(rule.least, decimals), exact=rule.least),
    )
    lifted = max(share, rule.least)
    most = Origin(say("At most"), money(rule.most, decimals), exact=rule.most)
    above = Origin(
        say("Share of labour"),
        money(lifted, decimals),
        say(
            "{percent} % of {labour} of labour, at least {least}, at most {most}.",
            percent=percent,
            labour=money(labour, decimals),
            least=money(rule.least, decimals),
            most=money(rule.most, decimals),
        ),
        say("the workshop's settings"),
        parts,
        "most",
        lifted,
    )
    return _one(job, price, (above, most), "least")


def _discount(job: WorkedJob, price: Decimal) -> Origin:
    edits = job.case.edits
    said = Origin(
        say("Set by hand"),
        f"{number(float(edits.discount_pct))} %",
        say("Taken off the net, each rate of tax bearing its share. {reason}", reason=edits.discount_reason),
    )
    return Origin(say("Price of one"), money(price, job.shop.decimals), parts=(said,), exact=price)
