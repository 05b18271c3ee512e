"""Labels of a copy, read by the program tesseract: every label is cut out and stands by itself.

That is what a reader sees who looks at one label. The program is told nothing of what should be there.
"""

from __future__ import annotations

import os
import re
import shutil
import subprocess
from collections import Counter
from collections.abc import Iterable
from io import BytesIO
from typing import NamedTuple

from PIL import Image, ImageFilter

from builder.drawings.shapes import Drawing, Text
from tests.photocopy.copying import Copy

PROGRAM = "tesseract"

MARGIN = 0.15
"""Room round a label that is cut out, mm on paper."""

SLACK = 0.006
"""The share of its width by which a text may be printed wider than it was measured."""

ROW = 60
"""Dots between two labels."""

WIDE = 2000
"""A picture is about as wide as this, dots."""

PAGE = 40
"""So many labels are read from one picture."""

DIMENSION = re.compile(r"\d.*(?:mm|in\b|cm|m\b|°|ft)")
"""A text that is a dimension: a figure and a unit."""


ALPHABET = "0123456789/.()°±+inmcftaboux"
"""What a dimension is written with; the program is told so for labels of nothing else, since it takes a
figure 1 that stands alone for a letter l."""

PURE = re.compile(rf"[{re.escape(ALPHABET)}\s]+")


class Label(NamedTuple):
    """A label of a drawing, cut out of a copy."""

    text: str
    image: Image.Image


def there() -> bool:
    """True if the program is installed."""
    return shutil.which(PROGRAM) is not None


def dimensions(drawing: Drawing) -> list[Text]:
    """The texts of a drawing that are dimensions."""
    return [t for t in drawing.texts() if DIMENSION.search(t.text)]


def cut_out(drawing: Drawing, copy: Copy, texts: Iterable[Text]) -> list[Label]:
    """Labels as they look in a copy."""
    image = copy.image()
    found = []
    for text in texts:
        box = text.box().grown(MARGIN)
        # a long text is cut out a little too long rather than through its last letter
        box = box._replace(right=box.right + MARGIN + SLACK * box.width)
        left, right = (round(v * copy.dots_per_mm) for v in (box.left, box.right))
        top, bottom = (round(v * copy.down_per_mm) for v in (box.top, box.bottom))
        at = (max(left, 0), max(top, 0), min(right, image.width), min(bottom, image.height))
        found.append(Label(text.text, image.crop(at)))
    return found


def read(labels: list[Label]) -> list[str]:
    """What the program reads in each label; an empty text where it reads nothing."""
    found = [""] * len(labels)
    for pure in (True, False):
        some = [i for i, label in enumerate(labels) if bool(PURE.fullmatch(label.text)) == pure]
        for start in range(0, len(some), PAGE):
            page = some[start : start + PAGE]
            for i, text in zip(page, _page([labels[i] for i in page], pure), strict=True):
                found[i] = text
    return found


def _page(labels: list[Label], pure: bool, layout: str = "6") -> list[str]:
    """Labels in rows of several on one picture, and the words that lie in the place of each."""
    wide = max(label.image.width for label in labels) + ROW
    high = max(label.image.height for label in labels) + ROW
    across = max(1, min(len(labels), WIDE // wide))
    page = Image.new("L", (ROW + across * wide, ROW + -(-len(labels) // across) * high), 255)
    for i, label in enumerate(labels):
        page.paste(label.image, (ROW + i % across * wide, ROW + i // across * high))
    data = BytesIO()
    page.save(data, "PNG", dpi=(600, 600))
    alphabet = ["-c", f"tessedit_char_whitelist={ALPHABET} "] if pure else []
    result = subprocess.run(
        [PROGRAM, "stdin", "stdout", "--psm", layout, "--dpi", "600", "-l", "eng", *alphabet, "tsv"],
        input=data.getvalue(),
        capture_output=True,
        check=True,
        env={**os.environ, "OMP_THREAD_LIMIT": "1"},  # several threads on a busy machine only wait
    )
    found: list[list[str]] = [[] for _ in labels]
    for line in result.stdout.decode().splitlines()[1:]:
        cells = line.split("\t")
        if len(cells) == 12 and cells[11].strip():
            x, y = int(cells[6]) + int(cells[8]) / 2, int(cells[7]) + int(cells[9]) / 2
            i = int((y - ROW / 2) // high) * across + int((x - ROW / 2) // wide)
            if 0 <= i < len(found):
                found[i].append(cells[11])
    return [" ".join(words) for words in found]


def plain(text: str) -> str:
    """A label as far as it must be legible: figures, fractions, units, words.

    Whether two words stand apart, whether a letter is a capital and which bracket it is are no matter; i, l
    and 1 are one sign, and so are ± and +, since the program takes them for one another in a print that was
    never copied as well, however large.
    """
    return re.sub(r"[()\[\]{}|\s]", "", text).casefold().translate(str.maketrans("il±", "11+"))


def unread(labels: list[Label]) -> list[tuple[str, str]]:
    """Labels that the program reads in none of its looks, each with what it read at last."""
    left = labels
    wrong: list[tuple[str, str]] = []
    for number, look in enumerate(LOOKS):
        seen = [label._replace(image=look(label.image)) for label in left]
        alone = number == len(LOOKS) - 1
        got = [_page([label], False, "7")[0] for label in seen] if alone else read(seen)
        missed = [(a, text) for a, text in zip(left, got, strict=True) if plain(a.text) != plain(text)]
        left, wrong = [label for label, _ in missed], [(label.text, text) for label, text in missed]
    return wrong


def _enlarged(image: Image.Image) -> Image.Image:
    return image.resize((image.width * 3 // 2, image.height * 3 // 2), Image.Resampling.BICUBIC)


def _smoothed(image: Image.Image) -> Image.Image:
    larger = image.resize((image.width * 2, image.height * 2), Image.Resampling.BICUBIC)
    return larger.filter(ImageFilter.GaussianBlur(1))


LOOKS = (_enlarged, _smoothed, _smoothed)
"""The program is made for letters of 30 dots and more, a label of a copy has 20: it is looked at enlarged,
then with its edges smoothed, and at last as one line alone that may hold any letter."""


def words_read(copy: Copy, words: list[str]) -> tuple[int, int]:
    """How many words of a page are read in its copy, and of how many: words of three letters or figures and
    more, each as often as it stands there."""
    data = BytesIO()
    copy.image().save(data, "PNG", dpi=(300, 300))
    result = subprocess.run(
        [PROGRAM, "stdin", "stdout", "--psm", "3", "--dpi", "300", "-l", "eng"],
        input=data.getvalue(),
        capture_output=True,
        check=True,
        env={**os.environ, "OMP_THREAD_LIMIT": "1"},
    )
    seen = Counter(bare for word in result.stdout.decode().split() if (bare := _bare(word)))
    wanted = Counter(bare for word in words if (bare := _bare(word)))
    return (wanted & seen).total(), wanted.total()


def _bare(word: str) -> str:
    """A word without its stops, as `plain`; empty if it is short."""
    found = plain(re.sub(r"[^\w/°%-]", "", word))
    return found if len(found) > 2 else ""
