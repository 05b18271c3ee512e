"""A bench and what a step changed on it, as the Scene that a view looks at."""

from __future__ import annotations

from builder.drawings.changes import Changes
from builder.drawings.lying import turned_round
from builder.drawings.named import to_name
from builder.drawings.of_bench import Sitting, placed, thing_of
from builder.drawings.of_dims import PLACES, dims_of
from builder.drawings.of_ghost import ghosts
from builder.drawings.of_glue import bands_of
from builder.drawings.of_marks import centred, mark_lines, new_holes, rings, worked_edges
from builder.drawings.of_part import ends_of
from builder.drawings.of_seats import sits_of
from builder.drawings.of_tape import tapes
from builder.drawings.of_ways import arrows_in, ways_of
from builder.drawings.scene import UNDER, Scene
from builder.drawings.solids import Slab
from builder.drawings.vectors import Pose
from builder.drawings.written import strokes
from builder.dryrun.shape import axes_of
from builder.guide.model import Guide, Thing

Settled = dict[str, Sitting]


def scene_of(guide: Guide, step: Changes, root: str, settled: Settled, title: str) -> Scene:
    """Everything on one root, with the step's glue, marks and dimensions."""
    new = {i for i in (*step.new, *step.tied) if i in settled}
    named = to_name(guide, step, settled, new)
    where = sits_of(guide, step, settled)
    whole = _assembly_names(guide, step)
    parts = tuple(
        placed(guide, i, s, new=i in new, label=i in named, sits=where.get(i, "")) for i, s in settled.items()
    )
    parts = tuple(p._replace(name=whole.get(p.id, p.name)) for p in parts)
    angles = checked_angles(step)
    parts = tuple(p._replace(name=p.name + angles.get(_id(p.id, angles), "")) for p in parts)
    parts = (*parts, *tapes(guide, step, settled))
    drawn = {m.id for m in step.marks}
    marks = [m for m in step.bench.marks.values() if m.host in settled]
    used = drawn | _gone_by(step)
    lines = [line for m in marks for line in mark_lines(m, settled, m.id in drawn, m.id in used)]
    worked = worked_edges(guide, step, settled) + new_holes(guide, step, settled) + rings(guide, settled, new)
    thing = thing_of(guide, root)
    solid = settled[root].solid
    names, face = edge_names(thing, settled[root].pose) if thing and isinstance(solid, Slab) else (NONE, "")
    if face == UNDER:
        face = _called(step, root) or face
    ends = ("", "") if thing is None else ends_of(thing)
    if turned_round(settled[root].pose):
        ends = (ends[1], ends[0])
    lines += arrows_in(guide, step, root, settled)
    off = ghosts(guide, step, root, settled)
    ways = ways_of(guide, step, root, settled)
    return Scene(
        title,
        parts,
        tuple(bands_of(guide, step, settled)),
        (*lines, *worked, *centred(step, settled), *strokes(guide, step, settled), *off),
        tuple(dims_of(guide, step, root, settled)),
        names[:2] if any(names) else ends,
        names,
        face,
        tuple(w for w in ways if not (off and w.endswith("out"))),
    )


NONE = ("", "", "", "")


def edge_names(thing: Thing, at: Pose) -> tuple[tuple[str, str, str, str], str]:
    """The names of a flat thing's edges as they lie in a plan, and the face that looks up; the names
    are empty if the guide has none."""
    face = "top" if at.ez[2] > 0 else UNDER
    outline = thing.outline
    if outline is None or len(outline.edges) != 4 or not (thing.chains or thing.holes):
        return NONE, face  # nothing on it is measured from an edge
    along, across = axes_of(thing)
    across = across if at.ey[1] > 0 else across[::-1]
    along = along if at.ex[0] > 0 else along[::-1]
    return (along[0], along[1], across[0], across[1]), face


def _called(step: Changes, root: str) -> str:
    """What the step calls the face of a thing that it turns up to put glue on, if that is not the underside:
    the outside of a strip that was folded."""
    for frame in step.frames:
        face = frame.action.word("face")
        if face in ("inside", "outside") and any(ref.id == root for ref in frame.action.refs("what")):
            return face
    return ""


def _gone_by(step: Changes) -> set[str]:
    """The marks that the step's places name."""
    found: set[str] = set()
    for frame in step.frames:
        for field in PLACES:
            for spot in frame.action.spots(field):
                found |= set(spot.names)
        if frame.repeat is not None:
            for spot in frame.repeat.spots:
                found |= set(spot.names)
        found |= {ref.id for ref in frame.action.refs("along")}
    return found


def _id(item: str, among: dict[str, str]) -> str:
    """The thing's id of an item, where that is what is looked for."""
    return item if item in among else item.rpartition(" ")[0]


def checked_angles(step: Changes) -> dict[str, str]:
    """What stands at an angle that the step checks, by id: `, at 90°` for its name."""
    found: dict[str, str] = {}
    for frame in step.frames:
        angle = frame.action.angle("angle")
        if frame.action.verb.kind == "verify" and angle is not None and angle.value is not None:
            quantity = angle.value.quantity
            if quantity is not None and quantity.written:
                found |= {ref.id: f", at {quantity.written}" for ref in frame.action.refs("what")}
    return found


def _assembly_names(guide: Guide, step: Changes) -> dict[str, str]:
    """The name of a sub-assembly for its base, where the step handles it as a whole."""
    found: dict[str, str] = {}
    for frame in step.frames:
        for ref in (*frame.action.refs("what"), *frame.action.refs("for")):
            thing = guide.things.get(ref.id)
            base = thing.refs.get("base") if thing is not None and thing.form == "assembly" else None
            if thing is not None and base is not None and base.id in step.seated:
                found[base.id] = thing.name
    return found
