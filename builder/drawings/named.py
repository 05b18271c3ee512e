"""Which parts of a picture have their names: what the step adds, moves, works on or lets dry, what that sits
on and touches, what a place is measured from, and what the words of the step name.

A bystander has none: its leader would only run through the parts that the step is about.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator, Mapping
from typing import TypeAlias

from builder.drawings.changes import Changes
from builder.drawings.of_bench import Sitting, thing_of
from builder.drawings.of_dims import PLACES
from builder.drawings.of_glue import drying_coats, drying_joints
from builder.drawings.scene import Placed
from builder.drawings.solids import Turned
from builder.drawings.window import reach
from builder.guide.model import Action, Guide
from builder.guide.wording import sentence
from builder.guide.wording.nouns import plural_name
from builder.guide.wording.pieces import NAME, TEXT

Settled: TypeAlias = Mapping[str, Sitting]

AROUND = ("inside", "outside")
"""How what has neighbours sits on its host: what is taped or tied on has none."""

NEAR = 0.5
"""What comes so near to another, mm, touches it."""


def to_name(guide: Guide, step: Changes, settled: Settled, new: Collection[str]) -> set[str]:
    """The items of a picture that have their names; its root if nothing is done to any of them."""
    here, seats = set(settled), step.bench.seats
    seated = [i for i in step.seated if i in here]
    own = {*step.seated, *step.made, *step.folded, *step.tied, *(c.item for c in step.coats)} & set(new)
    worked = {w.host for w in step.wets} | {m.host for m in step.marks} | {h.item for h in step.holes}
    worked |= {i for j in step.joints for i in (j.a, j.b)}
    dry = {i for j in drying_joints(guide, step) for i in (j.a, j.b, j.held_by)}
    dry |= {i for i in settled if i in seats and seats[i].host in dry and _is_tool(guide, i)}
    dry |= set(drying_coats(guide, step))
    placed = seated or [*own, *worked, *drying_coats(guide, step)]
    hosts = {seats[i].host for i in placed if i in seats}
    carried = {j for i in seated for j in step.bench.below(i) if j != i}
    beside = _touched([i for i in seated if seats[i].side in AROUND], settled) - carried
    # what sits in another neighbour is no neighbour of its own: a lens in the ring that carries it
    beside -= {i for i in beside if i in seats and seats[i].host in beside - hosts}
    found = (own | hosts | worked | dry | beside | _said(guide, step, settled)) & here
    if not own & here:  # nothing is added: what is handled, and what that sits on
        handled = set(step.touched) & here
        found |= handled | {seats[i].host for i in handled if i in seats} & here
    return found or set(list(settled)[:1])


def _is_tool(guide: Guide, item: str) -> bool:
    thing = thing_of(guide, item)
    return thing is not None and thing.sort == "tool"


def _touched(seated: list[str], settled: Settled) -> set[str]:
    """What the round parts that the step places touch: their neighbours along an axis and round it."""
    found: set[str] = set()
    for i in seated:
        found |= {j for j in settled if j != i and _meet(settled[i], settled[j])}
    return found


def _meet(one: Sitting, other: Sitting) -> bool:
    a, b = one.solid, other.solid
    if not isinstance(a, Turned) or not isinstance(b, Turned):
        return False
    off, along = one.pose.local(other.pose.origin)[1:], one.pose.local_direction(other.pose.ex)[0]
    if abs(off[0]) + abs(off[1]) > NEAR or abs(along) < 1 - 1e-6:
        return False
    (low, high), (x0, x1) = (reach(Placed("", "", s.solid, s.pose)) for s in (one, other))
    (in_a, out_a), (in_b, out_b) = _radii(a), _radii(b)
    return x0 < high + NEAR and x1 > low - NEAR and in_a < out_b + NEAR and in_b < out_a + NEAR


def _radii(solid: Turned) -> tuple[float, float]:
    """The least radius at which there is something of a turned part, and its largest."""
    inner = min((min(s.r0, s.r1) for s in solid.bore), default=0.0)
    return inner, solid.largest


def _said(guide: Guide, step: Changes, settled: Settled) -> set[str]:
    """What is in the picture and named by the words, or the places, of the step's actions."""
    found: set[str] = set()
    names = _names(guide, settled)
    if not names:
        return found
    longest_first = sorted(names, key=len, reverse=True)
    either = re.compile(rf"\b({'|'.join(map(re.escape, longest_first))})\b")
    for action in {f.action.path: f.action for f in step.frames}.values():
        ids = set(_ids(action))
        for piece in sentence(action, guide).pieces:
            if piece.kind == NAME:
                ids.add(piece.of)
            elif piece.kind == TEXT:
                for word in either.findall(piece.text):
                    found |= names[word]
        found |= {i for i in settled if i in ids or i.rpartition(" ")[0] in ids}
    return found


def _names(guide: Guide, settled: Settled) -> dict[str, set[str]]:
    """What is in the picture by its names, for one and for several."""
    found: dict[str, set[str]] = {}
    for i in settled:
        thing = thing_of(guide, i)
        if thing is not None:
            for name in (thing.name, plural_name(thing.name)):
                found.setdefault(name, set()).add(i)
    return found


def _ids(action: Action) -> Iterator[str]:
    """What the places of an action are measured from, and what it goes through."""
    for field in PLACES:
        for spot in action.spots(field):
            yield from spot.names
    yield from action.words("through")
