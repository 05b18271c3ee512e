"""A bench and what a step changed on it, as the Scene that a view looks at."""

from __future__ import annotations

from builder.drawings.changes import Changes
from builder.drawings.of_bench import Sitting, placed, thing_of
from builder.drawings.of_dims import dims_of, sits_of
from builder.drawings.of_glue import bands_of
from builder.drawings.of_marks import mark_lines, worked_edges
from builder.drawings.of_part import ends_of
from builder.drawings.scene import Scene
from builder.guide.model import Guide

Settled = dict[str, Sitting]


def scene_of(guide: Guide, step: Changes, root: str, settled: Settled, title: str) -> Scene:
    """Everything on one root, with the step's glue, marks and dimensions."""
    new = {i for i in (*step.new, *step.tied) if i in settled}
    named = _to_name(step, settled, new)
    where = sits_of(guide, step, settled)
    whole = _assembly_names(guide, step)
    parts = tuple(
        placed(guide, i, s, new=i in new, label=i in named, sits=where.get(i, "")) for i, s in settled.items()
    )
    parts = tuple(p._replace(name=whole.get(p.id, p.name)) for p in parts)
    drawn = {m.id for m in step.marks}
    marks = [m for m in step.bench.marks.values() if m.host in settled]
    lines = [line for m in marks for line in mark_lines(m, settled, m.id in drawn)]
    thing = thing_of(guide, root)
    return Scene(
        title,
        parts,
        tuple(bands_of(guide, step, settled)),
        (*lines, *worked_edges(guide, step, settled)),
        tuple(dims_of(guide, step, root, settled)),
        ("", "") if thing is None else ends_of(thing),
    )


def _to_name(step: Changes, settled: Settled, new: set[str]) -> set[str]:
    """What gets its name: all of a small assembly; else what is new, what it sits on, what is handled."""
    if len({i.rpartition(" ")[0] or i for i in settled}) <= 5:
        return set(settled)
    seats = [step.bench.seats[i] for i in step.seated if i in settled]
    hosts = {s.host for s in seats}
    glued = {w.host for w in step.wets} | {m.host for m in step.marks}
    handled = set(step.touched) if not new else set()
    own = {*step.seated, *step.made, *step.folded, *step.tied, *(c.item for c in step.coats)}
    return (new & own) | hosts | glued | handled


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
