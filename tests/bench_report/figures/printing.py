"""WeasyPrint without being asked for more than a page."""

from __future__ import annotations

from typing import Any


def bare_pdf(html: str, style: str, **loading: Any) -> bytes:
    """The same HTML and style as a plain PDF, with the library's own loader unless another is given."""
    from weasyprint import CSS, HTML  # type: ignore[import-untyped]
    from weasyprint.text.fonts import FontConfiguration  # type: ignore[import-untyped]

    from quotes.documents.pdf import FONTS

    fonts, base = FontConfiguration(), FONTS.as_uri() + "/"
    sheet = CSS(string=style, base_url=base, font_config=fonts, **loading)
    content: bytes = HTML(string=html, base_url=base, **loading).write_pdf(
        stylesheets=[sheet], font_config=fonts
    )
    return content
