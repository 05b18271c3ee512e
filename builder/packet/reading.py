"""A written PDF, opened again with another library than the one that wrote it: what a reader and a ruler
find.

Nothing here knows what ought to be there. Lengths are in mm from a page's upper left corner. Text and lines
go by the number under which the file's structure tree knows them; what it does not know (footers) goes by
LOOSE.
"""

from __future__ import annotations

import ctypes
from collections.abc import Callable, Iterator
from typing import Any

import msgspec

MM = 25.4 / 72
"""A point in mm: 72 points are an inch (ISO 32000-1), and an inch is 25.4 mm."""

FOOT = 11.6
"""No page has anything but its foot so near to its lower edge, mm."""

LOOSE = -1
PIECES = 16
"""A curve is read as so many straight pieces."""

Point = tuple[float, float]
Matrix = tuple[float, float, float, float, float, float]
WHOLE: Matrix = (1.0, 0.0, 0.0, 1.0, 0.0, 0.0)


class Element(msgspec.Struct, frozen=True):
    """A node of the structure tree: what it is (P, H3, Figure ...), its alternative, its numbers, what is in
    it."""

    kind: str
    alt: str
    numbers: tuple[int, ...]
    inner: tuple[Element, ...]

    def each(self) -> Iterator[Element]:
        """Itself and all that is in it, in reading order."""
        yield self
        for one in self.inner:
            yield from one.each()


class Line(msgspec.Struct, frozen=True):
    """A drawn line: its corners as written, and the same line with its curves in straight pieces."""

    corners: tuple[Point, ...]
    flat: tuple[Point, ...]


class Page(msgspec.Struct, frozen=True):
    """A page as it was read. `texts` and `tops` go by number, `drawn` counts the lines and images of a
    number; `foot` is what stands below all else."""

    number: int
    width: float
    height: float
    texts: dict[int, str]
    tops: dict[int, float]
    drawn: dict[int, int]
    tree: tuple[Element, ...]
    lines: tuple[Line, ...]
    foot: str
    loose_fonts: tuple[str, ...]
    colours: int

    def each(self) -> Iterator[Element]:
        """Every element of the page, in reading order."""
        for one in self.tree:
            yield from one.each()

    def text(self, *elements: Element, without: tuple[str, ...] = ("Figure",)) -> str:
        """The text of some elements, in reading order, without what is in pictures or in other kinds of
        element."""
        return " ".join(self.texts.get(n, "") for one in elements for n in numbers_of(one, without))


class Read(msgspec.Struct, frozen=True):
    """A PDF as it was read."""

    title: str
    language: str
    tagged: bool
    bookmarks: int
    pages: tuple[Page, ...]


def numbers_of(element: Element, without: tuple[str, ...] = ("Figure",)) -> Iterator[int]:
    """The numbers of an element and of all in it, in reading order, but for some kinds of element."""
    if element.kind in without:
        return
    yield from element.numbers
    for one in element.inner:
        yield from numbers_of(one, without)


def read_pdf(data: bytes, measured: frozenset[str] = frozenset()) -> Read:
    """Open a PDF. The lines are read of the pages that have a picture with one of the alternatives
    `measured`. Errors: ValueError if it is none."""
    import pypdfium2
    from pypdfium2 import raw

    try:
        pdf = pypdfium2.PdfDocument(data)
    except pypdfium2.PdfiumError as trouble:
        raise ValueError(f"the file cannot be opened again: {trouble}") from None
    try:
        language = _string(
            lambda buffer, size: raw.FPDFCatalog_GetLanguage(pdf.raw, buffer, size), of=raw.FPDF_WCHAR
        )
        pages = []
        for index in range(len(pdf)):
            page = pdf[index]
            pages.append(_page(raw, page.raw, index + 1, measured))
            page.close()
        return Read(
            title=pdf.get_metadata_value("Title"),
            language=language,
            tagged=bool(raw.FPDFCatalog_IsTagged(pdf.raw)),
            bookmarks=sum(1 for _ in pdf.get_toc()),
            pages=tuple(pages),
        )
    finally:
        pdf.close()


