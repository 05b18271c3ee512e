"""A shape at another scale, about the origin."""

from __future__ import annotations

from builder.drawings.shapes import Arc, Arrow, Hatch, Point, Polyline, Shape


def scaled(shape: Shape, by: float, line: str = "", part: str | None = None) -> Shape:
    """The shape with every distance times `by`; with another line class or part if given.  Text and
    arrowheads keep their size and only move."""

    def k(p: Point) -> Point:
        return (p[0] * by, p[1] * by)

    changed = {"line": line or shape.line, "part": part if part is not None else shape.part}
    if isinstance(shape, Polyline):
        return shape._replace(points=tuple(k(p) for p in shape.points), **changed)  # type: ignore[arg-type]
    if isinstance(shape, Arc):
        return shape._replace(centre=k(shape.centre), rx=shape.rx * by, ry=shape.ry * by, **changed)  # type: ignore[arg-type]
    if isinstance(shape, Arrow):
        return shape._replace(tip=k(shape.tip), **changed)  # type: ignore[arg-type]
    if isinstance(shape, Hatch):
        return shape._replace(runs=tuple((k(a), k(b)) for a, b in shape.runs), **changed)  # type: ignore[arg-type]
    return shape._replace(at=k(shape.at), **changed)  # type: ignore[arg-type]
