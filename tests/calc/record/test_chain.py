"""Whatever is done to the record of changes afterwards is found by looking the chain through."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from quotes.calc.record.chain import START, ChainEntry, Head, Told, chain_faults, digest_of, erased
from quotes.calc.record.leaf_changes import told_changes

Rows = list[tuple[ChainEntry, dict[str, Told] | None]]
SAID = st.dictionaries(st.sampled_from(["amount", "name", "note"]), st.text(max_size=5), min_size=1)
CHAINS = st.lists(SAID, min_size=3, max_size=7)
FEW = settings(max_examples=40)
HASHED = [name for name in ChainEntry.__slots__ if name != "number"]


def chain(says: Sequence[dict[str, str]]) -> tuple[Rows, Head]:
    rows: Rows = []
    head = Head(0, START)
    for words in says:
        told: dict[str, Told] = {field: [None, value, f"salt{head.count}"] for field, value in words.items()}
        entry = ChainEntry(
            head.count + 1, "2026-11-27T09:00:00+00:00", "person", "1", "changed",
            "quotes.customer", "7", "", "", digest_of(told), head.hash,
        ).chained()  # fmt: skip
        rows.append((entry, told))
        head = Head(entry.number, entry.hash)
    return rows, head


def faults(rows: Rows, head: Head | None) -> list[str]:
    return [str(fault) for found in chain_faults(rows, head) for fault in found]


@FEW
@given(CHAINS)
def test_a_chain_as_it_was_written_is_sound(says: list[dict[str, str]]) -> None:
    assert faults(*chain(says)) == []


@FEW
@given(CHAINS, st.data())
def test_any_changed_letter_of_an_entry_is_found(says: list[dict[str, str]], data: st.DataObject) -> None:
    rows, head = chain(says)
    place = data.draw(st.integers(0, len(rows) - 1))
    name = data.draw(st.sampled_from(HASHED))
    entry, told = rows[place]
    text = getattr(entry, name)
    at = data.draw(st.integers(0, len(text)))
    spoiled = text[:at] + data.draw(st.characters(exclude_characters=text[at : at + 1])) + text[at + 1 :]
    rows[place] = (replace(entry, **{name: spoiled}), told)
    assert faults(rows, head)


@FEW
@given(CHAINS, st.data())
def test_a_value_told_otherwise_is_found(says: list[dict[str, str]], data: st.DataObject) -> None:
    rows, head = chain(says)
    place = data.draw(st.integers(0, len(rows) - 1))
    entry, told = rows[place]
    assert told is not None
    field = data.draw(st.sampled_from(sorted(told)))
    rows[place] = (entry, {**told, field: [None, f"{told[field][1]}!", told[field][2]]})
    assert any(f"Change {entry.number}: digest of what it says" in fault for fault in faults(rows, head))


@FEW
@given(CHAINS, st.data())
def test_an_entry_written_anew_with_a_hash_that_fits_is_missed_by_the_next(
    says: list[dict[str, str]], data: st.DataObject
) -> None:
    rows, head = chain(says)
    place = data.draw(st.integers(0, len(rows) - 2))
    entry, told = rows[place]
    rows[place] = (replace(entry, by_id="2").chained(), told)
    (fault,) = faults(rows, head)
    assert fault.startswith(f"Change {entry.number + 1}: hash of the entry before it: ")


@FEW
@given(CHAINS, st.data())
def test_any_entry_cut_out_is_found(says: list[dict[str, str]], data: st.DataObject) -> None:
    rows, head = chain(says)
    del rows[data.draw(st.integers(0, len(rows) - 1))]
    assert faults(rows, head)


@FEW
@given(CHAINS, st.data())
def test_two_entries_in_each_others_place_are_found(says: list[dict[str, str]], data: st.DataObject) -> None:
    rows, head = chain(says)
    one, other = data.draw(st.sampled_from([(a, b) for a in range(len(rows)) for b in range(a)]))
    (first, first_told), (second, second_told) = rows[one], rows[other]
    rows[one] = (replace(second, number=first.number), second_told)
    rows[other] = (replace(first, number=second.number), first_told)
    assert faults(rows, head)


@FEW
@given(CHAINS, st.data())
def test_a_tail_cut_off_is_missed_by_the_head(says: list[dict[str, str]], data: st.DataObject) -> None:
    rows, head = chain(says)
    left = rows[: data.draw(st.integers(0, len(rows) - 1))]
    assert f"Record of changes: its last entry: expected number {len(rows)}, found number {len(left)}" in (
        faults(left, head)
    )


@FEW
@given(CHAINS, st.data())
def test_an_erased_value_is_gone_and_the_chain_stands(
    says: list[dict[str, str]], data: st.DataObject
) -> None:
    rows, head = chain(says)
    place = data.draw(st.integers(0, len(rows) - 1))
    entry, told = rows[place]
    assert told is not None
    field = data.draw(st.sampled_from(sorted(told)))
    left = erased(told, [field])
    rows[place] = (entry, left)
    assert isinstance(left[field], str)
    assert told[field][2] not in str(left[field])
    assert faults(rows, head) == []


def test_a_tail_forged_from_a_changed_entry_on_is_missed_by_a_head_noted_down_elsewhere() -> None:
    _, noted = chain([{"amount": "100"}, {"amount": "120"}])
    forged, _ = chain([{"amount": "100"}, {"amount": "12"}])
    assert any("hash of its last entry" in fault for fault in faults(forged, noted))


def test_words_that_are_gone_altogether_are_a_fault() -> None:
    rows, head = chain([{"amount": "100"}])
    assert "found nothing" in faults([(rows[0][0], None)], head)[0]


@pytest.mark.parametrize(
    ("before", "after", "told"),
    [
        ("a", "a", {}),
        ("a", "b", {"is": ("a", "b")}),
        ({"a": 1, "b": {"c": 2}}, {"a": 1, "b": {"c": 3}}, {"is.b.c": (2, 3)}),
        ({"a": 1}, {"a": 1, "b": 2}, {"is.b": (None, 2)}),
        ([1, 2], [1], {"is.2": (2, None)}),
        (None, {"a": 1}, {"is": (None, {"a": 1})}),
    ],
)
def test_what_differs_is_told_leaf_by_leaf(before: object, after: object, told: dict[str, object]) -> None:
    assert told_changes("is", before, after) == told


def test_a_value_too_long_to_be_told_is_told_by_its_fingerprint() -> None:
    (pair,) = told_changes("note", "", "x" * 5000).values()
    assert pair[1].startswith("5,000 characters, SHA-256 ")
