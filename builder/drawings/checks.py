"""Checks that read drawings: what is drawn lies on the bench, and every dimension says what it measures.

They look at each step's scenes and drawing on each route, and take far longer than the checks of a guide: the
build of a site and the release of a revision ask them, not the command `check`.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from math import atan2, degrees, dist
from typing import NamedTuple

from builder.checks.base import Check
from builder.checks.judge import judge
from builder.drawings.assembly import assemblies
from builder.drawings.changes import Changes, changes
from builder.drawings.of_scene import scene_of
from builder.drawings.of_step import drawing_of
from builder.drawings.scene import Dim, Scene
from builder.drawings.shapes import Drawing
from builder.drawings.style import LINES
from builder.dryrun.run import DryRun, Frame
from builder.findings import Finding, Severity
from builder.guide.model import Guide, Step, Thing
from builder.quantities.quantity import read_quantity
from builder.quantities.show import Units
from builder.quantities.units import Dimension
from builder.quantities.values import Quantity

THINNEST = 0.18  # mm; 0.5 pt, so that a photocopy keeps it
ANGLE = 0.06  # degrees; angles are told to 0.1
EDGE = 0.01  # mm; coordinates are rounded to it


class Drawn(NamedTuple):
    """A step, the scenes that it is drawn from, and the drawing."""

    guide: Guide
    step: Step
    changes: Changes
    scenes: tuple[Scene, ...]
    drawing: Drawing


def look(guide: Guide, run: DryRun) -> Iterator[Drawn]:
    """Every step of a route as it is drawn."""
    frames: dict[str, list[Frame]] = {}
    for frame in run.frames:
        frames.setdefault(frame.step.id, []).append(frame)
    for own in frames.values():
        made = changes(guide, own)
        scenes = tuple(scene_of(guide, made, a.root, a.settled, "") for a in assemblies(guide, made))
        yield Drawn(guide, own[0].step, made, scenes, drawing_of(guide, own))


def check_drawings(guide: Guide, runs: tuple[DryRun, ...]) -> list[Finding]:
    """What the checks of this room find, merged over the routes."""
    raw = [
        finding
        for run in runs
        for drawn in look(guide, run)
        for check in CHECKS
        for finding in check.find(drawn)
    ]
    return judge(raw, len(runs))


# -- dimensions -----------------------------------------------------------------------------------


def wrong_size(drawn: Drawn) -> Iterator[Finding]:
    """A dimension whose words are not what lies between its ends."""
    units = drawn.guide.units
    assert isinstance(units, Units)
    near = float(units.finest.base) / 2 + 1e-6
    for scene in drawn.scenes:
        for dim in scene.dims:
            said, found = told_size(dim), real_size(dim)
            allowed = ANGLE if dim.way == "angle" else near
            if said is not None and abs(said - found) > allowed:
                yield SIZE.finding(
                    drawn.step.at,
                    f'a dimension of this drawing says "{dim.text}", but its ends are {found:.2f} apart',
                )


def told_size(dim: Dim) -> float | None:
    """What a dimension says: mm, or degrees; None if that is no number."""
    text = dim.text.replace("\N{NO-BREAK SPACE}", " ").removeprefix("about ")
    if dim.way == "angle":
        number = text.removesuffix("°")
        return float(number) if number.replace(".", "", 1).isdigit() else None
    read = read_quantity(text.partition(" (")[0].partition(" ±")[0], Dimension.LENGTH)
    return float(read.base) if isinstance(read, Quantity) else None


def real_size(dim: Dim) -> float:
    """How far apart its ends are: along the axis, straight across, or round the axis."""
    if dim.way == "along":
        return abs(dim.end[0] - dim.start[0])
    if dim.way == "across":
        return dist(dim.start, dim.end)
    turn = degrees(atan2(dim.end[2], dim.end[1]) - atan2(dim.start[2], dim.start[1])) % 360
    return min(turn, 360 - turn)


# -- parts ----------------------------------------------------------------------------------------


def wrong_parts(drawn: Drawn) -> Iterator[Finding]:
    """A part that is drawn before it is there, or what the step adds and its drawing leaves out."""
    guide, bench = drawn.guide, drawn.changes.bench
    shown = drawn.drawing.parts()
    there = bench.items.keys() | drawn.changes.before.items.keys()
    for item in shown:
        thing = _part_of(guide, item)
        if thing is not None and thing.sort == "part" and not thing.blank_of and item not in there:
            yield PARTS.finding(
                drawn.step.at, f"the drawing of this step shows the {thing.name}, which is not there yet"
            )
    seen = {
        thing.id for item in (*shown, *drawn.drawing.unseen) if (thing := _part_of(guide, item)) is not None
    }
    for item in drawn.changes.new:
        thing = _part_of(guide, item)
        if thing is not None and thing.id not in seen:  # of several copies one may stand for all
            yield PARTS.finding(
                drawn.step.at, f"the drawing of this step leaves out the {thing.name}, which it adds"
            )


def _part_of(guide: Guide, item: str) -> Thing | None:
    """The thing that a drawn item is a copy of; a stock, a mark and an edge are drawn under other names."""
    head, _, copy = item.rpartition(" ")
    return guide.things.get(head if copy.isdigit() else item)


# -- lines and words --------------------------------------------------------------------------------


def wrong_lines(drawn: Drawn) -> Iterator[Finding]:
    """A line that a copier loses, and words that stand beyond the frame or name what is not drawn."""
    drawing = drawn.drawing
    for name in dict.fromkeys(shape.line for shape in drawing.shapes):
        if name not in LINES or 0 < LINES[name].width < THINNEST:
            yield WORDS.finding(
                drawn.step.at, f'the drawing of this step has lines of the class "{name}", which a copy loses'
            )
    drawn_parts = {shape.part for shape in drawing.shapes if shape.line not in ("text", "leader", "dot")}
    for text in drawing.texts():
        box = text.box()
        if (
            box.left < -EDGE
            or box.top < -EDGE
            or box.right > drawing.width + EDGE
            or box.bottom > drawing.height + EDGE
        ):
            yield WORDS.finding(
                drawn.step.at, f'"{text.text}" stands beyond the frame of this step\'s drawing'
            )
        if text.part is not None and text.part not in drawn_parts and text.part not in drawing.unseen:
            yield WORDS.finding(drawn.step.at, f'"{text.text}" names what this step\'s drawing does not show')


SIZE = Check(
    "drawing-size", Severity.ERROR, "drawing",
    why="The builder measures by the picture.",
    mend="This is a fault of the tool, not of the guide: please report it.",
    find=wrong_size,
)  # fmt: skip

PARTS = Check(
    "drawing-parts", Severity.ERROR, "drawing",
    why="The builder looks for a part that is not on the table, or never sees the one in hand.",
    mend="This is a fault of the tool, not of the guide: please report it, or give the step a picture.",
    find=wrong_parts, source="studies of assembly instructions: the new part is to be seen",
)  # fmt: skip

WORDS = Check(
    "drawing-words", Severity.WARNING, "drawing",
    why="What cannot be read or found in the picture helps nobody.",
    mend="This is a fault of the tool, not of the guide: please report it.",
    find=wrong_lines,
)  # fmt: skip

CHECKS: tuple[Check, ...] = (SIZE, PARTS, WORDS)


def by_name() -> Mapping[str, Check]:
    """The checks of this room by name."""
    return {check.name: check for check in CHECKS}