def _page(raw: Any, page: Any, number: int, alts: frozenset[str]) -> Page:
    width, height = raw.FPDF_GetPageWidthF(page) * MM, raw.FPDF_GetPageHeightF(page) * MM
    texts, tops, foot, loose_fonts = _texts(raw, page, height)
    tree = _tree(raw, page)
    measured = any(e.kind == "Figure" and e.alt in alts for one in tree for e in one.each())
    drawn: dict[int, int] = {}
    lines: list[Line] = []
    colours = 0
    for thing, matrix, mark in _things(raw, page):
        kind = raw.FPDFPageObj_GetType(thing)
        colours += _coloured(raw, thing)
        if kind != raw.FPDF_PAGEOBJ_TEXT:
            drawn[mark] = drawn.get(mark, 0) + 1
        if measured and kind == raw.FPDF_PAGEOBJ_PATH:
            lines += _lines(raw, thing, matrix, height)
    return Page(number, width, height, texts, tops, drawn, tree, tuple(lines), foot, loose_fonts, colours)


# -- text -----------------------------------------------------------------------------------------


def _texts(
    raw: Any, page: Any, height: float
) -> tuple[dict[int, str], dict[int, float], str, tuple[str, ...]]:
    """The text of each number, the height at which it begins, the foot, and the fonts that are not in the
    file."""
    found: dict[int, list[str]] = {}
    tops: dict[int, float] = {}
    seen: dict[int, int] = {}
    loose: dict[str, None] = {}
    text = raw.FPDFText_LoadPage(page)
    mark = LOOSE
    box = [ctypes.c_double() for _ in range(4)]
    for index in range(raw.FPDFText_CountChars(text)):
        thing = raw.FPDFText_GetTextObject(text, index)
        if thing:
            address = ctypes.addressof(thing.contents)
            if address not in seen:
                seen[address] = raw.FPDFPageObj_GetMarkedContentID(thing)
                font = raw.FPDFTextObj_GetFont(thing)
                if font and not raw.FPDFFont_GetIsEmbedded(font):
                    loose[_string(lambda b, n: raw.FPDFFont_GetBaseFontName(font, b, n), "utf-8")] = None  # noqa: B023
                if raw.FPDFText_GetCharBox(text, index, *box):
                    top = height - box[3].value * MM
                    tops[seen[address]] = min(top, tops.get(seen[address], top))
            mark = seen[address]
        found.setdefault(mark, []).append(chr(raw.FPDFText_GetUnicode(text, index)))
    room = (0.0, FOOT / MM, 10_000.0, 0.0)
    size = raw.FPDFText_GetBoundedText(text, *room, None, 0)
    letters = (ctypes.c_ushort * max(size, 1))()
    raw.FPDFText_GetBoundedText(text, *room, letters, size)
    foot = bytes(letters).decode("utf-16-le", "replace").rstrip("\0")
    raw.FPDFText_ClosePage(text)
    return {mark: "".join(each) for mark, each in found.items()}, tops, " ".join(foot.split()), tuple(loose)


# -- the structure tree ---------------------------------------------------------------------------


def _tree(raw: Any, page: Any) -> tuple[Element, ...]:
    tree = raw.FPDF_StructTree_GetForPage(page)
    if not tree:
        return ()
    count = raw.FPDF_StructTree_CountChildren(tree)
    tops = (raw.FPDF_StructTree_GetChildAtIndex(tree, index) for index in range(count))
    made = tuple(_element(raw, top) for top in tops if top)
    raw.FPDF_StructTree_Close(tree)
    return made


def _element(raw: Any, node: Any) -> Element:
    numbers = [
        raw.FPDF_StructElement_GetMarkedContentIdAtIndex(node, index)
        for index in range(raw.FPDF_StructElement_GetMarkedContentIdCount(node))
    ]
    inner = (
        raw.FPDF_StructElement_GetChildAtIndex(node, index)
        for index in range(raw.FPDF_StructElement_CountChildren(node))
    )
    return Element(
        _string(lambda buffer, size: raw.FPDF_StructElement_GetType(node, buffer, size)),
        _string(lambda buffer, size: raw.FPDF_StructElement_GetAltText(node, buffer, size)),
        tuple(number for number in numbers if number >= 0),
        tuple(_element(raw, each) for each in inner if each),
    )


def _string(ask: Callable[[Any, int], int], code: str = "utf-16-le", of: Any = None) -> str:
    """What the library writes into a buffer whose size it says first; `of` is what it takes the buffer
    for."""
    size = ask(None, 0)
    if size <= 0:
        return ""
    buffer = ctypes.create_string_buffer(size)
    ask(buffer if of is None else ctypes.cast(buffer, ctypes.POINTER(of)), size)
    return buffer.raw[:size].decode(code, "replace").rstrip("\0")


