"""Fixtures that the tests of the bench share: invoices are issued without their files being drawn."""

from __future__ import annotations

from tests.books.conftest import quick_files

__all__ = ["quick_files"]
