"""What a workshop starts from until its owner sets it: rates, markup and no tax.

Labour rates and markup: common practice, no source; the level is that of 2026, from memory.
"""

from __future__ import annotations

from decimal import Decimal
from types import MappingProxyType

from catalogue.calc.said import to_say
from quotes.calc.shop import LINE_KINDS, LineKind, MarkupBand, TaxCode

LABOUR_RATES = MappingProxyType(
    {
        "office": Decimal(110),
        "strip": Decimal(85),
        "clean": Decimal(85),
        "inspect": Decimal(110),
        "assemble": Decimal(110),
        "test": Decimal(150),
    }
)
"""Per hour, by kind of work: bench builder 110, strip and clean 85, dyno 150."""

MARKUP_BANDS = tuple(
    MarkupBand(cost_from=Decimal(cost), markup_pct=Decimal(markup))
    for cost, markup in ((0, 100), (10, 65), (50, 45), (150, 33), (400, 25), (1000, 18))
)

NO_TAX = TaxCode(code="none", category="O", components=(), reason=to_say("Tax has not been set up."))
NO_TAX_ON: MappingProxyType[LineKind, str] = MappingProxyType(dict.fromkeys(LINE_KINDS, NO_TAX.code))

TERMS = (
    to_say(
        "This quote holds for the engine, the parts and the service named in it. Before the strip-down the "
        "sum is a band; what the strip-down turns up is extra work, priced and agreed before it is done."
    ),
    to_say(
        "Work that would take the sum above what you agreed, by more than the limit that you signed, waits "
        "for your word."
    ),
    to_say(
        "The deposit is due at your yes. Parts made or ordered for you are not taken back. The balance is "
        "due before the engine leaves."
    ),
    to_say("Old parts are kept until you have fetched the engine, then disposed of unless you ask for them."),
    to_say(
        "Engines that are not fetched within 14 days of the word that they are ready are stored at the "
        "posted rate."
    ),
    to_say(
        "Engines built to be run hard wear by the hour. No life, power or result is promised, and use in "
        "competition is not under warranty unless we write so."
    ),
)
"""A text to start from: common practice, no source. What may be agreed follows the law of the place."""
