"""What no language but English says yet. Both lists only grow shorter."""

from __future__ import annotations

TO_TRANSLATE: dict[str, int] = {
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
}
"""Templates with words that no translation reaches."""
