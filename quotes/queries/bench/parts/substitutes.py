"""What a substitute is held against: the accepted line that it would take the place of."""

from __future__ import annotations

from catalogue.queries import current_rows
from quotes.calc.invoice.draft import DraftLine
from quotes.calc.invoice.from_yes import accepted_lines
from quotes.calc.money.price import sell_price
from quotes.models import ExtraWork, OrderLine, Workshop
from quotes.queries.accepted import accepted_option
from quotes.queries.workshop import shop_rules, taxability


def accepted_line(line: OrderLine) -> DraftLine | None:
    """The line that pays for an ordered article; None for stock or a second one at our own cost.

    An article of an extra has no price of its own: it stands at what the workshop sells it for today.
    """
    build = line.build
    if build is None:
        return None
    if line.line_key.startswith("extra:"):
        return _of_extra(line)
    if line.line_key.startswith("work:"):
        _, index, number = line.line_key.split(":")
        lines = ExtraWork.objects.filter(build=build, index=index).values_list("lines", flat=True).first()
        return DraftLine.model_validate(lines[int(number) - 1]) if lines else None
    option = accepted_option(build)
    code = taxability(Workshop.objects.get_or_default())["part"]
    found = {one.key: one for one in accepted_lines(option, part_tax_code=code)}
    return found.get(line.line_key)


def _of_extra(line: OrderLine) -> DraftLine | None:
    part = next((row for row in current_rows().parts if row.number == line.part_number), None)
    if part is None:
        return None
    shop = shop_rules(line.order.ordered_on)
    return DraftLine(
        kind="part",
        description=line.description[:200],
        quantity=line.quantity,
        unit=line.unit,
        unit_price=sell_price(line.unit_cost, part.list_price, shop),
        tax_code=shop.taxability["part"],
        component=line.component or None,
    )


def supplier_names() -> dict[str, str]:
    """Name by code of everybody who delivers parts."""
    try:
        rows = current_rows().suppliers
    except LookupError:
        return {}
    return {row.code: row.name for row in rows if row.kind == "parts"}
