"""What no language but English says yet. Both lists only grow shorter."""

from __future__ import annotations

TO_TRANSLATE: dict[str, int] = {}
"""How many texts of an area wait for a translation."""

NOT_YET: set[str] = set()
"""Templates with words that no translation reaches."""
