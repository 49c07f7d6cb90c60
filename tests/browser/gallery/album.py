"""The pages side by side in one file that needs nothing but a browser."""

from __future__ import annotations

from collections.abc import Sequence
from html import escape
from pathlib import Path

from tests.browser.gallery.shots import Photographed

HEAD = """<!doctype html><html lang="en"><head><meta charset="utf-8"><title>Every page</title><style>
body { font: 15px/1.4 sans-serif; margin: 2rem; } section { border-top: 1px solid #999; padding: 1rem 0; }
h2 { font-size: 1.1rem; margin: 0 0 .3rem; } .row { display: flex; gap: 1rem; align-items: flex-start; }
.row a { display: block; max-height: 26rem; overflow: hidden; border: 1px solid #bbb; }
img { display: block; width: 100%; }
.desk { width: 40%; } .tablet { width: 24%; } .phone { width: 12%; } .paper { width: 20%; }
li { font-family: monospace; font-size: 12px; } nav a { margin-right: .8rem; display: inline-block; }
</style></head><body>"""


def write_album(folder: Path, title: str, pages: Sequence[Photographed]) -> Path:
    """`index.html` of a folder of pictures."""
    links = "".join(f'<a href="#{escape(one.seen.name)}">{escape(one.seen.name)}</a>' for one in pages)
    body = "".join(_section(one) for one in pages)
    path = folder / "index.html"
    path.write_text(
        f"{HEAD}<h1>{escape(title)}: {len(pages)} pages</h1><nav>{links}</nav>{body}</body></html>"
    )
    return path


def _section(one: Photographed) -> str:
    name, seen = escape(one.seen.name), one.seen
    pictures = "".join(
        f'<a class="{size}" href="{file}"><img loading="lazy" src="{file}" alt="{name}, {size}"></a>'
        for size, file in one.pictures.items()
    )
    faults = "".join(f"<li>{escape(fault)}</li>" for fault in one.faults)
    told = f"<p>{escape(seen.address)}, {escape(seen.template)}</p>"
    head = f'<section id="{name}"><h2>{name}</h2>{told}<ul>{faults}</ul>'
    return f'{head}<div class="row">{pictures}</div></section>'
