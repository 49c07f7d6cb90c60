"""Pictures from a camera: upright, scaled, bare, and nothing that would break the workshop's machine."""

from __future__ import annotations

from io import BytesIO
from typing import Any

import pytest
from PIL import Image

from quotes.documents.bench.pictures import NotAPicture, pictures_of

GPS, ORIENTATION = 0x8825, 0x0112


def photo(wide: int = 40, high: int = 20, *, turned: int = 1, kind: str = "JPEG", mode: str = "RGB") -> bytes:
    """Left half red, right half blue, with a place in it; `turned` by the number that cameras write."""
    picture = Image.new(mode, (wide, high), "red" if mode != "RGBA" else (0, 0, 0, 0))
    if mode == "RGB":
        picture.paste("blue", (wide // 2, 0, wide, high))
    exif: Any = Image.Exif()
    exif[ORIENTATION] = turned
    exif.get_ifd(GPS)[1] = "N"
    exif.get_ifd(GPS)[2] = (52.0, 9.0, 21.0)
    out = BytesIO()
    picture.save(out, kind, exif=exif, **({"comment": b"someone's words"} if kind == "JPEG" else {}))
    return out.getvalue()


def opened(content: bytes) -> Image.Image:
    return Image.open(BytesIO(content))


def test_what_the_camera_wrote_beside_the_picture_is_gone() -> None:
    assert opened(photo()).getexif().get_ifd(GPS)

    kept = opened(pictures_of(photo()).large)

    assert not kept.getexif()
    assert set(kept.info) <= {"jfif", "jfif_version", "jfif_unit", "jfif_density"}


@pytest.mark.parametrize(
    ("turned", "size", "red"),
    [(1, (40, 20), (2, 10)), (3, (40, 20), (37, 10)), (6, (20, 40), (10, 2)), (8, (20, 40), (10, 37))],
)
def test_a_picture_stands_upright_however_the_camera_was_held(
    turned: int, size: tuple[int, int], red: tuple[int, int]
) -> None:
    kept = opened(pictures_of(photo(turned=turned)).large)

    assert kept.size == size
    shade: Any = kept.getpixel(red)
    assert shade[0] > 200
    assert shade[2] < 60


def test_a_large_picture_is_kept_in_two_small_sizes() -> None:
    made = pictures_of(photo(3200, 1800))

    assert opened(made.large).size == (1600, 900)
    assert opened(made.small).size == (320, 180)


def test_a_small_picture_is_not_blown_up() -> None:
    assert opened(pictures_of(photo()).large).size == (40, 20)


@pytest.mark.parametrize(("kind", "mode"), [("PNG", "RGB"), ("WEBP", "RGB"), ("PNG", "RGBA"), ("JPEG", "L")])
def test_every_kind_becomes_a_jpeg(kind: str, mode: str) -> None:
    made = opened(pictures_of(photo(kind=kind, mode=mode)).large)

    assert (made.format, made.mode) == ("JPEG", "RGB")


def test_what_is_see_through_stands_on_white() -> None:
    shade: Any = opened(pictures_of(photo(kind="PNG", mode="RGBA")).large).getpixel((5, 5))

    assert min(shade) > 250


def test_more_points_than_memory_bears_are_refused_by_the_head_of_the_file() -> None:
    out = BytesIO()
    Image.new("1", (9000, 9000)).save(out, "PNG")

    assert len(out.getvalue()) < 20_000
    with pytest.raises(NotAPicture, match=r"9,000 by 9,000 points: 60,000,000"):
        pictures_of(out.getvalue())


def test_more_bytes_than_allowed_are_refused() -> None:
    with pytest.raises(NotAPicture, match=r"20,971,521 bytes: 20,971,520 or less"):
        pictures_of(bytes(20 * 1024 * 1024 + 1))


@pytest.mark.parametrize("content", [b"", b"<svg xmlns='x'/>", b"GIF89a", photo()[:400], b"%PDF-1.7"])
def test_what_is_no_whole_picture_is_refused(content: bytes) -> None:
    with pytest.raises(NotAPicture, match="JPEG, PNG or WebP are taken"):
        pictures_of(content)
