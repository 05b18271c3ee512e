"""SVG text to PNG or PDF bytes: the one module that imports cairosvg, and only when called."""

from __future__ import annotations

from functools import cache


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


def pdf(svg: str) -> bytes:
    """One page, exactly the drawing's frame at true size.

    Cairo writes the time of the making into the file, so two runs differ in that one entry.
    """
    import cairosvg

    _font_ready()
    data: bytes = cairosvg.svg2pdf(bytestring=svg.encode(), dpi=96)
    return data
