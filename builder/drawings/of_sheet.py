"""A sheet that hangs on a mast: flat, or bowed between its two holes."""

from __future__ import annotations

from math import cos, pi, sin

from builder.drawings.of_part import hole_at
from builder.drawings.shapes import Point
from builder.drawings.solids import Slab, Solid
from builder.drawings.vectors import Pose, pose
from builder.dryrun.bench import Bench
from builder.dryrun.work import thing_id
from builder.guide.model import Guide, Thing

WRAPPED = 0.6
"""A strip round a tube, or a sheet seen edge on, is drawn this thick, mm."""

FACETS = 12
"""A bow is drawn as so many flat pieces."""


def hung(seats: tuple[float, float], holes: list[float], sheet: Slab, radius: float) -> tuple[Solid, Pose]:
    """A sheet and its pose in the frame of the mast that it hangs on.

    `seats` are the two stations on the mast, `holes` where its holes lie along the flat sheet, `radius` is
    the mast's, mm.  Where the seats are nearer to one another than the holes, the sheet bows away from the
    mast: an arc as long as the sheet between the holes, over the chord between the seats.  It is drawn as
    the arc's own outline, as thick as the sheet is wide; its hollow side, which the wind blows into, looks
    along the mast's own y.
    """
    lo, hi = seats
    xs, ys = zip(*sheet.outline, strict=True)
    wide, high = max(xs) - min(xs), max(ys) - min(ys)
    arc, chord = (max(holes) - min(holes) if len(holes) > 1 else 0.0), hi - lo
    if arc <= chord or chord <= 0:
        start = (lo + hi) / 2 - high / 2
        return sheet, pose((start, radius, wide / 2), (0, 0, -1), (1, 0, 0))
    half = half_angle(chord / arc)
    bend = arc / 2 / half
    reach = half * high / arc  # the sheet goes on beyond its holes
    deep = bend * (1 - cos(half))

    def at(angle: float, r: float) -> Point:
        return ((lo + hi) / 2 + r * sin(angle), bend - deep - r * cos(angle))

    turns = [-reach + 2 * reach * i / FACETS for i in range(FACETS + 1)]
    thick = max(sheet.thickness, WRAPPED)
    outer = [at(t, bend) for t in turns]
    inner = [at(t, bend - thick) for t in reversed(turns)]
    return Slab((*outer, *inner), wide), Pose((0.0, 0.0, -wide / 2))


def holes_up(sheet: Thing) -> list[float]:
    """Where the named holes of a sheet lie along its second axis, mm."""
    return [at[1] for at in (hole_at(sheet, hole) for hole in sheet.holes) if at is not None]


def bowed_on(guide: Guide, bench: Bench, host: str) -> str:
    """The name of the sheet that bows on a mast, as `hung` draws it; empty if there is none."""
    for seat in bench.children(host):
        sheet = guide.things.get(thing_id(seat.child, guide))
        if sheet is None or seat.side != "outside" or seat.stretch is None:
            continue
        holes = holes_up(sheet)
        if len(holes) > 1 and max(holes) - min(holes) > seat.stretch[1] - seat.stretch[0] > 0:
            return sheet.name
    return ""


def half_angle(share: float) -> float:
    """The half angle, in radians, of an arc whose chord is this share of its length: sin(a) / a = share."""
    low, high = 1e-6, pi
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (middle, high) if sin(middle) / middle > share else (low, middle)
    return low
