"""Which column is what, guessed from the heads and from what stands below them."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence

from catalogue.calc.said import say, to_say
from catalogue.calc.search_key import search_key
from quotes.calc.books.bank_lines import ColumnsChosen
from quotes.imports.bank.figures import looks_like_day, looks_like_sum
from quotes.imports.bank.grid import Grid

WORDS: dict[str, tuple[str, ...]] = {
    "date": ("booking date", "transaction date", "posting date", "buchungstag", "buchungsdatum", "date",
             "posted", "datum", "fecha", "data", "value date", "valuta"),
    "money_in": ("paid in", "money in", "credit amount", "credit", "deposits", "haben", "credito", "in"),
    "money_out": ("paid out", "money out", "debit amount", "debit", "withdrawals", "soll", "debito", "out"),
    "amount": ("amount", "sum", "betrag", "umsatz", "montant", "importe", "importo", "bedrag", "kwota"),
    "payer": ("payer", "counterparty", "name", "sender", "from", "beneficiary", "auftraggeber", "nom",
              "nombre", "naam", "debtor", "zahlungspflichtiger"),
    "text": ("payment reference", "reference", "details", "description", "narrative", "memo", "particulars",
             "verwendungszweck", "libelle", "motif", "concepto", "causale", "omschrijving", "text"),
}  # fmt: skip
"""Heads of banks' files, the surest first, without accents and case. From memory, no source."""
NAMES = {"date": to_say("day"), "amount": to_say("sum"), "money_in": to_say("money in")}


def guessed_columns(grid: Grid) -> tuple[ColumnsChosen | None, tuple[str, ...]]:
    """The columns as far as heads and cells tell, and what is missing; None where anything must be chosen."""
    heads = [search_key(head) for head in grid.heads]
    taken: list[int] = []

    def find(key: str, fits: Iterable[int]) -> int | None:
        place = _named(heads, key, [one for one in fits if one not in taken])
        if place is not None:
            taken.append(place)
        return place

    everywhere = range(len(heads))
    days, sums = _fitting(grid, looks_like_day), _fitting(grid, looks_like_sum)
    day = find("date", days)
    amount = find("amount", sums)
    money_in = find("money_in", sums) if amount is None else None
    money_out = find("money_out", sums) if money_in is not None else None
    payer, text = find("payer", everywhere), find("text", everywhere)
    day = day if day is not None else _only([one for one in days if one not in taken])
    if amount is None and money_in is None:
        amount = _only([one for one in sums if one not in taken and one != day])
    found = {"date": day, "amount": money_in if amount is None else amount}
    missing = tuple(say(NAMES[key]) for key, place in found.items() if place is None)
    if day is None or missing:
        return None, missing
    chosen = ColumnsChosen(
        date=day,
        amount=amount,
        money_in=money_in,
        money_out=money_out,
        payer=payer,
        text=() if text is None else (text,),
    )
    return chosen, ()


def _named(heads: Sequence[str], key: str, places: Sequence[int]) -> int | None:
    """The column that bears one of the words whole, else as one of its words."""
    for word in WORDS[key]:
        for place in places:
            if heads[place] == word:
                return place
    for word in WORDS[key]:
        for place in places:
            if f" {word} " in f" {heads[place]} ":
                return place
    return None


def _fitting(grid: Grid, fits: Callable[[str], bool]) -> list[int]:
    """Columns in which at least half of the filled cells are of the sort."""
    found = []
    for place in range(len(grid.heads)):
        filled = [
            row.cells[place] for row in grid.rows if len(row.cells) > place and row.cells[place].strip()
        ]
        if filled and sum(fits(cell) for cell in filled) * 2 >= len(filled):
            found.append(place)
    return found


def _only(places: Sequence[int]) -> int | None:
    return places[0] if len(places) == 1 else None
