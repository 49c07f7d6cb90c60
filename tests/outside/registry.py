"""Every number from outside that our sums are held against."""

from __future__ import annotations

from tests.outside import cuts, fits, laws, little_data, replacement_age, selection, tune

CHECKS = (
    *fits.CHECKS,
    *laws.CHECKS,
    *little_data.CHECKS,
    *replacement_age.CHECKS,
    *selection.CHECKS,
    *cuts.CHECKS,
    *tune.CHECKS,
)
