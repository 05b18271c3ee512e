"""What a step does to the bench, and the bench at which it is drawn.

A drawing shows the bench after its step.  Where a step takes away again all that it brought (a gauge that
is tried, a former that is drawn out), it shows the bench just before the first of that is taken away.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from builder.drawings.of_bench import thing_of
from builder.dryrun.bench import Bench, Coat, Hole, Joint, Mark, Wet
from builder.dryrun.effects import Close, Lay, Lift, Make, Paint, Place, Shape, Wetten
from builder.dryrun.run import Frame
from builder.guide.model import Guide, Ref


class Changes(NamedTuple):
    """One step's effects, as far as they are there when the step is drawn."""

    before: Bench
    bench: Bench
    frames: tuple[Frame, ...]
    made: tuple[str, ...]
    cut: tuple[str, ...]
    """What came to be by cutting, and is not yet placed."""
    seated: tuple[str, ...]
    marks: tuple[Mark, ...]
    wets: tuple[Wet, ...]
    joints: tuple[Joint, ...]
    holes: tuple[Hole, ...]
    coats: tuple[Coat, ...]
    folded: tuple[str, ...]
    lifted: tuple[str, ...]
    touched: tuple[str, ...]
    """Every item that an effect or a field names, in that order."""

    @property
    def new(self) -> tuple[str, ...]:
        """Items that the step adds, places (with all that sits on them), folds or paints, each once."""
        carried = (i for child in self.seated for i in self.bench.below(child))
        found = (*carried, *self.made, *self.folded, *(c.item for c in self.coats))
        return tuple(dict.fromkeys(found))

    @property
    def tied(self) -> tuple[str, ...]:
        """Items that the step ties to something."""
        return tuple(dict.fromkeys(j.a for j in self.joints if j.kind == "tie"))


def changes(guide: Guide, frames: Sequence[Frame]) -> Changes:
    """What the frames of one step change.  ValueError if there are none."""
    if not frames:
        raise ValueError("a step without frames changes nothing")
    last = _last_shown(frames)
    kept = tuple(frames[: last + 1])
    before, bench = frames[0].before, kept[-1].after
    effects = [(f, e) for f in kept for e in f.effects]
    made = [e.item.key for _, e in effects if isinstance(e, Make)]
    seated = [e.seat.child for _, e in effects if isinstance(e, Place)]
    marks = [e.mark.id for _, e in effects if isinstance(e, Lay)]
    seated = [c for c in dict.fromkeys(seated) if c in bench.seats]
    cut = [
        e.item.key
        for f, e in effects
        if isinstance(e, Make) and f.action.verb.kind == "cut" and e.item.key not in bench.seats
    ]
    shaped = [e for _, e in effects if isinstance(e, Shape)]
    laid = [e.wet for _, e in effects if isinstance(e, Wetten)]
    return Changes(
        before,
        bench,
        tuple(frames),
        tuple(dict.fromkeys(made)),
        tuple(dict.fromkeys(cut)),
        tuple(seated),
        tuple(bench.marks[m] for m in dict.fromkeys(marks) if m in bench.marks),
        tuple(w for w in laid if w in bench.wets),
        tuple(e.joint for _, e in effects if isinstance(e, Close) and e.joint in bench.joints),
        tuple(e.hole for e in shaped if e.hole is not None),
        tuple(e.coat for _, e in effects if isinstance(e, Paint)),
        tuple(dict.fromkeys(e.item for e in shaped if e.what == "folded")),
        tuple(e.child for f in frames for e in f.effects if isinstance(e, Lift) and e.child),
        _touched(guide, kept, bench),
    )


def _last_shown(frames: Sequence[Frame]) -> int:
    """The frame after which the step is drawn."""
    end = frames[-1].after
    brought: set[str] = set()
    lasting = False
    first_lift: int | None = None
    for i, frame in enumerate(frames):
        for e in frame.effects:
            if isinstance(e, Place):
                brought.add(e.seat.child)
                lasting = lasting or end.seats.get(e.seat.child) == e.seat
            elif isinstance(e, Lift) and e.child in brought and first_lift is None:
                first_lift = i
            elif isinstance(e, Make | Lay | Paint | Shape):
                lasting = True
            elif isinstance(e, Wetten):
                lasting = lasting or e.wet in end.wets
    if lasting or first_lift is None or first_lift == 0:
        return len(frames) - 1
    return first_lift - 1


def items_of(guide: Guide, bench: Bench, ref: Ref) -> list[str]:
    """The items on the bench that a reference names."""
    thing = guide.things.get(ref.id)
    if thing is None:
        return []
    if thing.form == "assembly":
        base = thing.refs.get("base")
        return items_of(guide, bench, base) if base is not None and base.id != ref.id else []
    keys = (
        [ref.id] if thing.count <= 1 else [f"{ref.id} {n}" for n in ref.copies or range(1, thing.count + 1)]
    )
    return [k for k in keys if k in bench.items]


def _touched(guide: Guide, frames: Sequence[Frame], bench: Bench) -> tuple[str, ...]:
    found: list[str] = []
    for frame in frames:
        for e in frame.effects:
            if isinstance(e, Place):
                found += [e.seat.child, e.seat.host]
            elif isinstance(e, Make):
                found.append(e.item.key)
            elif isinstance(e, Lay):
                found.append(e.mark.host)
            elif isinstance(e, Wetten):
                found.append(e.wet.host)
            elif isinstance(e, Close):
                found += [e.joint.a, e.joint.b]
            elif isinstance(e, Shape):
                found.append(e.item)
            elif isinstance(e, Paint):
                found.append(e.coat.item)
            elif isinstance(e, Lift) and e.child in frame.before.seats:
                found.append(frame.before.seats[e.child].host)
        for field in (
            "what",
            "for",
            "onto",
            "into",
            "over",
            "handles",
            "loads",
            "to",
            "from",
            "puts",
            "with",
        ):
            for ref in frame.action.refs(field):
                thing = guide.things.get(ref.id)
                if thing is not None and thing.sort != "material":
                    found += items_of(guide, bench, ref)
    return tuple(i for i in dict.fromkeys(found) if i in bench.items and thing_of(guide, i) is not None)