# -- lines ----------------------------------------------------------------------------------------


def _things(raw: Any, page: Any) -> Iterator[tuple[Any, Matrix, int]]:
    """Every object of a page with the way to the page's own measure and its number; forms are opened."""
    for index in range(raw.FPDFPage_CountObjects(page)):
        thing = raw.FPDFPage_GetObject(page, index)
        yield from _opened(raw, thing, WHOLE, raw.FPDFPageObj_GetMarkedContentID(thing))


def _opened(raw: Any, thing: Any, outer: Matrix, mark: int) -> Iterator[tuple[Any, Matrix, int]]:
    matrix = _times(_matrix(raw, thing), outer)
    if raw.FPDFPageObj_GetType(thing) != raw.FPDF_PAGEOBJ_FORM:
        yield thing, matrix, mark
        return
    for index in range(raw.FPDFFormObj_CountObjects(thing)):
        inner = raw.FPDFFormObj_GetObject(thing, index)
        own = raw.FPDFPageObj_GetMarkedContentID(inner)
        yield from _opened(raw, inner, matrix, mark if own < 0 else own)


def _matrix(raw: Any, thing: Any) -> Matrix:
    found = raw.FS_MATRIX()
    if not raw.FPDFPageObj_GetMatrix(thing, found):
        return WHOLE
    return (found.a, found.b, found.c, found.d, found.e, found.f)


def _times(first: Matrix, then: Matrix) -> Matrix:
    a, b, c, d, e, f = first
    g, h, i, j, k, m = then
    return (
        a * g + b * i, a * h + b * j, c * g + d * i, c * h + d * j, e * g + f * i + k, e * h + f * j + m,
    )  # fmt: skip


def _lines(raw: Any, path: Any, matrix: Matrix, height: float) -> Iterator[Line]:
    """The lines of a path: each begins where the pen is set down."""
    x, y = ctypes.c_float(), ctypes.c_float()
    a, b, c, d, e, f = matrix
    corners: list[Point] = []
    flat: list[Point] = []
    bent: list[Point] = []
    for index in range(raw.FPDFPath_CountSegments(path)):
        segment = raw.FPDFPath_GetPathSegment(path, index)
        raw.FPDFPathSegment_GetPoint(segment, x, y)
        u, v = x.value, y.value
        point = ((a * u + c * v + e) * MM, height - (b * u + d * v + f) * MM)
        kind = raw.FPDFPathSegment_GetType(segment)
        if kind == raw.FPDF_SEGMENT_MOVETO:
            if corners:
                yield Line(tuple(corners), tuple(flat))
            corners, flat = [point], [point]
        elif kind == raw.FPDF_SEGMENT_BEZIERTO:
            bent.append(point)
            if len(bent) < 3:
                continue
            flat += _bent(flat[-1], *bent)
            corners.append(point)
            bent = []
        else:
            corners.append(point)
            flat.append(point)
        if raw.FPDFPathSegment_GetClose(segment):
            corners.append(corners[0])
            flat.append(flat[0])
    if corners:
        yield Line(tuple(corners), tuple(flat))


def _bent(p: Point, q: Point, r: Point, s: Point) -> Iterator[Point]:
    """A cubic curve in straight pieces."""
    for piece in range(1, PIECES + 1):
        t = piece / PIECES
        u = 1 - t
        weights = (u * u * u, 3 * u * u * t, 3 * u * t * t, t * t * t)
        yield (
            sum(w * each[0] for w, each in zip(weights, (p, q, r, s), strict=True)),
            sum(w * each[1] for w, each in zip(weights, (p, q, r, s), strict=True)),
        )


def _coloured(raw: Any, thing: Any) -> bool:
    """Whether an object has a colour that is no shade of grey."""
    parts = [ctypes.c_uint() for _ in range(4)]
    for ask in (raw.FPDFPageObj_GetFillColor, raw.FPDFPageObj_GetStrokeColor):
        if ask(thing, *parts) and len({part.value for part in parts[:3]}) > 1:
            return True
    return False


def pages_with(read: Read, alt: str) -> list[Page]:
    """The pages that have a picture with this text alternative."""
    return [page for page in read.pages if any(e.kind == "Figure" and e.alt == alt for e in page.each())]
