"""What the desk does to lines by hand: lines of its own, and a quantity or price that is changed."""

from __future__ import annotations

from dataclasses import replace

from catalogue.calc.money import ZERO
from quotes.calc.ask.request import LineChange, OwnLine
from quotes.calc.money.price import line_net
from quotes.calc.money.priced import Priced, tax_code_for
from quotes.calc.shop import Shop


def own_line(own: OwnLine, number: int, shop: Shop) -> Priced:
    """A line of the desk's own as it was typed, keyed by its number in the list; its price is firm."""
    net = line_net(own.quantity, own.unit_price, shop.decimals)
    return Priced(
        kind=own.kind,
        code=f"own-{number}",
        description=own.description,
        quantity=own.quantity,
        unit=own.unit,
        unit_price=own.unit_price,
        net=net,
        low=net,
        high=net,
        tax_code=tax_code_for(own.kind, shop),
        cost=None if own.cost is None else line_net(own.quantity, own.cost, shop.decimals),
        edited=own.note,
    )


def changed(line: Priced, change: LineChange, shop: Shop) -> Priced:
    """The line with a quantity or price set by hand, and the note that says why.

    A price set by hand is firm. Where only the quantity is set, the band and the cost move with it.
    """
    quantity = line.quantity if change.quantity is None else change.quantity
    price = line.unit_price if change.unit_price is None else change.unit_price
    net = line_net(quantity, price, shop.decimals)
    line = replace(line, unit_price=price, net=net, edited=change.note)
    if line.quantity == ZERO:
        return replace(line, quantity=quantity, low=net, high=net)
    low, high, cost = (
        None if figure is None else line_net(quantity, figure, shop.decimals, price_base=line.quantity)
        for figure in (line.low, line.high, line.cost)
    )
    if change.unit_price is not None or low is None or high is None:
        low = high = net
    return replace(line, quantity=quantity, low=min(low, net), high=max(high, net), cost=cost)
