"""python -m tests.photocopy [-o FOLDER] [GUIDE]...: copy every drawing and page, and report what was lost.

Each drawing is printed as large as in a packet, each sheet at true size, each page of the packets for
letter paper; all go three times through the copier.  The report has a thumbnail of everything that the
copies spoiled.
"""

from __future__ import annotations

import argparse
import sys
from collections import Counter
from collections.abc import Iterator
from html import escape
from itertools import islice
from pathlib import Path
from tempfile import TemporaryDirectory

from PIL import Image

from builder.drawings.catalogue import everything
from builder.drawings.shapes import Drawing
from builder.dryrun.kinds import VERBS
from builder.dryrun.run import run_all
from builder.guide.reader import read_guide
from builder.packet.command import print_packets
from builder.packet.sizing import SCALE
from tests.photocopy.copying import DOTS, copied, drawn
from tests.photocopy.lines import faults
from tests.photocopy.reading import Label, cut_out, dimensions, there, unread, words_read

GUIDES = Path(__file__).resolve().parents[2] / "guides"


def drawings(folder: Path) -> Iterator[tuple[str, Drawing, float]]:
    """Every drawing of a guide's first route with its name and the scale at which it is printed."""
    guide = read_guide(folder, VERBS)
    for entry in everything(guide, run_all(guide)[0]):
        for n, drawing in enumerate(entry.drawings, 1):
            yield f"{entry.kind} {entry.name} ({n})", drawing, 1.0 if drawing.true_size else SCALE


def pages(folder: Path) -> Iterator[tuple[str, Image.Image, list[str]]]:
    """Every page of a guide's packets as a picture, with the words that it holds."""
    import pypdfium2

    with TemporaryDirectory() as place:
        for path in print_packets(folder, 24, "10%", "letter", (), Path(place)):
            if path.suffix != ".pdf":
                continue
            book = pypdfium2.PdfDocument(path)
            for number, page in enumerate(book, 1):
                words = page.get_textpage().get_text_range().split()
                yield f"{path.stem} page {number}", page.render(scale=DOTS / 72).to_pil().convert("L"), words
            book.close()


def main() -> int:
    parser = argparse.ArgumentParser(prog="python -m tests.photocopy", description=__doc__)
    parser.add_argument("guides", nargs="*", type=Path, default=sorted(GUIDES.glob("*/guide.yml")))
    parser.add_argument("-o", "--output", type=Path, default=Path("photocopy"))
    parser.add_argument(
        "--pages", type=int, default=0, help="so many pages of each guide's packets too (slow)"
    )
    asked = parser.parse_args()
    asked.output.mkdir(parents=True, exist_ok=True)
    rows: list[str] = []
    lost: Counter[str] = Counter()
    read = wrong = looked = 0
    for path in asked.guides:
        folder = path.parent if path.is_file() else path
        labels: list[Label] = []
        for name, drawing, scale in drawings(folder):
            picture = drawn(drawing, scale)
            copy = copied(picture, scale)
            found = faults(drawing, copied(picture, scale, 0), copy)
            looked += 1
            labels += cut_out(drawing, copy, dimensions(drawing))
            if found:
                lost.update(f"{f.line} {f.what}" for f in found)
                what = "; ".join(f"{f.line} {f.what} ({f.share:.0%} left)" for f in found)
                rows.append(row(asked.output, f"{folder.name}: {name}", what, copy.image()))
        if there():
            missed = unread(labels)
            read, wrong = read + len(labels), wrong + len(missed)
            for text, got in missed:
                image = next(label.image for label in labels if label.text == text)
                rows.append(row(asked.output, f"{folder.name}: label {text}", f"read as {got!r}", image))
        if asked.pages:
            for name, picture, words in islice(pages(folder), asked.pages):
                copy = copied(picture)
                known, of = words_read(copy, words) if there() else (0, 0)
                what = f"{known} of {of} words are read"
                rows.append(row(asked.output, f"{folder.name}: {name}", what, copy.image()))
    told = f"{looked} drawings; lines spoiled: {dict(lost) or 'none'}; labels read: {read - wrong} of {read}"
    body = "".join(rows) or "<p>Nothing was lost.</p>"
    report = asked.output / "report.html"
    report.write_text(
        f"<!doctype html><html lang=en><meta charset=utf-8><title>Photocopy proof</title>"
        f"<h1>Three generations</h1><p>{escape(told)}</p><table>{body}</table></html>",
        encoding="utf-8",
    )
    print(told)
    print(report.as_posix())
    return int(bool(lost) or wrong > read / 100)


def row(folder: Path, name: str, what: str, image: Image.Image) -> str:
    """A row of the report with a thumbnail."""
    number = len(list(folder.glob("*.png"))) + 1
    small = image.copy()
    small.thumbnail((700, 500))
    small.save(folder / f"{number:03}.png")
    cell = f"<td>{escape(name)}<td>{escape(what)}<td><img src={number:03}.png alt=''>"
    return f"<tr>{cell}</tr>"


if __name__ == "__main__":
    sys.exit(main())
