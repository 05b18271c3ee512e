"""The mark of a printed page: six letters worked out from that page's own content, printed at its foot.

Two sheets with the same mark show the same; a page that changes gets another mark, and no other page does.
The mark is worked out when the pages have been laid out, and drawn into them before the file is written, so
that nothing has to be laid out twice.
"""

from __future__ import annotations

import hashlib
import re
from collections.abc import Mapping
from functools import cache
from math import inf
from typing import Any

LETTERS = "23456789bcdfghjkmnpqrstvwxz"
"""No vowels, so that no word appears; nothing that is mistaken for something else on a worn copy."""

LENGTH = 6
SIZE = 9.0  # pt
SPACING = 0.5  # pt between letters, which are copied by hand
BASELINE = 22.9  # pt above the foot of the page, where the words of the footer stand
FOOT = 33.0  # pt: no page has anything but its footer so near to its lower edge
FONT = "KWmark"

# Names of fonts and forms are numbered through a file; what they stand for is put in their place.
_NAME = re.compile(rb"/[A-Za-z][\w.+-]*")
_WORDS = re.compile(rb"BT\n1 0 0 -1 \S+ (\S+) Tm\n.*?\nET", re.DOTALL)
_FORM = re.compile(rb"/([A-Za-z][\w.+-]*) Do\b")


def mark_of(content: bytes) -> str:
    """The mark of a page's content."""
    number = int.from_bytes(hashlib.sha256(content).digest(), "big")
    letters = []
    for _ in range(LENGTH):
        number, rest = divmod(number, len(LETTERS))
        letters.append(LETTERS[rest])
    return "".join(letters)


def own_content(stream: bytes, forms: Mapping[str, bytes], foot: float = inf, deep: int = 8) -> bytes:
    """A page's drawing commands without what depends on other pages: its footer (the words below `foot`, in
    CSS pixels from the top) and all names are dropped, and what a named form draws stands in its place."""
    stream = _WORDS.sub(lambda found: b"" if float(found[1]) > foot else found[0], stream)
    drawn = [forms[name.decode()] for name in _FORM.findall(stream) if name.decode() in forms]
    inner = [own_content(form, forms, inf, deep - 1) for form in drawn] if deep else []
    return b"\n".join([_NAME.sub(b"/", stream), *inner])


class Marks:
    """Marks every page of a PDF that is about to be written. `found` are the marks, page by page."""

    def __init__(self) -> None:
        self.found: list[str] = []

    def __call__(self, document: object, pdf: Any) -> None:
        """What the layout engine calls before it writes the file; see its `finisher`."""
        objects = {item.reference: item for item in pdf.objects if item.number}
        pages = [item for item in pdf.objects if isinstance(item, dict) and item.get("Type") == "/Page"]
        if not pages:
            return
        resources = objects[pages[0]["Resources"]]
        forms = {name: _bytes_of(objects[ref]) for name, ref in resources.get("XObject", {}).items()
                 if ref in objects}  # fmt: skip
        fonts = objects[resources["Font"]]
        fonts[FONT] = _font(pdf)
        for page in pages:
            stream = objects[page["Contents"]]
            box = [float(x) for x in page["MediaBox"]]
            mark = mark_of(own_content(_bytes_of(stream), forms, (box[3] - FOOT) * 4 / 3))
            self.found.append(mark)
            # the page is drawn downwards from its upper left corner
            x, y = (box[2] - _width(mark) * SIZE) / 2, box[3] - BASELINE
            stream.stream.append(
                f"/Artifact BMC q BT /{FONT} {SIZE:g} Tf {SPACING:g} Tc"
                f" 1 0 0 -1 {x:.2f} {y:.2f} Tm ({mark}) Tj ET Q EMC"
            )


def _bytes_of(stream: Any) -> bytes:
    return b"\n".join(
        item if isinstance(item, bytes) else item.data if hasattr(item, "data") else str(item).encode()
        for item in stream.stream
    )


@cache
def _glyphs() -> dict[str, tuple[str, int, bytes]]:
    """Letter -> name of its glyph, its width, its outline as drawing commands, from the packaged font."""
    from font_source_sans_pro import font_directory
    from fontTools.pens.recordingPen import RecordingPen
    from fontTools.ttLib import TTFont

    found = {}
    with TTFont(f"{font_directory}/SourceSansPro-Regular.otf", lazy=True) as font:
        drawn, names = font.getGlyphSet(), font.getBestCmap()
        for letter in LETTERS:
            name = names[ord(letter)]
            pen = RecordingPen()
            drawn[name].draw(pen)
            found[letter] = (name, round(drawn[name].width), _outline(pen.value))
    return found


_COMMANDS = {"moveTo": "m", "lineTo": "l", "curveTo": "c", "closePath": "h"}


def _outline(strokes: list[tuple[str, tuple[tuple[float, float], ...]]]) -> bytes:
    lines = [
        " ".join([*(f"{x:g} {y:g}" for x, y in points), _COMMANDS[command]]) for command, points in strokes
    ]
    return "\n".join([*lines, "f"]).encode()


def _width(mark: str) -> float:
    """The width of a mark at a size of 1."""
    return sum(_glyphs()[letter][1] for letter in mark) / 1000 + len(mark) * SPACING / SIZE


def _font(pdf: Any) -> bytes:
    """A small font of outlines that holds the letters of marks, added to a PDF; its reference."""
    import pydyf

    glyphs = _glyphs()
    shapes = pydyf.Dictionary()
    for name, width, outline in glyphs.values():
        shape = pydyf.Stream([f"{width} 0 0 -300 {width} 1000 d1".encode(), outline])
        pdf.add_object(shape)
        shapes[name] = shape.reference
    codes = range(ord(min(LETTERS)), ord(max(LETTERS)) + 1)
    encoding: list[object] = []
    for letter, (name, _, _) in glyphs.items():
        encoding += [ord(letter), f"/{name}"]
    unicode = pydyf.Stream([_to_unicode()])
    pdf.add_object(unicode)
    font = pydyf.Dictionary(
        {
            "Type": "/Font",
            "Subtype": "/Type3",
            "Name": f"/{FONT}",
            "FontBBox": pydyf.Array([0, -300, 1000, 1000]),
            "FontMatrix": pydyf.Array([0.001, 0, 0, 0.001, 0, 0]),
            "CharProcs": shapes,
            "Resources": pydyf.Dictionary(),
            "FirstChar": codes[0],
            "LastChar": codes[-1],
            "Widths": pydyf.Array([glyphs[chr(c)][1] if chr(c) in glyphs else 0 for c in codes]),
            "Encoding": pydyf.Dictionary({"Type": "/Encoding", "Differences": pydyf.Array(encoding)}),
            "ToUnicode": unicode.reference,
        }
    )
    pdf.add_object(font)
    reference: bytes = font.reference
    return reference


def _to_unicode() -> bytes:
    """The map by which a reader copies the letters as text."""
    lines = "\n".join(f"<{ord(letter):02x}> <{ord(letter):04x}>" for letter in LETTERS)
    return (
        "/CIDInit /ProcSet findresource begin 12 dict begin begincmap\n"
        "/CMapName /KWmark def /CMapType 2 def\n"
        "1 begincodespacerange <00> <ff> endcodespacerange\n"
        f"{len(LETTERS)} beginbfchar\n{lines}\nendbfchar\nendcmap end end"
    ).encode()
