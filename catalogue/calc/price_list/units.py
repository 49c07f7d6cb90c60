"""The words with which price lists say what a price is for: a piece, a pair, a hundred, a pack of ten.

    >>> unit_in("Stück"), unit_in("per 100 pcs"), unit_in("pack of 10"), unit_in("shell pair")
    (Unit(name='each', priced_for=1, pack=1), Unit(name='each', priced_for=100, pack=1), \
Unit(name='each', priced_for=10, pack=10), Unit(name='shell pair', priced_for=1, pack=1))
"""

from __future__ import annotations

import re
from functools import lru_cache
from typing import NamedTuple

from catalogue.calc.search_key import search_key

_SAME: dict[str, tuple[str, ...]] = {
    "each": ("each", "ea", "pc", "pcs", "pce", "piece", "pieces", "unit", "units", "un", "no", "nos", "off",
             "st", "stk", "stck", "stuck", "stueck", "piece s", "pz", "pezzo", "pezzi", "ud", "uds", "u",
             "stuk", "stuks", "szt", "c62", "h87", "ks", "db"),
    "pair": ("pair", "pairs", "pr", "prs", "paar", "paire", "paires", "paio", "par", "pares"),
    "set": ("set", "sets", "kit", "kits", "satz", "sat", "jeu", "juego", "serie"),
    "metre": ("m", "mtr", "metre", "metres", "meter", "meters", "lfm", "lm"),
    "litre": ("l", "ltr", "litre", "litres", "liter"),
    "kg": ("kg", "kgs", "kilo", "kilogram", "kilogramm"),
}  # fmt: skip
_HUNDREDS = {"c": 100, "hundred": 100, "hundert": 100, "cent": 100, "dozen": 12, "dz": 12, "dutzend": 12,
             "thousand": 1000, "tausend": 1000, "mille": 1000}  # fmt: skip
_PACKS = ("pack", "packs", "pk", "pkt", "packet", "box", "bx", "bag", "carton", "ctn", "case", "pkg", "ve",
          "pckg", "packung", "beutel", "karton", "boite", "paquet", "caja", "conf", "er pack",
          "er packung")  # fmt: skip
"""Words of price lists without accents, case and marks. From memory, no source."""
_NAMES = {word: name for name, words in _SAME.items() for word in words}
_COUNTED = re.compile(r"(?:per |je |pro |par |a )?(?:(\d{1,5}) ?)?([^\d]*)")
_PACK = re.compile(
    r"(?:per |je |pro |par )?(?:(\d{1,5}) ?)?(.+?)(?: (?:of|a|zu|de|da|x))? ?(\d{1,5})?(?: ([^\d]+))?"
)


PACK = "pack"
"""The unit of a price for a whole pack, however many that holds."""


class Unit(NamedTuple):
    """What one price is for: so many of a unit, and what a pack holds. An unknown word is its own unit."""

    name: str
    priced_for: int = 1
    pack: int = 1


@lru_cache(maxsize=1000)
def unit_in(text: str) -> Unit:
    """What a unit's cell says."""
    words = search_key(text.replace("%", " 100 ").replace("\N{PER MILLE SIGN}", " 1000 "))
    if words in _NAMES:
        return Unit(_NAMES[words])
    if words in _PACKS:
        return Unit(PACK)
    if words in _HUNDREDS:
        return Unit("each", _HUNDREDS[words])
    if (pack := _PACK.fullmatch(words)) and pack[2] in _PACKS and bool(pack[1]) != bool(pack[3]):
        count = max(1, int(pack[1] or pack[3]))
        return Unit(_NAMES.get(pack[4] or "each", pack[4] or "each"), count, count)
    found = _COUNTED.fullmatch(words)
    if found and found[1] and (found[2].strip() in _NAMES or not found[2].strip()):
        return Unit(_NAMES.get(found[2].strip(), "each"), max(1, int(found[1])))
    return Unit(" ".join(text.split()))
