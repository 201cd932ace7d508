"""A photo made small enough for paper, turned the way it was held, as plain dots."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from PIL import Image

MOST_DOTS = 1000  # along its longer side: 170 mm at 150 dots to the inch
_MOST_MILLIONS = 100


class Dots(NamedTuple):
    """A picture as RGB, row by row from the top. `of` is the size that it came in, as it was held."""

    width: int
    height: int
    rgb: bytes
    of: tuple[int, int]


def dots_of(path: str) -> Dots | str:
    """The picture in a file, or in words why it can't be shown.

    The same file gives the same dots: only whole numbers are computed with, and the picture is stored in the paper
    without loss, without what else its file holds (place, camera). Averages of blocks of dots, nothing finer.
    """
    from PIL import Image, ImageOps

    try:
        with Image.open(path, formats=("JPEG", "PNG")) as opened:
            if opened.width * opened.height > _MOST_MILLIONS * 1_000_000:
                return f"it has more than {_MOST_MILLIONS} million dots"
            held = ImageOps.exif_transpose(opened)
            by = -(-max(held.size) // MOST_DOTS)
            flat = _on_white(held)
            small = flat.reduce(by) if by > 1 else flat
            return Dots(small.width, small.height, small.tobytes(), held.size)
    except Exception:
        return "its picture can't be read: the file is broken"


def _on_white(picture: Image.Image) -> Image.Image:
    """RGB without see-through parts."""
    from PIL import Image

    if picture.mode.startswith("I"):  # 16 bits of grey, which `convert` would cut off at 255
        picture = picture.point(lambda value: value / 256).convert("L")
    if picture.mode in ("RGBA", "LA", "PA") or "transparency" in picture.info:
        over = picture.convert("RGBA")
        ground = Image.new("RGBA", over.size, (255, 255, 255, 255))
        ground.alpha_composite(over)
        return ground.convert("RGB")
    return picture.convert("RGB")
