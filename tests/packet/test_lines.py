"""Lines as the layout engine breaks them."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from builder.packet.pdf import printed

TOLD = "Put white glue inside the draw tube, over the first <b>1/8 in</b> of it."


def test_no_line_breaks_before_it_is_full() -> None:
    """At 79.1 to 79.8 mm the words up to "first" fill the line and the space behind them finds no room."""
    widths = [78.5 + n / 10 for n in range(20)]
    told = "".join(f'<p style="width: {width:.1f}mm">{TOLD}</p>' for width in widths)
    document = printed(f'<html lang="en"><title>Lines</title>{told}</html>')[0]
    first = [line for page in document.pages for line in _lines(page._page_box) if line.startswith("Put")]
    assert len(first) == len(widths)
    assert {line.strip() for line in first} <= {
        "Put white glue inside the draw tube, over the",
        "Put white glue inside the draw tube, over the first",
    }
    assert first[-1].strip().endswith("first")


def _lines(box: Any) -> Iterator[str]:
    if type(box).__name__ == "LineBox":
        yield _words(box)
    for child in getattr(box, "children", ()):
        yield from _lines(child)


def _words(box: Any) -> str:
    return str(box.text) if hasattr(box, "text") else "".join(map(_words, getattr(box, "children", ())))
