"""A photocopier of the tests: a picture is copied three times, each copy from the one before.

Each generation is turned to grey, then to black and white at half, blurred a little by the copier's eye, and
made 97 % of its size.  300 dots an inch.  The last one is looked at in black and white.
"""

from __future__ import annotations

from io import BytesIO
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray
from PIL import Image, ImageFilter

from builder.drawings.raster import png
from builder.drawings.shapes import Drawing
from builder.drawings.svg import write

DOTS = 300
"""Dots an inch."""

SHRINK = 0.97
"""Size of a copy over that of what was copied."""

GENERATIONS = 3

BLUR = 0.5
"""Standard deviation of the blur of the copier's eye, dots: half of what it can tell apart."""

HALF = 128


class Copy(NamedTuple):
    """A copied picture, True where it is black, and how many of its dots are a millimetre of the original,
    across and down: a copy is a whole number of dots wide and high, so that the two differ by a little, which
    at the foot of a tall drawing is more than a line."""

    black: NDArray[np.bool_]
    dots_per_mm: float
    down_per_mm: float

    def image(self) -> Image.Image:
        return Image.fromarray(np.where(self.black, 0, 255).astype(np.uint8))


def drawn(drawing: Drawing, scale: float) -> Image.Image:
    """A drawing as it is printed, in grey, 300 dots an inch."""
    data = png(write(drawing), dots_per_inch=DOTS * scale)
    return Image.open(BytesIO(data)).convert("L")


def copied(picture: Image.Image, scale: float = 1.0, generations: int = GENERATIONS) -> Copy:
    """A picture after so many generations; `scale` is that at which it is printed."""
    grey = picture.convert("L")
    if not generations:
        black = np.asarray(grey) < HALF
        return Copy(black, DOTS / 25.4 * scale, DOTS / 25.4 * scale)
    for _ in range(generations):
        grey = grey.filter(ImageFilter.GaussianBlur(BLUR))
        size = (round(grey.width * SHRINK), round(grey.height * SHRINK))
        grey = grey.resize(size, Image.Resampling.BICUBIC)
        grey = grey.point([0 if v < HALF else 255 for v in range(256)])
    black = np.asarray(grey) < HALF
    per_mm = DOTS / 25.4 * scale
    return Copy(black, per_mm * grey.width / picture.width, per_mm * grey.height / picture.height)
