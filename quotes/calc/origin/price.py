"""Prices opened: cost, markup, cap, quantity, hours and rate, what was set by hand, and the tax."""

from __future__ import annotations

from decimal import Decimal

from catalogue.calc.engine import KindOfWork, MachineWork, Part
from catalogue.calc.money import ZERO, round_half_up
from quotes.calc.ask.request import LineChange, OwnLine
from quotes.calc.money.price import HUNDRED, machine_work_unit_price, sell_price, with_markup
from quotes.calc.money.priced import Priced
from quotes.calc.origin.hours import of_kind
from quotes.calc.origin.values import TIMES, Origin, money, number
from quotes.calc.origin.worked import Explained
from quotes.calc.sheet.words import first_large
from quotes.calc.shop import MarkupBand


def line(told: Explained, key: str) -> Origin:
    """The net of one line of the sum. KeyError where the option has no such line."""
    return _opened(told, told.lines[key], f"line:{key}")


def needed(told: Explained, key: str) -> Origin:
    """The net of a line that is priced and not included. KeyError where the option has no such line."""
    return _opened(told, told.needed[key], f"needed:{key}")


def _opened(told: Explained, found: Priced, key: str) -> Origin:
    decimals = told.shop.decimals
    change = told.case.edits.lines.get(found.key)
    own = _own(told, found)
    quantity = Origin("Quantity", f"{number(float(found.quantity), 4)} {found.unit}", exact=found.quantity)
    return Origin(
        first_large(told.described.get(found.key, found.description)),
        money(found.net, decimals),
        f"{number(float(found.quantity), 4)} {found.unit} {TIMES} {money(found.unit_price, decimals)}, "
        f"rounded half up.{_band(told, found)} Tax: {_tax_words(told, found.tax_code)}.",
        parts=(
            _with(quantity, _quantity(told, found)),
            _unit_price(told, found, own, change),
            *((_by_hand(change),) if change else ()),
        ),
        adds="price",
        exact=found.net,
        key=key,
    )


def _with(shown: Origin, parts: tuple[Origin, ...]) -> Origin:
    return Origin(shown.title, shown.value, shown.rule, shown.source, parts, "", shown.exact)


def _own(told: Explained, found: Priced) -> OwnLine | None:
    number_ = found.code.removeprefix("own-")
    lines = told.case.edits.own_lines
    is_own = number_ != found.code and number_.isdigit() and 1 <= int(number_) <= len(lines)
    return lines[int(number_) - 1] if is_own else None


def _quantity(told: Explained, found: Priced) -> tuple[Origin, ...]:
    if found.kind == "labour" and found.code in told.shop.labour_rates:
        kind: KindOfWork = found.code  # type: ignore[assignment]
        return (of_kind(told, kind),)
    plan = told.scope.plan
    if found.key not in told.lines:
        return ()
    if found.kind == "part" and found.component is not None:
        if found.component in plan.singly:
            return (Origin("Taken singly", "", "By operations that use up a few; the set is not renewed."),)
        return (Origin("A full set", "", told.brought_by(("new", found.component))),)
    if found.kind == "machine_work" and found.code in told.catalogue.machine_work:
        whole = told.catalogue.machine_work[found.code].quantity
        return (Origin("Pieces sent out", "", f"There are {whole} on this engine; shared work goes once."),)
    return ()


def _unit_price(told: Explained, found: Priced, own: OwnLine | None, change: LineChange | None) -> Origin:
    price, decimals = found.unit_price, told.shop.decimals
    shown = Origin("Price of one", money(price, decimals), exact=price)
    if change is not None and change.unit_price is not None:
        return _with(shown, ())
    if own is not None:
        return _with(shown, (Origin("Typed by the desk", money(price, decimals)),))
    if found.kind == "labour":
        rate = Origin("Labour rate", f"{money(price, decimals)} an hour", source="the workshop's rates")
        return _with(shown, (rate,))
    if found.kind == "part" and found.component is not None and (part := told.case.part(found.component)):
        return _of_part(told, part, price)
    if found.kind == "machine_work" and found.code in told.catalogue.machine_work:
        return _of_machine_work(told, told.catalogue.machine_work[found.code], price)
    return _with(shown, (_consumables(told) if found.kind == "consumables" else _discount(told),))


