"""python -m tests.photocopy [-o FOLDER] [GUIDE]...: copy every drawing and page, and report what was lost.

Each drawing is printed as large as in a packet, each sheet at true size, and every page of the packets of
every route, for letter and A4; all go three times through the copier.  The report has a thumbnail of all that
the copies spoiled.  Pages take seconds each: `--no-pages` leaves them out; `--packets` takes those that were
printed into a folder before.
"""

from __future__ import annotations

import argparse
import sys
from collections import Counter
from collections.abc import Iterator
from html import escape
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
from tests.photocopy.copying import copied, drawn
from tests.photocopy.lines import faults
from tests.photocopy.pages import copies_of, labels, pages_of, spoiled
from tests.photocopy.reading import Label, cut_out, dimensions, there, unread, words_read

GUIDES = Path(__file__).resolve().parents[2] / "guides"

PAPERS = ("letter", "a4")

READ = 0.9
"""A page of which less than this share of the words is read by the program is shown in the report."""


class Report:
    """Rows of the report, each with a thumbnail, and what is counted."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.rows: list[str] = []
        self.lost: Counter[str] = Counter()
        self.drawings = self.pages = self.labels = self.wrong = self.words = self.known = 0

    def row(self, name: str, what: str, image: Image.Image) -> None:
        """A row of the report with a thumbnail."""
        number = len(self.rows) + 1
        small = image.copy()
        small.thumbnail((700, 500))
        small.save(self.folder / f"{number:03}.png")
        cell = f"<td>{escape(name)}<td>{escape(what)}<td><img src={number:03}.png alt=''>"
        self.rows.append(f"<tr>{cell}</tr>")
        print(f"{name}: {what}", flush=True)

    def read(self, name: str, some: list[Label]) -> None:
        """Dimension labels, read by the program if it is installed."""
        if not there() or not some:
            return
        missed = unread(some)
        self.labels, self.wrong = self.labels + len(some), self.wrong + len(missed)
        for text, got in missed:
            image = next(label.image for label in some if label.text == text)
            self.row(f"{name}: label {text}", f"read as {got!r}", image)

    def told(self) -> str:
        """What was looked at and what was lost, in one sentence."""
        said = f"{self.drawings} drawings, {self.pages} pages; lines spoiled: {dict(self.lost) or 'none'}"
        if self.labels:
            said += f"; dimension labels read: {self.labels - self.wrong} of {self.labels}"
        return said + (f"; words of pages read: {self.known} of {self.words}" if self.words else "")

    def write(self) -> Path:
        """The report as a page."""
        body = "".join(self.rows) or "<p>Nothing was lost.</p>"
        place = self.folder / "report.html"
        place.write_text(
            f"<!doctype html><html lang=en><meta charset=utf-8><title>Photocopy proof</title>"
            f"<h1>Three generations</h1><p>{escape(self.told())}</p><table>{body}</table></html>",
            encoding="utf-8",
        )
        return place


def drawings(folder: Path) -> Iterator[tuple[str, Drawing, float]]:
    """Every drawing of a guide's routes with its name and the scale at which it is printed, each once."""
    guide = read_guide(folder, VERBS)
    seen: set[Drawing] = set()
    for run in run_all(guide):
        for entry in everything(guide, run):
            for n, drawing in enumerate(entry.drawings, 1):
                if drawing not in seen:
                    seen.add(drawing)
                    name = f"{entry.kind} {entry.name} ({n})"
                    yield name, drawing, 1.0 if drawing.true_size else SCALE


def look_at_drawings(folder: Path, report: Report) -> None:
    """Every drawing of a guide through the copier."""
    some: list[Label] = []
    for name, drawing, scale in drawings(folder):
        picture = drawn(drawing, scale)
        copy = copied(picture, scale)
        report.drawings += 1
        some += cut_out(drawing, copy, dimensions(drawing))
        if found := faults(drawing, copied(picture, scale, 0), copy):
            report.lost.update(f"{f.line} {f.what}" for f in found)
            what = "; ".join(f"{f.line} {f.what} ({f.share:.0%} left)" for f in found)
            report.row(f"{folder.name}: {name}", what, copy.image())
    report.read(folder.name, some)


def look_at_pages(paths: list[Path], report: Report, most: int, words: bool) -> None:
    """Every page of some PDFs through the copier, each that differs once."""
    seen: set[str] = set()
    for path in paths:
        for page in pages_of(path, seen):
            if most and len(seen) > most:
                return
            first, copy = copies_of(page)
            report.pages += 1
            for kind, box in spoiled(first, copy):
                report.lost[f"page {kind}"] += 1
                around = (box[0] - 60, box[1] - 60, box[2] + 60, box[3] + 60)
                report.row(
                    f"{page.name}, at {box[0]}, {box[1]}", f"something {kind}", copy.image().crop(around)
                )
            report.read(page.name, labels(page, copy))
            if words and there():
                known, of = words_read(copy, list(page.words))
                report.known, report.words = report.known + known, report.words + of
                if known < READ * of:
                    report.row(page.name, f"{known} of {of} words are read", copy.image())


def main() -> int:
    parser = argparse.ArgumentParser(prog="python -m tests.photocopy", description=__doc__)
    parser.add_argument("guides", nargs="*", type=Path, default=sorted(GUIDES.glob("*/guide.yml")))
    parser.add_argument("-o", "--output", type=Path, default=Path("photocopy"))
    parser.add_argument("--no-pages", action="store_true", help="only the drawings")
    parser.add_argument("--no-drawings", action="store_true", help="only the pages")
    parser.add_argument("--most", type=int, default=0, help="so many pages of a packet's papers at most")
    parser.add_argument("--words", action="store_true", help="read every word of the pages, too")
    parser.add_argument("--packets", type=Path, help="a folder of packets that were printed before")
    asked = parser.parse_args()
    asked.output.mkdir(parents=True, exist_ok=True)
    report = Report(asked.output)
    for path in asked.guides:
        folder = path.parent if path.is_file() else path
        if not asked.no_drawings:
            look_at_drawings(folder, report)
        if asked.no_pages or asked.packets:
            continue
        for paper in PAPERS:
            with TemporaryDirectory() as place:
                made = print_packets(folder, 24, "10%", paper, (), Path(place))
                sheets = [each for each in made if each.suffix == ".pdf"]
                look_at_pages(sheets, report, asked.most, asked.words)
    if asked.packets:
        look_at_pages(sorted(asked.packets.rglob("*.pdf")), report, asked.most, asked.words)
    print(report.told())
    print(report.write().as_posix())
    return int(bool(report.lost) or report.wrong > report.labels / 100)


if __name__ == "__main__":
    sys.exit(main())
