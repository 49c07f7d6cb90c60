"""Writes the table of rights into DEVELOPERS.md: `make rights-table`."""

from __future__ import annotations

from pathlib import Path

from quotes.queries.people import ROLES, Role
from quotes.queries.rights import ANYBODY, LINK, PARTS, RIGHTS, SIGNED_IN, Pages

FILE = Path(__file__).resolve().parent.parent.parent / "DEVELOPERS.md"
BEGIN, END = "<!-- rights: written by make rights-table -->", "<!-- end of rights -->"


def table() -> str:
    """A row for each group of pages, then one for each part."""
    heads = ["area", "pages", "objects", "nobody", *ROLES, "a customer's link"]
    pages = [_line(heads), _line(["---"] * len(heads)), *map(_pages, RIGHTS)]
    heads = ["on a page, or in an act", *ROLES]
    parts = [_line(heads), _line(["---"] * len(heads))]
    parts += [
        _line([part, *("yes" if role in who else "hidden" for role in ROLES)]) for part, who in PARTS.items()
    ]
    return "\n".join([*pages, "", *parts])


def _pages(row: Pages) -> str:
    names = ", ".join(f"`{name}`" for name in row.names.split())
    if row.who == LINK:
        open_to = ["nothing"] + ["nothing"] * len(ROLES) + ["own: open; another's: nothing"]
    else:
        open_to = [_nobody(row), *(_role(row, role) for role in ROLES), _nobody(row)]
    return _line([row.area, names, row.objects, *open_to])


def _nobody(row: Pages) -> str:
    return "open" if row.who == ANYBODY else "sign-in"


def _role(row: Pages, role: Role) -> str:
    if row.who in (ANYBODY, SIGNED_IN):
        return "open"
    if role not in row.who:
        return "refused"
    return "open" if row.posts is None or role in row.posts else "reads"


def _line(cells: list[str]) -> str:
    return f"| {' | '.join(cells)} |"


def with_table(text: str) -> str:
    """The text with the table between its marks."""
    before, rest = text.split(BEGIN)
    _, after = rest.split(END)
    return f"{before}{BEGIN}\n{table()}\n{END}{after}"


def main() -> None:
    """Writes the file where the table has changed."""
    text = FILE.read_text(encoding="utf-8")
    FILE.write_text(with_table(text), encoding="utf-8")
