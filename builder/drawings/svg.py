"""Write a Drawing as SVG text, and decide nothing.

The same text goes inline into a page, into an `<img>`, to the PDF writer and to the raster: so every
property is a plain attribute (no style sheet, no variables, no pattern fills).  Lines and letters have
`currentColor`: inline they follow the page, dark or light; elsewhere they are black.  Nothing is filled
with white, since what is hidden was never drawn.  `textLength` holds each text to its measured width
where the font is another one.
"""

from __future__ import annotations

from itertools import groupby
from math import ceil

from builder.drawings.measure import FONT, FONT_SIZE, text_width
from builder.drawings.shapes import DIGITS, Arc, Arrow, Drawing, Hatch, Point, Polyline, Shape, Text
from builder.drawings.style import LINES


def number(value: float) -> str:
    """A coordinate to 0.01 mm, without needless noughts: 12.5, -3, 0.25."""
    text = f"{value:.{DIGITS}f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def escaped(text: str) -> str:
    """Text as it may stand in XML, between tags or in double quotes."""
    return text.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;").replace('"', "&quot;")


def _pair(p: Point) -> str:
    return f"{number(p[0])} {number(p[1])}"


def _arc_path(arc: Arc) -> str:
    """An elliptical arc in pieces: print engines draw a piece as one cubic curve, which for a half circle is
    off by 1.8 % of the radius, for a quarter by 1 in 3,600 and for 60 degrees by 1 in 40,000.  So no curve
    is off by 0.01 mm."""
    radius = max(arc.rx, arc.ry)
    largest = 60 if radius > 30 else 90 if radius > 0.5 else 179
    pieces = max(1, ceil(abs(arc.sweep) / largest - 1e-9))
    large = 0
    way = 1 if arc.sweep > 0 else 0
    turn = number(arc.turn if arc.rx != arc.ry else 0)
    path = f"M{_pair(arc.at(0))}"
    for i in range(pieces):
        end = arc.at((i + 1) / pieces)
        path += f"A{_pair((arc.rx, arc.ry))} {turn} {large} {way} {_pair(end)}"
    return path


def _path(shape: Shape) -> str:
    if isinstance(shape, Polyline):
        first, *rest = shape.points
        return f"M{_pair(first)}L{' '.join(_pair(p) for p in rest)}" + ("Z" if shape.closed else "")
    if isinstance(shape, Arc):
        return _arc_path(shape)
    if isinstance(shape, Hatch):
        return "".join(f"M{_pair(a)}L{_pair(b)}" for a, b in shape.runs)
    if isinstance(shape, Arrow):
        tip, left, right = shape.corners()
        return f"M{_pair(tip)}L{_pair(left)} {_pair(right)}Z"
    raise TypeError(shape)


def _text(text: Text) -> str:
    anchor = "" if text.anchor == "start" else f' text-anchor="{text.anchor}"'
    return (
        f'<text x="{number(text.at[0])}" y="{number(text.at[1])}"{anchor}'
        f' textLength="{number(text_width(text.text))}" lengthAdjust="spacingAndGlyphs">'
        f"{escaped(text.text)}</text>"
    )


def _kind(shape: Shape) -> tuple[str, str, str]:
    """What shapes must share to be written as one path: part, line class, and how they are painted."""
    filled = isinstance(shape, Arrow) or (isinstance(shape, Polyline) and shape.filled)
    paint = "text" if isinstance(shape, Text) else "fill" if filled else "line"
    return (shape.part or "", shape.line, paint)


def _group(kind: tuple[str, str, str], shapes: list[Shape]) -> str:
    part, line, paint = kind
    named = f' data-part="{escaped(part)}"' if part else ""
    if paint == "text":
        return "".join(_text(s) for s in shapes if isinstance(s, Text))
    d = "".join(_path(s) for s in shapes)
    look = LINES[line]
    if paint == "fill":
        # a filled thin wall keeps its line, which is what makes it wide enough to see
        stroke = ' stroke="none"' if isinstance(shapes[0], Arrow) else f' stroke-width="{number(look.width)}"'
        return f'<path{named} d="{d}" fill="currentColor"{stroke}/>'
    dash = f' stroke-dasharray="{" ".join(number(n) for n in look.dash)}"' if look.dash else ""
    # round ends close the corners where two lines of one outline meet; a dash keeps its length
    caps = ' stroke-linecap="butt"' if look.dash and not look.dots else ""
    return f'<path{named} d="{d}" stroke-width="{number(look.width)}"{dash}{caps}/>'


def write(drawing: Drawing, prefix: str = "drawing") -> str:
    """SVG text of one drawing.

    `prefix` makes the ids of this drawing its own: several can stand in one page.  Size and view box
    are millimetres, so that it prints at the size it was drawn.
    """
    w, h = number(drawing.width), number(drawing.height)
    title, description = f"{prefix}-title", f"{prefix}-desc"
    lines = [
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{w}mm" height="{h}mm" viewBox="0 0 {w} {h}"'
        f' role="img" aria-labelledby="{title} {description}" fill="none" stroke="currentColor"'
        f' stroke-linejoin="round" stroke-linecap="round">',
        f'<title id="{title}">{escaped(drawing.title)}</title>',
        f'<desc id="{description}">{escaped(drawing.alt)}</desc>',
    ]
    graphic = [s for s in drawing.shapes if not isinstance(s, Text)]
    texts = [s for s in drawing.shapes if isinstance(s, Text)]
    lines += [_group(kind, list(group)) for kind, group in groupby(graphic, _kind)]
    if texts:
        lines.append(
            f'<g font-family="{FONT}, Arial, sans-serif" font-size="{number(FONT_SIZE)}"'
            f' fill="currentColor" stroke="none">'
        )
        lines += [_text(t) for t in texts]
        lines.append("</g>")
    lines.append("</svg>\n")
    return "\n".join(lines)
