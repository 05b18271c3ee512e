"""SVG text to PNG or PDF bytes: the one module that imports cairosvg, and only when called."""

from __future__ import annotations

from collections.abc import Iterable
from functools import cache
from io import BytesIO


@cache
def _font_ready() -> bool:
    """Let the system's text engine see the packaged font, which need not be installed; once is enough."""
    import ctypes
    import ctypes.util

    from font_source_sans_pro import font_directory

    name = ctypes.util.find_library("fontconfig")
    if name is None:
        return False
    add = ctypes.CDLL(name).FcConfigAppFontAddFile
    add.argtypes = [ctypes.c_void_p, ctypes.c_char_p]
    return bool(add(None, f"{font_directory}/SourceSansPro-Regular.ttf".encode()))


def png(svg: str, *, dots_per_inch: float = 192.0) -> bytes:
    """A picture on white paper, with the drawing's own size at that resolution."""
    import cairosvg

    _font_ready()
    data: bytes = cairosvg.svg2png(
        bytestring=svg.encode(), dpi=96, scale=dots_per_inch / 96, background_color="white"
    )
    return data


def pdf(svgs: Iterable[str], *, title: str = "", dated: str = "2000-01-01T00:00:00Z") -> bytes:
    """One page for each SVG, exactly its frame at true size; two runs give the same bytes.

    cairosvg makes one page a file; what a surface is drawn on is the one private method that its base
    class names for overriding, so all pages share one.  `dated` is written into the file in place of
    the clock.  ValueError if there is no SVG.
    """
    import cairocffi
    from cairosvg.parser import Tree
    from cairosvg.surface import PDFSurface

    _font_ready()
    target = BytesIO()
    shared = cairocffi.PDFSurface(target, 1, 1)
    shared.set_metadata(cairocffi.PDF_METADATA_CREATE_DATE, dated)
    shared.set_metadata(cairocffi.PDF_METADATA_TITLE, title)

    class Page(PDFSurface):  # type: ignore[misc]  # cairosvg ships no types
        def _create_surface(self, width: float, height: float) -> tuple[object, float, float]:
            shared.set_size(width, height)  # in points already
            return shared, width, height

        def finish(self) -> None:
            shared.show_page()

    pages = 0
    for svg in svgs:
        # a tree is altered by drawing it, so each page reads its own
        Page(Tree(bytestring=svg.encode(), unsafe=False), None, 96).finish()
        pages += 1
    if not pages:
        raise ValueError("a PDF needs at least one page")
    shared.finish()
    return target.getvalue()