def _of_part(told: Explained, part: Part, price: Decimal) -> Origin:
    """Cost through the markup schedule, capped at list."""
    decimals = told.shop.decimals
    marked = round_half_up(with_markup(part.cost, told.shop.markup_bands), decimals)
    capped = sell_price(part.cost, part.list_price, told.shop)
    parts = [
        Origin(
            "Cost to us",
            money(part.cost, decimals),
            f"{part.supplier}, {part.number}",
            part.source,
            private=True,
        ),
        _markup(told, part.cost, marked),
    ]
    if told.shop.cap_at_list:
        said = "and it is: the list price holds" if capped < marked else "and it is not"
        parts.append(
            Origin(
                "List price", money(part.list_price, decimals), f"Never more than list, {said}.", part.source
            )
        )
    return Origin("Price of one", money(price, decimals), parts=tuple(parts), exact=price)


def _markup(told: Explained, cost: Decimal, marked: Decimal) -> Origin:
    band, after = _band_of(told.shop.markup_bands, cost)
    if band is None:
        return Origin(
            "Markup", money(marked, told.shop.decimals), "No schedule is set: sold at cost.", private=True
        )
    until = f" and under {money(after.cost_from, told.shop.decimals)}" if after else " and more"
    plain = round_half_up(cost * (HUNDRED + band.markup_pct) / HUNDRED, told.shop.decimals)
    floor = "" if plain == marked else " Lifted to what the dearest part of the band below sells for."
    return Origin(
        "With markup",
        money(marked, told.shop.decimals),
        f"{number(float(band.markup_pct))} % on a cost of {money(band.cost_from, told.shop.decimals)}{until}."
        f"{floor}",
        "the workshop's markup schedule",
        private=True,
    )


def _band_of(bands: tuple[MarkupBand, ...], cost: Decimal) -> tuple[MarkupBand | None, MarkupBand | None]:
    """The band that a cost falls into, and the next one up."""
    ranked = sorted(bands, key=lambda one: one.cost_from)
    place = max((number for number, band in enumerate(ranked) if cost >= band.cost_from), default=0)
    if not ranked:
        return None, None
    return ranked[place], ranked[place + 1] if place + 1 < len(ranked) else None


def _of_machine_work(told: Explained, work: MachineWork, price: Decimal) -> Origin:
    decimals, markup = told.shop.decimals, told.shop.machine_work_markup_pct
    parts = (
        Origin(
            "The outside shop's price", money(work.cost, decimals), work.vendor, work.source, private=True
        ),
        Origin(
            "With markup",
            money(machine_work_unit_price(work.cost, told.shop), decimals),
            f"{number(float(markup))} % on work sent out.",
            "the workshop's settings",
            private=True,
        ),
    )
    return Origin("Price of one", money(price, decimals), parts=parts, exact=price)


def _consumables(told: Explained) -> Origin:
    rule, decimals = told.shop.consumables, told.shop.decimals
    labour = sum((each.net for each in told.lines.values() if each.kind == "labour"), ZERO)
    share = labour * rule.labour_pct / HUNDRED
    return Origin(
        "Share of labour",
        money(round_half_up(share, decimals), decimals),
        f"{number(float(rule.labour_pct))} % of {money(labour, decimals)} of labour, at least "
        f"{money(rule.least, decimals)}, at most {money(rule.most, decimals)}.",
        "the workshop's settings",
    )


def _discount(told: Explained) -> Origin:
    edits = told.case.edits
    return Origin(
        "Set by hand",
        f"{number(float(edits.discount_pct))} %",
        "Taken off the net, each rate of tax bearing its share. " + edits.discount_reason,
    )


def _by_hand(change: LineChange) -> Origin:
    said = [
        f"quantity {change.quantity:f}" if change.quantity is not None else "",
        f"price {change.unit_price:f}" if change.unit_price is not None else "",
    ]
    return Origin("Set by hand", ", ".join(each for each in said if each), change.note)


def _band(told: Explained, found: Priced) -> str:
    if told.case.request.stripped or found.low == found.high:
        return ""
    decimals = told.shop.decimals
    why = {
        "labour": f"hours may be {number(float(told.shop.hours_spread_pct))} % off either way",
        "part": "the price list's range",
        "machine_work": "the outside shop's low and high price",
    }.get(found.kind, "")
    reason = f" ({why})" if why else ""
    low, high = money(found.low, decimals), money(found.high, decimals)
    return f" Before the strip-down between {low} and {high}{reason}."


def _tax_words(told: Explained, code: str) -> str:
    tax = told.shop.tax_codes[code]
    names = " and ".join(f"{part.name} {number(float(part.rate_pct), 4)} %" for part in tax.components)
    return names or tax.reason.rstrip(".") or "none"
