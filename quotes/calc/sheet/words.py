"""Chances, small risks and amounts of service in words that a customer reads without training.

Finishing a season is counted out of 20, a small risk out of 100, and the two never stand in one sentence.
No chance is ever said with a third figure, and none is ever said to be certain.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from decimal import Decimal

from catalogue.calc.said import say, say_figure
from quotes.calc.sheet.unit_words import with_unit

OUT_OF = 20
"""The denominator of finishing: one in twenty is as fine as the evidence allows."""
OUT_OF_MANY = 200
NEARLY_SURE = 0.995
"""From here on twenty says too little: an engine that is stopped once in two hundred meetings."""
HAIR = 1e-9
"""What binary may take off a figure that lies half way."""
NO_BREAK = "\N{NO-BREAK SPACE}"


def out_of_twenty(chance: float) -> int:
    """The nearest whole number of seasons finished out of twenty, halves upward.

    >>> out_of_twenty(0.953)
    19
    """
    return math.floor(chance * OUT_OF + 0.5 + HAIR)


def chance_in_words(chance: float) -> str:
    """A chance of finishing out of twenty, one nearly sure out of two hundred; never said to be certain.

    >>> chance_in_words(0.953), chance_in_words(0.98), chance_in_words(0.01)
    ('about 19 in 20', 'more than 19 in 20', 'less than 1 in 20')
    >>> chance_in_words(0.9953), chance_in_words(0.999)
    ('about 199 in 200', 'more than 199 in 200')
    """
    if chance >= NEARLY_SURE - HAIR:
        nearer = chance < (NEARLY_SURE + 1.0) / 2.0 - HAIR
        return _counted(OUT_OF_MANY - 1 if nearer else OUT_OF_MANY, OUT_OF_MANY)
    return _counted(out_of_twenty(chance), OUT_OF)


def _counted(count: int, out_of: int) -> str:
    """So many out of all; never none and never all."""
    if count >= out_of:
        return say("more than {count} in {out_of}", count=out_of - 1, out_of=out_of)
    if count < 1:
        return say("less than 1 in {out_of}", out_of=out_of)
    return say("about {count} in {out_of}", count=count, out_of=out_of)


def likely_in_words(low: float, high: float) -> str:
    """The band of a chance of finishing, counted out of twenty, beside a chance that is.

    >>> likely_in_words(0.86, 0.93), likely_in_words(0.91, 0.99)
    ('likely 17 to 19', 'likely 18 or more')
    >>> likely_in_words(0.98, 0.99), likely_in_words(0.01, 0.02)
    ('likely more than 19', 'likely less than 1')
    """
    least, most = out_of_twenty(low), out_of_twenty(high)
    if least >= OUT_OF:
        return say("likely more than {count}", count=OUT_OF - 1)
    if most >= OUT_OF:
        return say("likely {count} or more", count=least)
    if most < 1:
        return say("likely less than 1")
    if least < most:
        return say("likely {least} to {most}", least=least, most=most)
    return say("likely {count}", count=least)


def likely_beside(chance: float, low: float, high: float) -> str:
    """The band with what it is counted out of, where the chance beside it is counted out of more.

    A band within one twentieth would only say the chance again: that is given in per cent.

    >>> likely_beside(0.953, 0.91, 0.96), likely_beside(0.996, 0.96, 0.998)
    ('likely 18 to 19', 'likely 19 or more in 20')
    >>> likely_beside(0.948, 0.93, 0.96).replace(NO_BREAK, " ")
    'likely 93 to 96 %'
    >>> likely_beside(0.985, 0.978, 0.99).replace(NO_BREAK, " ")
    'likely 98 to 99 %'
    """
    if chance >= NEARLY_SURE - HAIR:
        return say("{band} in {out_of}", band=likely_in_words(low, high), out_of=OUT_OF)
    if 1 <= out_of_twenty(low) == out_of_twenty(high):
        return say("likely {band}", band=percent_band(low, high))
    return likely_in_words(low, high)


def chance_with_band(chance: float, low: float, high: float) -> str:
    """A chance of finishing and its band, as they stand together in a sentence.

    >>> chance_with_band(0.953, 0.91, 0.96), chance_with_band(0.996, 0.96, 0.998)
    ('about 19 in 20, likely 18 to 19', 'about 199 in 200, likely 19 or more in 20')
    """
    return f"{chance_in_words(chance)}, {likely_beside(chance, low, high)}"


def whole_percent(share: float) -> str:
    """A share in whole per cent; what would round to nought or to all is said as a bound.

    >>> whole_percent(0.9549).replace(NO_BREAK, " "), whole_percent(0.999).replace(NO_BREAK, " ")
    ('95 %', 'over 99 %')
    """
    percent = _whole(share)
    if percent >= 100:
        return say("over{gap}99{gap}%", gap=NO_BREAK)
    return f"{percent}{NO_BREAK}%" if percent >= 1 else say("under{gap}1{gap}%", gap=NO_BREAK)


def share_in_hundredths(share: float) -> float | str:
    """The same for a cell that holds a number: whole hundredths, and words where there is no such number.

    >>> share_in_hundredths(0.9549), str(share_in_hundredths(0.999)).replace(NO_BREAK, " ")
    (0.95, 'over 99 %')
    """
    percent = _whole(share)
    return percent / 100 if 1 <= percent < 100 else whole_percent(share)


def times_in_words(count: int) -> str:
    """How often.

    >>> times_in_words(1), times_in_words(2), times_in_words(3)
    ('once', 'twice', '3 times')
    """
    if count == 1:
        return say("once")
    return say("twice") if count == 2 else say("{count} times", count=count)


def used_in_words(share: float) -> str:
    """A share of a life used, in whole per cent; it may well be more than the whole.

    >>> used_in_words(0.667).replace(NO_BREAK, " "), used_in_words(2.18).replace(NO_BREAK, " ")
    ('67 %', '218 %')
    """
    return f"{_whole(share)}{NO_BREAK}%"


def percent_band(low: float, high: float) -> str:
    """A band in whole per cent, kept inside 1 and 99.

    >>> percent_band(0.86, 0.934).replace(NO_BREAK, " "), percent_band(0.99, 0.9999).replace(NO_BREAK, " ")
    ('86 to 93 %', '99 %')
    """
    least, most = (min(max(_whole(share), 1), 99) for share in (low, high))
    if least == most:
        return f"{least}{NO_BREAK}%"
    return say("{least} to {most}{gap}%", least=least, most=most, gap=NO_BREAK)


def risk_in_words(in_100: float) -> str:
    """A small risk, given as cases in 100.

    >>> risk_in_words(1.6), risk_in_words(0.2), risk_in_words(99.9)
    ('about 2 in 100', 'less than 1 in 100', 'more than 99 in 100')
    """
    return _counted(_nearest(in_100), 100)


def risk_band(low: float, high: float) -> str:
    """The band of a small risk, both given as shares.

    >>> risk_band(0.012, 0.058), risk_band(0.001, 0.002), risk_band(0.001, 0.02)
    ('likely 1 to 6 in 100', 'likely less than 1 in 100', 'likely up to 2 in 100')
    """
    least, most = _whole(low), min(_whole(high), 99)
    if most < 1:
        return say("likely less than 1 in 100")
    if least < 1:
        return say("likely up to {most} in 100", most=most)
    if least < most:
        return say("likely {least} to {most} in 100", least=least, most=most)
    return say("likely {count} in 100", count=most)


def risk_count(in_100: float) -> str:
    """The same where "in 100" stands at the head of the column.

    >>> risk_count(1.6), risk_count(0.2)
    ('about 2', 'under 1')
    """
    count = _nearest(in_100)
    if count >= 100:
        return say("over 99")
    return say("about {count}", count=count) if count >= 1 else say("under 1")


def amount_in_words(amount: float | Decimal, unit: str) -> str:
    """An amount of service with its unit, thousands apart; parts of an hour keep one decimal below ten.

    >>> amount_in_words(2000, "mi"), amount_in_words(1, "h"), amount_in_words(7.5, "h")
    ('2,000 miles', '1 hour', '7.5 hours')
    """
    broken = amount < 10 and amount != round(amount)
    count = max(2, round(amount)) if broken else round(amount)
    return with_unit(say_figure(amount, 1 if broken else 0), unit, count)


def estimate_in_words(amount: float, unit: str) -> str:
    """An estimated amount of service: above a thousand to the nearest ten, for the evidence bears no more.

    >>> estimate_in_words(1337.4, "mi")
    '1,340 miles'
    """
    return amount_in_words(math.floor(amount / 10 + 0.5) * 10 if amount >= 1000 else amount, unit)


def listed(names: Sequence[str]) -> str:
    """Names in a row as one says them.

    >>> listed(["pistons", "rings", "pins"])
    'pistons, rings and pins'
    >>> listed(["shaft, bearing, impeller", "rings", "pins"])
    'shaft, bearing, impeller; rings and pins'
    """
    if len(names) < 2:
        return "".join(names)
    return say("{names} and {last}", names=joined(names[:-1]), last=names[-1])


def joined(names: Sequence[str]) -> str:
    """Names one after the other, told apart even where one of them holds commas itself."""
    return ("; " if any(", " in name for name in names) else ", ").join(names)


def _whole(share: float) -> int:
    return _nearest(share * 100)


def _nearest(count: float) -> int:
    return math.floor(count + 0.5 + HAIR)


def first_large(words: str) -> str:
    """The same with a large first letter, for the head of a row.

    >>> first_large("piston ring set")
    'Piston ring set'
    """
    return words[:1].upper() + words[1:]
