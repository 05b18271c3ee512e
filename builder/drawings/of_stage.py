"""What the builder holds between two stages: each assembly as it is, with all its names and no dimension."""

from __future__ import annotations

from collections.abc import Iterable

from builder.drawings.angled import angled
from builder.drawings.assembly import MOST, is_part
from builder.drawings.changes import Changes
from builder.drawings.half_section import half_section
from builder.drawings.leaders import TALL
from builder.drawings.letters import letters_of
from builder.drawings.lying import lies
from builder.drawings.of_bench import Sitting, settle, thing_of, tied_to
from builder.drawings.of_exploded import lettered, names
from builder.drawings.of_scene import scene_of
from builder.drawings.scene import Placed, Scene
from builder.drawings.shapes import Drawing
from builder.drawings.solids import Turned
from builder.dryrun.bench import Bench
from builder.guide.model import Guide

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
    guide: Guide,
    bench: Bench,
    roots: Iterable[str],
    title: str,
    lying: str = "",
    before: Bench | None = None,
    size: tuple[float, float] = SIZE,
) -> tuple[Drawing, ...]:
    """Each assembly at an angle, and in half section too where it hides what came in since `before`."""
    found: list[Drawing] = []
    for root in list(roots)[:MOST]:
        outside = whole(guide, bench, root, title, lying, size)
        if outside is None:
            continue
        found.append(outside)
        hidden = [i for i in outside.unseen if before is None or i not in before.below(root)]
        cut = _cut_open(guide, bench, root, title, lying, size) if hidden else None
        if cut is not None and any(i not in cut.unseen for i in hidden):
            found.append(cut)
    return tuple(found)


def whole(
    guide: Guide,
    bench: Bench,
    root: str,
    title: str,
    lying: str = "",
    size: tuple[float, float] = SIZE,
    tallest: float = TALL,
) -> Drawing | None:
    """One assembly as it looks from outside, at an angle, with the letters of the parts table.

    `size` is for the picture alone; with its names it is `tallest` mm high, if they find room beside it."""
    settled = _settled(guide, bench, root, lying)
    if not settled:
        return None
    drawing = angled(Scene(title, lettered(guide, settled)), (), size, tallest=tallest)
    return _told(guide, drawing, settled, "Seen at an angle from above")


def _cut_open(
    guide: Guide, bench: Bench, root: str, title: str, lying: str, size: tuple[float, float]
) -> Drawing | None:
    """One assembly in half section; None if its base is no tube."""
    settled = _settled(guide, bench, root, lying)
    solid = settled[root].solid
    if not (isinstance(solid, Turned) and solid.bore):
        return None
    scene = scene_of(guide, _unchanged(bench), root, settled, title)
    parts = tuple(part._replace(label=True, name=_named(guide, part)) for part in scene.parts)
    scene = scene._replace(parts=parts, bands=(), marks=(), dims=())
    return _told(guide, half_section(scene, size), settled, "Cut open along its upper half")


def _named(guide: Guide, part: Placed) -> str:
    """The name of a part with its letter after it."""
    thing = thing_of(guide, part.id)
    letter = letters_of(guide).get(thing.id, "") if thing is not None else ""
    return f"{part.name} ({letter})" if letter else part.name


def _settled(guide: Guide, bench: Bench, root: str, lying: str) -> dict[str, Sitting]:
    settled = settle(guide, bench, root, lies(guide, root, lying))
    return settled | tied_to(guide, bench, settled) if settled else {}


def _told(guide: Guide, drawing: Drawing, settled: dict[str, Sitting], how: str) -> Drawing:
    """The drawing with a text alternative that says what is there: nothing in it is new."""
    root, *others = settled
    seen = [item for item in others if item not in drawing.unseen]
    text = f"{how}: {names(guide, [root])}" + (f", with {names(guide, seen)}." if seen else ".")
    hidden = f" Not to be seen in this picture: {names(guide, drawing.unseen)}." if drawing.unseen else ""
    return drawing._replace(alt=text + hidden)


def _unchanged(bench: Bench) -> Changes:
    """The changes of a step that does nothing to a bench."""
    return Changes(bench, bench, (), (), (), (), (), (), (), (), (), (), (), ())
