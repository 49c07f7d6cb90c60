"""A text is copied with other names, other numbers and its days moved together."""

from __future__ import annotations

from datetime import date

from quotes.calc.years.template import Template, template

NAMES = {"Q-2027-0001": "quote", "q 2027 0001": "quote folded", "Ada Roe": "name"}


def made(text: str, days: int = 0, **texts: str) -> str:
    found = template(text, NAMES)
    assert isinstance(found, Template)
    return found.filled(texts, days)


def test_names_and_numbers_stand_in_their_places() -> None:
    said = made("Q-2027-0001 for Ada Roe", quote="Q-2019-0457", name="Bero Tamavik")
    assert said == "Q-2019-0457 for Bero Tamavik"


def test_days_move_together_over_the_end_of_a_year() -> None:
    moved = made('{"from":"2026-12-30","to":"2027-01-02"}', days=3)
    assert moved == '{"from":"2027-01-02","to":"2027-01-05"}'


def test_a_moment_moves_by_its_day() -> None:
    assert made("2026-03-01 12:00:00", days=-1) == "2026-02-28 12:00:00"


def test_a_number_is_no_day() -> None:
    assert template("X-2026-01-01", NAMES) == "X-2026-01-01"
    assert template("12026-01-01", NAMES) == "12026-01-01"


def test_what_has_no_place_stays_a_text() -> None:
    assert template("valve springs", NAMES) == "valve springs"


def test_the_days_are_those_of_the_calendar() -> None:
    assert made("2028-02-28", days=1) == date(2028, 2, 29).isoformat()
