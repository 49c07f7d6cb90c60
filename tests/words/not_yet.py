"""What no language but English says yet. Both lists only grow shorter."""

from __future__ import annotations

TO_TRANSLATE: dict[str, int] = {
    "desk": 97,
    "bench": 454,
}
"""How many texts of an area wait for a translation."""

NOT_YET: set[str] = {
    "templates/catalogue/below.html",
    "templates/catalogue/change.html",
    "templates/catalogue/entry.html",
    "templates/catalogue/head.html",
    "templates/catalogue/home.html",
    "templates/catalogue/list.html",
    "templates/catalogue/pager.html",
    "templates/catalogue/sheets_nav.html",
    "templates/catalogue/tier.html",
    "templates/catalogue/values.html",
    "templates/catalogue/where_from.html",
    "templates/documents/bench/extra_work.html",
    "templates/documents/bench/findings.html",
    "templates/documents/bench/findings_readings.html",
    "templates/documents/bench/leave.html",
    "templates/documents/bench/logbook.html",
    "templates/documents/bench/order.html",
    "templates/documents/bench/receipt.html",
    "templates/documents/bench/record.html",
    "templates/documents/bench/release_note.html",
    "templates/documents/bench/running_in.html",
    "templates/documents/bench/works_order.html",
}
"""Templates with words that no translation reaches."""
