"""What the builder holds between two stages: each assembly as it is, with all its names and no dimension."""

from __future__ import annotations

from collections.abc import Iterable

from builder.drawings.alternative import listed
from builder.drawings.assembly import FACE_DOWN, MOST, is_part
from builder.drawings.changes import Changes
from builder.drawings.half_section import half_section
from builder.drawings.of_bench import HERE, settle, thing_of, tied_to
from builder.drawings.of_scene import scene_of
from builder.drawings.scene import Scene
from builder.drawings.shapes import Drawing
from builder.drawings.solids import Turned
from builder.drawings.views import axonometric
from builder.dryrun.bench import Bench
from builder.guide.model import Guide
from builder.guide.wording import name_of

SIZE = (160.0, 80.0)
"""Width and height on paper that one assembly is drawn for, mm."""


def assembled(guide: Guide, bench: Bench) -> tuple[str, ...]:
    """The roots of everything that consists of several parts, in the order in which they came to be."""
    found: dict[str, None] = {}
    for item in bench.items:
        root = bench.root(item)
        if is_part(guide, item) and is_part(guide, root) and len(bench.below(root)) > 1:
            found[root] = None
    return tuple(found)


def held(
    guide: Guide, bench: Bench, roots: Iterable[str], title: str, lying: str = ""
) -> tuple[Drawing, ...]:
    """A drawing of each assembly: in half section where something is inside, else at an angle."""
    drawings = (_one(guide, bench, root, title, lying) for root in list(roots)[:MOST])
    return tuple(drawing for drawing in drawings if drawing is not None)


def whole(guide: Guide, bench: Bench, root: str, title: str) -> Drawing | None:
    """One assembly as it looks from outside, at an angle."""
    scene = _scene(guide, bench, root, title, "")
    return _told(guide, axonometric(scene, SIZE), scene, "Seen at an angle from above") if scene else None


def _one(guide: Guide, bench: Bench, root: str, title: str, lying: str) -> Drawing | None:
    scene = _scene(guide, bench, root, title, lying)
    if scene is None:
        return None
    outside = axonometric(scene, SIZE)
    solid = next(part.solid for part in scene.parts if part.id == root)
    if outside.unseen and isinstance(solid, Turned) and solid.bore:
        return _told(guide, half_section(scene, SIZE), scene, "Cut open along its upper half")
    return _told(guide, outside, scene, "Seen at an angle from above")


def _scene(guide: Guide, bench: Bench, root: str, title: str, lying: str) -> Scene | None:
    at = FACE_DOWN if lying.startswith(f"{root} ") and "under" in lying else HERE
    settled = settle(guide, bench, root, at)
    if not settled:
        return None
    scene = scene_of(guide, _unchanged(bench), root, settled | tied_to(guide, bench, settled), title)
    parts = tuple(part._replace(label=True) for part in scene.parts)
    return scene._replace(parts=parts, bands=(), marks=(), dims=())


def _told(guide: Guide, drawing: Drawing, scene: Scene, how: str) -> Drawing:
    """The drawing with a text alternative that says what is there: nothing in it is new."""
    root = thing_of(guide, scene.parts[0].id)
    hidden = [part.id for part in scene.parts if part.id in drawing.unseen]
    seen = [part.id for part in scene.parts[1:] if part.id not in drawing.unseen]
    text = f"{how}: the {root.name if root is not None else scene.parts[0].name}"
    text += f", with {_names(guide, seen)}." if seen else "."
    return drawing._replace(alt=text + (f" Inside, unseen: {_names(guide, hidden)}." if hidden else ""))


def _names(guide: Guide, items: Iterable[str]) -> str:
    """`the motor clip, the rear ring and 4 fins`."""
    counts: dict[str, int] = {}
    for item in items:
        if (thing := thing_of(guide, item)) is not None:
            counts[thing.id] = counts.get(thing.id, 0) + 1
    return listed([f"{'the' if n == 1 else n} {name_of(guide.things[id], n)}" for id, n in counts.items()])


def _unchanged(bench: Bench) -> Changes:
    """The changes of a step that does nothing to a bench."""
    return Changes(bench, bench, (), (), (), (), (), (), (), (), (), (), (), ())
