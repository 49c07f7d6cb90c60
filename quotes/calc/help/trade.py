"""The words of the trade that stand on the pages, explained for whoever is new."""

from __future__ import annotations

from quotes.calc.help.values import TradeWord

TRADE_WORDS: tuple[TradeWord, ...] = (
    TradeWord("Leave it", "The engine goes on as it is, with oil and filter at most."),
    TradeWord("Refresh", "What is worn is renewed; the engine stays in the tune that it has."),
    TradeWord("Mild, full power", "Builds that also change the tune: more power, for some of the life."),
    TradeWord("Tune", "How an engine is set up: compression, cams, revs. It decides loads, power and wear."),
    TradeWord("Duty", "What an engine is used for: sprint, endurance, motocross. Each wears it differently."),
    TradeWord(
        "Reference service", "Service turned into what wears as much on the reference duty in standard tune."
    ),
    TradeWord("Meeting", "One event of a season: practice and races of a weekend."),
    TradeWord("Strip-down", "Taking the engine apart to measure it. Only then is the price firm."),
    TradeWord("Teardown sheet", "What was measured and seen at the strip-down, part by part."),
    TradeWord("Finding", "Something seen at the strip-down that is not as it should be."),
    TradeWord(
        "Companions", "Parts that are renewed or looked at together with another, because they wear with it."
    ),
    TradeWord(
        "Lifed part", "A part with a serial number that keeps its own age when it moves between engines."
    ),
    TradeWord("Core", "A used part that goes back to the supplier against the sum held for it."),
    TradeWord(
        "Machine work", "Boring, grinding, plating: work that another shop does, under our works order."
    ),
    TradeWord("Cases split", "The crankcase halves parted: all of the bottom end can be reached."),
    TradeWord("Bottom end", "Crankshaft, rods and their bearings."),
    TradeWord(
        "Extra work", "Work found after the yes: offered with its price, done when the customer agrees."
    ),
    TradeWord(
        "Limit",
        "The most that may be spent without asking again. Of a part: the size at which it is worn out.",
    ),
    TradeWord("Running in", "The first gentle hours of a rebuilt engine, by the card that goes with it."),
    TradeWord("Comeback", "An engine that returns with a fault; the failure report says whose cost it is."),
    TradeWord("Band", "Low and high around a figure: 8 estimates of 10 lie within it."),
)
