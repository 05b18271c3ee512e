"""What a copy of a whole page kept: lines that are gone, gaps that are filled, labels that cannot be read.

A page is looked at as a picture, so that nothing that is printed on it escapes: text, tables, symbols, codes.
"""

from __future__ import annotations

import hashlib
from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

import numpy as np
import pypdfium2
from numpy.typing import NDArray
from PIL import Image, ImageFilter, ImageOps

from tests.photocopy.copying import DOTS, HALF, Copy, copied
from tests.photocopy.reading import DIMENSION, MARGIN, PURE, Label

TILE = 12
"""A page is looked at in squares of so many dots, one millimetre."""

LOST = 10
"""So many dots of a square that were black and have nothing black beside them any more are a lost line."""

FILLED = 10
"""So many dots of a square that lay in a gap and are black now are a merged line."""

MOVED = 2
"""An edge may move by so many dots, half of one in each generation and as much by the resampling: the flank
of a stroke that has become thinner is no lost line, that of a wider one no filled gap."""

TOUCHED = 0.25
"""A dot of the copy was black if so much of it was: of a line one dot wide, each of two rows has a half."""

LONGEST = 24
"""A text of more letters is no label."""

FOOT = 14.0
"""Page number and mark stand in the lowest part of a page, mm: the rest tells whether two pages are alike."""


class Page(NamedTuple):
    """A page of a packet: its name, its picture in grey, its texts with their boxes in dots, its words."""

    name: str
    picture: Image.Image
    texts: tuple[tuple[str, tuple[float, float, float, float]], ...]
    words: tuple[str, ...]


class Spoiled(NamedTuple):
    """What a copy spoiled: "lost" or "merged", and the box of it in the copy, dots."""

    what: str
    box: tuple[int, int, int, int]


def pages_of(path: Path, seen: set[str]) -> Iterator[Page]:
    """Every page of a PDF that shows something which no page `seen` shows."""
    book = pypdfium2.PdfDocument(path)
    for number, page in enumerate(book, 1):
        picture = page.render(scale=DOTS / 72).to_pil().convert("L")
        body = picture.crop((0, 0, picture.width, picture.height - round(FOOT * DOTS / 25.4)))
        mark = hashlib.sha256(body.tobytes()).hexdigest()
        if mark in seen:
            continue
        seen.add(mark)
        told = page.get_textpage()
        k, high = DOTS / 72, page.get_height()
        texts = []
        for i in range(told.count_rects()):
            left, bottom, right, top = told.get_rect(i)
            text = " ".join(told.get_text_bounded(left, bottom, right, top).split())
            texts.append((text, (left * k, (high - top) * k, right * k, (high - bottom) * k)))
        yield Page(f"{path.stem} page {number}", picture, tuple(texts), tuple(told.get_text_range().split()))
    book.close()


def spoiled(first: Copy, copy: Copy) -> list[Spoiled]:
    """Where a copy lost a line or filled a gap, neighbouring squares as one; `first` is the page."""
    size = (copy.black.shape[1], copy.black.shape[0])
    share = np.asarray(first.image().resize(size, Image.Resampling.BOX))
    was_black, was_white = share < 255 - 255 * TOUCHED, _eroded(share == 255)
    gone = was_black & ~_grown(copy.black)
    filled = was_white & copy.black
    found = []
    for what, mask, least in (("lost", gone, LOST), ("merged", filled, FILLED)):
        found += [Spoiled(what, box) for box in _places(mask, least)]
    return found


def _grown(black: NDArray[np.bool_], by: int = 2 * MOVED + 1) -> NDArray[np.bool_]:
    """A mask with its neighbours, as far as an edge may move."""
    image = Image.fromarray(np.where(black, 255, 0).astype(np.uint8))
    return np.asarray(image.filter(ImageFilter.MaxFilter(by))) > HALF


def _eroded(white: NDArray[np.bool_]) -> NDArray[np.bool_]:
    """A mask without its rim."""
    return ~_grown(~white)


def _places(mask: NDArray[np.bool_], least: int) -> Iterator[tuple[int, int, int, int]]:
    """Boxes round the squares that hold so many dots of a mask; squares that touch are one."""
    high, wide = (-(-n // TILE) for n in mask.shape)
    padded = np.zeros((high * TILE, wide * TILE), bool)
    padded[: mask.shape[0], : mask.shape[1]] = mask
    counts = padded.reshape(high, TILE, wide, TILE).sum(axis=(1, 3))
    left = {(int(y), int(x)) for y, x in np.argwhere(counts >= least)}
    for start in sorted(left):
        if start not in left:
            continue
        left.discard(start)
        group, waiting = [start], [start]
        while waiting:
            y, x = waiting.pop()
            for near in [(y + dy, x + dx) for dy in (-1, 0, 1) for dx in (-1, 0, 1)]:
                if near in left:
                    left.discard(near)
                    group.append(near)
                    waiting.append(near)
        ys, xs = [y for y, _ in group], [x for _, x in group]
        yield min(xs) * TILE, min(ys) * TILE, (max(xs) + 1) * TILE, (max(ys) + 1) * TILE


def labels(page: Page, copy: Copy) -> list[Label]:
    """The dimensions that stand by themselves on a page, in drawings and tables, cut out of its copy."""
    k, image = copy.black.shape[1] / page.picture.width, copy.image()
    off = round(MARGIN * DOTS / 25.4)
    found = []
    for text, (left, top, right, bottom) in page.texts:
        if len(text) <= LONGEST and DIMENSION.search(text) and PURE.fullmatch(text):
            box = (round(left * k) - 1, round(top * k) - 1, round(right * k) + 1, round(bottom * k) + 1)
            # white round it: what stands beside it in a sentence is no part of it
            found.append(Label(text, ImageOps.expand(image.crop(box), 4 * off, 255)))
    return found


def copies_of(page: Page) -> tuple[Copy, Copy]:
    """A page before it is copied, and after three generations."""
    return copied(page.picture, generations=0), copied(page.picture)
