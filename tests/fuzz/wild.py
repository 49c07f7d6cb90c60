"""Values that nobody types and that programs send: for fields, addresses and JSON."""

from __future__ import annotations

from typing import Any

from hypothesis import strategies as st

NUMBERS = (
    "0",
    "-1",
    "-0",
    "1e3",
    "1E400",
    "-1e-400",
    "1e9999999",
    "NaN",
    "sNaN",
    "Infinity",
    "-inf",
    "0x10",
    "1_000",
    "1,5",
    "1.234.567,89",
    "12.345",
    "0.00000000000000000001",
    "2147483648",
    "9223372036854775807",
    "9223372036854775808",
    "99999999999999999999999999999999",
    "-99999999999999",
    "9" * 5000,
    "\u0661\u0662\u0663",  # digits of another script, which int() and Decimal() take
    "\u00b2",
    "½",
    " 7 ",
    "+7",
    "7.",
    ".7",
)
DAYS = (
    "0001-01-01",
    "0000-00-00",
    "9999-12-31",
    "10000-01-01",
    "2026-02-30",
    "2026-13-01",
    "1899-12-31",
    "2026-W01-1",
    "20261127",
    "2026-11-27T25:61",
    "0001-01-01T00:00",
    "9999-12-31T23:59",
    "tomorrow",
    "25:00",
    "23:59:60",
)
WORDS = (
    "",
    " ",
    "\t\r\n",
    "\x00",
    "before\x00after",
    "\x01\x1b[31m\x7f\x85",
    "\ufeffmark",
    "\u202egnp.exe",
    "a\u0301\u0316\u0489" * 40,
    "\U0001f3cd\ufe0f\u200d\U0001f527",
    "\ufffe\uffff",
    "\ufb01 \u017f \u0130 \u0131 ß \u1e9e",
    "\u2028\u2029",
    "x" * 70_000,
    "W" * 260,
    "=1+1",
    "@SUM(A1)",
    "<script>alert(1)</script>",
    "&lt;b&gt; \"'`",
    "' OR 1=1 --",
    "%s %d %(name)s {0} {{ x }} {% now %}",
    "../../../../etc/passwd",
    "..\\..\\windows",
    "file:///etc/passwd",
    "None",
    "null",
    "true",
    "[]",
    "{}",
    '{"a": 1}',
    "on",
    "undefined",
    "00000000-0000-0000-0000-000000000000",
    "{12345678-1234-5678-1234-567812345678}",
    "not-a-uuid",
    "-1-",
    "7-8-9",
    "99999999999999999999-1",
    "javascript:alert(1)",
    "https://elsewhere.example/",
    "//elsewhere.example/",
    "a@b",
    "a@" + "b" * 300 + ".example",
)
LONE = ("\ud800", "\udfff", "a\udc80b")
"""Halves of characters: JSON carries them, forms do not."""

numbers = st.sampled_from(NUMBERS)
days = st.sampled_from(DAYS) | st.dates().map(str)
words = st.sampled_from(WORDS) | st.text(st.characters(exclude_categories=["Cs"]), max_size=40)
anything = st.one_of(numbers, days, words)

ADDRESS_NUMBERS = ("0", "1", "2147483648", "9223372036854775807", "9223372036854775808", "9" * 60, "9" * 5000)
ADDRESS_WORDS = (
    "-1",
    "\x00",
    "a\x00b",
    "..",
    "../..",
    "%",
    "%s",
    "é",
    "\U0001f3cd",
    "x" * 3000,
    " ",
    "four600",
)
in_address = st.one_of(
    st.sampled_from(ADDRESS_NUMBERS),
    st.integers(0, 2**40).map(str),
    st.sampled_from(ADDRESS_WORDS),
    st.text(st.characters(exclude_categories=["Cs"], exclude_characters="/"), min_size=1, max_size=20),
)

json_leaves: st.SearchStrategy[Any] = st.one_of(
    st.none(),
    st.booleans(),
    st.integers(-(10**30), 10**30),
    st.sampled_from([0, -1, 1.5, 1e308, -1e-308, float("nan"), float("inf"), float("-inf"), 10**400]),
    numbers,
    days,
    words,
    st.sampled_from(LONE),
)
json_values = st.recursive(
    json_leaves,
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(words, inner, max_size=3),
    max_leaves=5,
)
