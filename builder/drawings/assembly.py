"""Which assemblies a step is drawn as: what it works on, placed, each kind once."""

from __future__ import annotations

from typing import NamedTuple

from builder.drawings.alternative import counted_names, listed
from builder.drawings.changes import Changes
from builder.drawings.lying import lies
from builder.drawings.of_bench import Sitting, settle, thing_of, tied_to
from builder.drawings.of_glue import drying_coats, drying_joints
from builder.guide.model import Guide

MOST = 3
"""So many assemblies at most are drawn for one step, one below the other."""


class Assembly(NamedTuple):
    """A root and all that sits on it, placed; `alike` is a sentence that says how many are like this one,
    `times` their number."""

    root: str
    settled: dict[str, Sitting]
    alike: str = ""
    times: int = 1


def assemblies(guide: Guide, step: Changes) -> list[Assembly]:
    """What a step is drawn as: the assemblies that it changes, or else those that it handles."""
    roots = list(dict.fromkeys(step.bench.root(i) for i in step.touched))
    if any(is_part(guide, r) for r in roots):
        busy = {step.bench.root(i) for i in step.new}
        roots = [r for r in roots if is_part(guide, r) or r in busy]
    # a wait shows all that was glued or painted since the wait before it
    dry = [i for j in drying_joints(guide, step) for i in (j.a, j.b)] + [*drying_coats(guide, step)]
    roots = list(dict.fromkeys((*roots, *(step.bench.root(i) for i in dry))))
    base = step.frames[0].step.stage.base
    if not roots and base in step.bench.items:
        roots = [step.bench.root(base)]
    found = [a for a in (_placed(guide, step, r) for r in roots) if a.settled]
    wanted = [a for a in found if changed(step) & set(a.settled)]
    # a knot changes nothing on the thing that it comes from; it is drawn at the eye
    tied = {j.b for j in step.joints if j.kind == "tie"}
    if tied:
        wanted = [a for a in found if tied & set(a.settled)] or wanted
    return _one_of_each(guide, step, wanted or found)[:MOST]


def changed(step: Changes) -> set[str]:
    """Every item that a step does something to that can be seen."""
    return (
        set(step.new)
        | {m.host for m in step.marks}
        | {w.host for w in step.wets}
        | {x for j in step.joints for x in (j.a, j.b)}
        | {h.item for h in step.holes}
    )


def is_part(guide: Guide, item: str) -> bool:
    """True for what the kit is made of, false for tools."""
    thing = thing_of(guide, item)
    return thing is not None and thing.sort == "part"


def _placed(guide: Guide, step: Changes, root: str) -> Assembly:
    at = lies(guide, root, step.frames[0].step.stage.lying)
    settled = settle(guide, step.bench, root, at, rough=True)
    return Assembly(root, settled | tied_to(guide, step.bench, settled))


def _one_of_each(guide: Guide, step: Changes, given: list[Assembly]) -> list[Assembly]:
    """Assemblies that are alike, copy by copy, are drawn once: the first stands for all."""
    groups: dict[tuple[tuple[str, bool], ...], list[Assembly]] = {}
    for a in given:
        kind = tuple(
            (thing.id, i in step.new) for i in a.settled if (thing := thing_of(guide, i)) is not None
        )
        groups.setdefault(kind, []).append(a)
    return [
        g[0]
        if len(g) == 1
        else g[0]._replace(alike=f"There are {len(g)} like this; one is drawn.", times=len(g))
        for g in groups.values()
    ]


def names_of(guide: Guide, items: list[str]) -> str:
    """Items in words, copies counted; empty if there are none."""
    names = [t.name for i in items if (t := thing_of(guide, i)) is not None]
    return listed(counted_names(names))


def taken_away(guide: Guide, step: Changes) -> str:
    """What a step takes off, in a sentence; empty if nothing."""
    gone = [i for i in dict.fromkeys(step.lifted) if i not in step.bench.seats]
    names = names_of(guide, gone)
    return f"Taken away in this step: {names}." if names else ""
