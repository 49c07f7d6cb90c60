"""Whether a document asks for more of a build than was accepted, and what no acceptance covers."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from decimal import Decimal

from catalogue.calc.money import ZERO, round_half_up
from catalogue.calc.said import say
from quotes.calc.ask.request import Value
from quotes.calc.invoice.draft import DraftLine
from quotes.calc.invoice.sums import line_net
from quotes.calc.invoice.values import Agreed, InvoiceLine, LineKind, Sums

NOT_COUNTED: frozenset[LineKind] = frozenset({"storage", "interest", "core", "deposit"})
"""What the signed terms cover, or what only moves money that was asked for already."""
ACCEPTED_KEYS = ("option:", "extra:", "work:")


class Beyond(Value):
    """Something asked for that no acceptance covers. `gross` is its sum with tax."""

    what: str
    gross: Decimal
    line: int | None = None
    """Number of the line; None where it is no single line's."""


def asked_of_build(lines: Iterable[InvoiceLine], sums: Sums, decimals: int = 2) -> Decimal:
    """What a document asks for, with tax, without the lines that are not counted against the yes."""
    nets: dict[Decimal, Decimal] = {}
    for line in lines:
        if line.kind in NOT_COUNTED:
            nets[line.rate_pct] = nets.get(line.rate_pct, ZERO) + line.net
    return sums.gross - sum((_with_tax(net, rate, decimals) for rate, net in nets.items()), ZERO)


def beyond_the_yes(
    lines: Sequence[InvoiceLine],
    sums: Sums,
    agreed: Agreed,
    already: Decimal,
    *,
    accepted: Sequence[DraftLine] | None = None,
    decimals: int = 2,
) -> tuple[Beyond, ...]:
    """What goes beyond the yes, by line and in words; empty where the sum is within it.

    `already` is what earlier documents asked for, less credits, counted by `asked_of_build`. `accepted` are
    the accepted lines still to invoice: with them a line that asks for more than its own is named too.
    """
    slack = _rounded_apart(lines, agreed, already) * Decimal(len(sums.tax_groups)).scaleb(-decimals)
    over = already + asked_of_build(lines, sums, decimals) - agreed.up_to
    if over <= slack:
        return ()
    left = None if accepted is None else {line.key: line for line in accepted if line.key}
    named = tuple(_named(lines, left, decimals))
    rest = over - sum((one.gross for one in named), ZERO)
    if rest > ZERO:
        named += (Beyond(what=_rest_in_words(named), gross=rest),)
    return named


def _rounded_apart(lines: Iterable[InvoiceLine], agreed: Agreed, already: Decimal) -> int:
    """How many sums were rounded apart that are one now, or the other way about.

    Option, ticked extras and extra work were each shown with their own tax, and so is each part of a build
    that is asked for in parts: for every one of them the whole may be a unit off for each rate.
    """
    extras = sum(line.key.startswith("extra:") for line in lines)
    return extras + len(agreed.extra_work) + bool(already)


def _named(
    lines: Sequence[InvoiceLine], accepted: Mapping[str, DraftLine] | None, decimals: int
) -> Iterator[Beyond]:
    for line in lines:
        if line.kind in NOT_COUNTED or line.net <= ZERO:
            continue
        if not line.key.startswith(ACCEPTED_KEYS):
            gross = _with_tax(line.net, line.rate_pct, decimals)
            yield Beyond(
                what=say("{line}: not accepted", line=line.description), gross=gross, line=line.number
            )
        elif (more := _more(line, accepted, decimals)) > ZERO:
            own = None if accepted is None else accepted.get(line.key)
            yield Beyond(
                what=f"{line.description}: {_more_in_words(line, own)}",
                gross=_with_tax(more, line.rate_pct, decimals),
                line=line.number,
            )


def _more(line: InvoiceLine, accepted: Mapping[str, DraftLine] | None, decimals: int) -> Decimal:
    """How much more than its own net the line asks for; nought where the accepted lines are not known."""
    if accepted is None:
        return ZERO
    own = accepted.get(line.key)
    return line.net - (ZERO if own is None else line_net(own, decimals))


def _more_in_words(line: InvoiceLine, accepted: DraftLine | None) -> str:
    if accepted is None:
        return say("nothing of it is left to invoice")
    if line.quantity != accepted.quantity:
        asked, was = f"{line.quantity:f} {line.unit}", f"{accepted.quantity:f} {accepted.unit}"
    else:
        asked, was = f"{line.unit_price:f}", f"{accepted.unit_price:f}"
    return say("{asked} where {accepted} was accepted", asked=asked, accepted=was)


def _rest_in_words(named: Sequence[Beyond]) -> str:
    if named:
        return say("The other lines: more than was accepted")
    return say("The lines: more than was accepted")


def _with_tax(net: Decimal, rate_pct: Decimal, decimals: int) -> Decimal:
    return net + round_half_up(net * rate_pct / 100, decimals)
