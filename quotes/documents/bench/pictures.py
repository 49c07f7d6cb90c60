"""A camera's picture made fit to keep: decoded, turned upright, scaled down, and freed of what came with it.

The picture is drawn anew from its pixels, so that place, camera and anything hidden in the file stay behind.
"""

from __future__ import annotations

import warnings
from dataclasses import dataclass
from io import BytesIO

from PIL import Image, ImageOps, UnidentifiedImageError

from catalogue.calc.said import say, say_figure

MOST_BYTES = 20 * 1024 * 1024
MOST_PIXELS = 60_000_000
"""Sixty megapixels: more than a camera of the bench has, and less than memory would choke on."""
LARGE_PX = 1600
SMALL_PX = 320
QUALITY = 82
FORMATS = ("JPEG", "PNG", "WEBP")


class NotAPicture(ValueError):
    """What came can't be kept as a picture; the text says what is wrong and what is allowed."""


@dataclass(frozen=True, slots=True)
class Pictures:
    """JPEG files: one to look at (longest side 1600 px or less), one for lists (320 px)."""

    large: bytes
    small: bytes


def pictures_of(content: bytes) -> Pictures:
    """Both sizes of what a camera wrote; NotAPicture where it can't be had."""
    if len(content) > MOST_BYTES:
        raise NotAPicture(
            say(
                "The picture has {count} bytes: {most} or less are taken.",
                count=say_figure(len(content), 0),
                most=say_figure(MOST_BYTES, 0),
            )
        )
    upright = _upright(content)
    return Pictures(large=_jpeg(upright, LARGE_PX), small=_jpeg(upright, SMALL_PX))


def _upright(content: bytes) -> Image.Image:
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")  # Pillow's own word on size and on broken EXIF; ours follows.
            with Image.open(BytesIO(content), formats=FORMATS) as opened:
                _refuse_size(opened)
                opened.draft("RGB", (LARGE_PX, LARGE_PX))  # Lets a JPEG be decoded at a smaller scale.
                opened.load()
                return _on_white(ImageOps.exif_transpose(opened))
    except NotAPicture:
        raise
    except UnidentifiedImageError:
        raise NotAPicture(say("This is no picture that can be read: JPEG, PNG or WebP are taken.")) from None
    except (OSError, SyntaxError, ValueError, Image.DecompressionBombError):
        raise NotAPicture(say("The picture is broken: take it again. JPEG, PNG or WebP are taken.")) from None


def _refuse_size(opened: Image.Image) -> None:
    """Said by the file's head, before anything is unpacked."""
    wide, high = opened.size
    if wide * high > MOST_PIXELS:
        raise NotAPicture(
            say(
                "The picture has {wide} by {high} points: {most} points together or less are taken.",
                wide=say_figure(wide, 0),
                high=say_figure(high, 0),
                most=say_figure(MOST_PIXELS, 0),
            )
        )


def _on_white(picture: Image.Image) -> Image.Image:
    """In three colours; what is see-through stands on white."""
    if picture.mode in ("RGBA", "LA", "PA") or "transparency" in picture.info:
        ground = Image.new("RGBA", picture.size, "white")
        return Image.alpha_composite(ground, picture.convert("RGBA")).convert("RGB")
    return picture.convert("RGB")


def _jpeg(upright: Image.Image, longest: int) -> bytes:
    """Redrawn into a file that holds pixels only."""
    scaled = upright.copy()
    scaled.thumbnail((longest, longest), Image.Resampling.LANCZOS)
    bare = Image.new("RGB", scaled.size)
    bare.paste(scaled)
    out = BytesIO()
    bare.save(out, "JPEG", quality=QUALITY, optimize=True)
    return out.getvalue()
