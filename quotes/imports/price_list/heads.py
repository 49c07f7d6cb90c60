"""The heads of a price list: over which lines they stand, and which column each of them names."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from itertools import zip_longest

from catalogue.calc.price_list.reading import Column
from catalogue.calc.search_key import search_key
from quotes.imports.price_list.limits import Line, Raw, raw_text

LOOKED_AT = 60
"""Among so many lines the heads are looked for."""
MOST_HEAD_LINES = 3
LONGEST_HEAD = 80
_WORDS: dict[Column, str] = {
    "superseded_by": (
        "superseded by, replaced by, successor, supersession, superseded, replacement, new part "
        "number, new number, ersetzt durch, nachfolger, nachfolgenummer, remplace par, sostituito da, "
        "sustituido por, vervangen door"
    ),
    "gtin": (
        "gtin, ean, ean code, ean13, gtin ean, barcode, bar code, upc, strichcode, code barres, codice ean"
    ),
    "list_price": (
        "list price, recommended retail price, retail price, rrp, msrp, srp, retail, gross price, "
        "listenpreis, uvp, bruttopreis, brutto, verkaufspreis, vk preis, vk, prix public, prix tarif, "
        "prezzo listino, listino, pvp, adviesprijs, list"
    ),
    "cost": (
        "net price, nett price, your price, dealer price, trade price, cost price, unit cost, cost, "
        "nettopreis, ek preis, einkaufspreis, handlerpreis, haendlerpreis, netto, ek, prix net, "
        "prezzo netto, precio neto, nettoprijs, net, unit price, einzelpreis, stuckpreis, price, "
        "preis, prix, prezzo, precio, prijs"
    ),
    "number": (
        "part number, part no, partno, part nr, article number, article no, item number, item no, "
        "item code, product code, stock code, order code, sku, mpn, artikelnummer, artikel nr, "
        "artikelnr, art nr, artnr, teilenummer, teile nr, bestellnummer, bestell nr, sachnummer, "
        "codice articolo, codice, codigo, referenz, reference, referencia, ref, part, code, number, "
        "nummer, numero, no, nr"
    ),
    "name": (
        "description, part name, name, designation, bezeichnung, artikelbezeichnung, benennung, "
        "beschreibung, descrizione, descripcion, denominacion, omschrijving, title, libelle, text, "
        "product, article, artikel"
    ),
    "priced_for": ("price unit, price per, price for, price basis, per, preiseinheit, pe, unite de prix"),
    "pack": (
        "pack size, pack qty, pack quantity, package qty, package quantity, qty per pack, in a pack, pack, "
        "verpackungseinheit, packungsgrosse, packung, ve, conditionnement, confezione"
    ),
    "unit": ("unit of measure, uom, unit, mengeneinheit, einheit, me, unite, unita, unidad, eenheid"),
    "lead_days": (
        "lead time, lead days, delivery time, delivery days, delivery, lieferzeit, delai, consegna, "
        "plazo, levertijd"
    ),
    "currency": ("currency, cur, ccy, wahrung, waehrung, devise, valuta, moneda"),
}
"""Heads of price lists, the surest first, without accents and case. From memory, no source."""
WORDS: dict[Column, tuple[str, ...]] = {column: tuple(words.split(", ")) for column, words in _WORDS.items()}


def heads_at(lines: Sequence[Line], first: int, count: int) -> tuple[str, ...]:
    """The heads over so many lines; one that spans several columns stands in each of them."""
    if not first:
        return ()
    over = [cells for number, cells in lines if first <= number < first + count]
    if not over:
        return ()
    width = max(map(len, over))
    spread = [_spread(cells) for cells in over[:-1]] + [[_head(raw) for raw in over[-1]]]
    joined = [" ".join(filter(None, words)) for words in zip_longest(*spread, fillvalue="")]
    return tuple((joined + [""] * width)[:width])


def named_columns(heads: Sequence[str]) -> dict[Column, int]:
    """The columns whose heads are known: first those that are a known word, then those that hold one."""
    keys = [search_key(head) for head in heads]
    found: dict[Column, int] = {}
    for whole in (True, False):
        for column, words in WORDS.items():
            taken = set(found.values())
            if column not in found:
                free = [(place, key) for place, key in enumerate(keys) if key and place not in taken]
                place = _bearing(free, words, whole)
                if place is not None:
                    found[column] = place
    return {column: found[column] for column in WORDS if column in found}


def _bearing(free: Sequence[tuple[int, str]], words: Iterable[str], whole: bool) -> int | None:
    for word in words:
        for place, key in free:
            if key == word if whole else f" {word} " in f" {key} ":
                return place
    return None


def found_heads(lines: Sequence[Line], is_price: Mapping[int, bool]) -> tuple[int, int]:
    """The line and the number of lines of the heads; 0 where there are none.

    They are the lines above the first price that name most columns. `is_price`: which lines hold one.
    """
    best, at = 0, (0, 1)
    looked = lines[:LOOKED_AT]
    for place, (number, _) in enumerate(looked):
        if is_price.get(number):
            break
        for count in range(1, MOST_HEAD_LINES + 1):
            over = looked[place : place + count]
            if len(over) < count or over[-1][0] != number + count - 1 or is_price.get(over[-1][0]):
                break
            named = named_columns(heads_at(over, number, count))
            weight = len(named) * 10 + 5 * ("number" in named) + 5 * ("cost" in named) - count
            if len(named) > 1 and weight > best:
                best, at = weight, (number, count)
    return at if best else (_last_words(looked, is_price), 1)


def _last_words(lines: Sequence[Line], is_price: Mapping[int, bool]) -> int:
    """The last line of words before the first price; 0 where there is none."""
    before = 0
    for number, cells in lines:
        if is_price.get(number):
            return before
        if sum(bool(_head(raw)) for raw in cells) > 1:
            before = number
    return 0


def _spread(cells: Sequence[Raw]) -> list[str]:
    spread, before = [], ""
    for raw in cells:
        before = _head(raw) or before
        spread.append(before)
    return spread


def _head(raw: Raw) -> str:
    """One line that can be seen and kept: a database takes no NUL."""
    text = " ".join(raw_text(raw).split())
    return "".join(filter(str.isprintable, text))[:LONGEST_HEAD]
