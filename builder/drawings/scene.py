"""A Scene is what a view looks at: placed solids, wet glue, marks, and the dimensions to show.

It knows nothing of guides or benches.  World axes: x along the host, z up, y away from the viewer of a
side view; millimetres.
"""

from __future__ import annotations

from typing import NamedTuple

from builder.drawings.solids import Solid, Turned
from builder.drawings.vectors import Pose, Vec, pose, round_axis


class Placed(NamedTuple):
    """A part where it sits.

    `id` tells copies apart ("fin 1"), `name` is what a reader sees.  `new` is what the step adds.
    `whole` things are not cut through in a section (rods, screws, fins: the trade's habit).
    `sits` says in words where it is, for the text alternative.
    """

    id: str
    name: str
    solid: Solid
    pose: Pose = Pose()
    new: bool = False
    whole: bool = False
    sits: str = ""
    label: bool = True
    """Give it its name on the drawing; copies of one thing share one name."""


class Band(NamedTuple):
    """Wet glue on a stretch of a part's skin.

    `face` of a turned part: "outside" or "inside", x0..x1 along its axis and, unless it goes all round,
    angles a0..a1.  Of a slab: "top" or "under", the rectangle x0..x1 by a0..a1 in its own plane; or
    "edge", the wall over the line from (x0, a0) to (x1, a1).
    """

    part: str
    face: str
    x0: float
    x1: float
    a0: float = 0.0
    a1: float = 360.0
    name: str = "wet glue"
    new: bool = True
    covered: bool = False
    """Something lies on all of it: it is named, at the edge of what covers it, and not drawn."""
    corner: float | None = None
    """The angle, a0 or a1, at which it fills the corner with what stands on a turned part."""
    label: bool = True
    """Give it its name on the drawing: not what dries since before the last wait."""


class Mark(NamedTuple):
    """A pencil line: points in the part's own frame, `closed` for a ring round a turned part.

    A ring is given by one point: its station and radius, as (x, 0, r).
    """

    id: str
    name: str
    part: str
    points: tuple[Vec, ...]
    ring: bool = False
    new: bool = False
    label: bool = True
    """Give it its name on the drawing: what the step draws, or goes by."""
    line: str = ""
    """Its line class, if it is none of the pencil's: a fold, the edge of a hole in the dark."""


class Dim(NamedTuple):
    """A dimension: what it says, the two world points that it measures between, and which way.

    `way`: "along" (horizontal on the drawing), "across" (vertical on the drawing) or "angle" (round the
    axis, `start` and `end` then being points at the two angles).
    """

    text: str
    start: Vec
    end: Vec
    way: str = "along"


BENEATH = ", beneath"
"""What the name of glue says that is drawn by no dots, since what covers it is thinner than a dot."""

UNDER = "underside"
"""The face of a flat thing that is up when it is turned over: what is drawn of it is a mirror image."""

UPRIGHT = ("", "top")
"""Faces whose looking up needs no word."""


class Scene(NamedTuple):
    """Everything that one drawing shows; `ends` names the host's two ends, at small and at large x."""

    title: str
    parts: tuple[Placed, ...]
    bands: tuple[Band, ...] = ()
    marks: tuple[Mark, ...] = ()
    dims: tuple[Dim, ...] = ()
    ends: tuple[str, str] = ("", "")
    edges: tuple[str, str, str, str] = ("", "", "", "")
    """Names of a flat root's edges in a plan: at the left, the right, below and above."""
    face: str = ""
    """Which face of a flat root looks at the viewer of a plan: "top", UNDER, or as the step calls it."""
    ways: tuple[str, ...] = ()
    """At which end ("start" or "end" of the axis) something goes "in" or comes "out": "start in"."""
    doing: str = ""
    """One more sentence for the text alternative: what was taken away, or how many there are of it."""
    times: int = 1
    """So many such things there are, of which one is drawn: the names of its parts say it."""

    def part(self, name: str) -> Placed:
        """The placed part with this id; KeyError if there is none."""
        for p in self.parts:
            if p.id == name:
                return p
        raise KeyError(name)


def on_axis(x: float) -> Pose:
    """For a turned part that shares the host's axis, its own zero at station x."""
    return Pose((x, 0.0, 0.0))


def reversed_on_axis(x: float) -> Pose:
    """The same, turned end for end: the part's own x runs against the host's."""
    return pose((x, 0.0, 0.0), (-1.0, 0.0, 0.0), (0.0, -1.0, 0.0))


def beside_axis(x: float, radius: float, angle: float) -> Pose:
    """For a turned part that lies along the host at a distance from its axis (a lug)."""
    return Pose(round_axis(x, radius, angle))


def radial_slab(x: float, radius: float, angle: float, thickness: float) -> Pose:
    """For a slab that stands on a tube: its own x along the host, its own y outwards from the skin.

    `radius` is where its y = 0 lies; the slab's thickness is centred on the radial plane.
    """
    out = round_axis(0.0, 1.0, angle)
    normal = pose((0, 0, 0), (1.0, 0.0, 0.0), out).ez
    foot = round_axis(x, radius, angle)
    origin = (
        foot[0] - normal[0] * thickness / 2,
        foot[1] - normal[1] * thickness / 2,
        foot[2] - normal[2] * thickness / 2,
    )
    return pose(origin, (1.0, 0.0, 0.0), out)


def flat(x: float, y: float, z: float = 0.0, *, under_up: bool = False) -> Pose:
    """For a slab that lies flat; seen from above its own x runs right and its own y runs up.

    `under_up` turns it over about its own x axis, so that its under face looks up.
    """
    if under_up:
        return pose((x, y, z), (1.0, 0.0, 0.0), (0.0, -1.0, 0.0))
    return pose((x, y, z), (1.0, 0.0, 0.0), (0.0, 1.0, 0.0))


def across_stations(solid: Turned, at: Pose) -> tuple[Vec, Vec]:
    """World points on the axis of a turned part at its two ends."""
    return at.world((solid.start, 0.0, 0.0)), at.world((solid.end, 0.0, 0.0))
