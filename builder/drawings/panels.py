"""A step as a row of panels: what is done one after another is drawn one after another.

Each frame is told by what it does to the bench: it cuts, marks, makes a hole, lays glue, places, folds, ties.
Neighbours of one kind share a panel, and so does what changes nothing (a look, a measure).  MOST panels are
drawn at most: then a panel stands for all the copies of a repeat, a cut is drawn with what is next done to
the piece, and so on down MERGES.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import NamedTuple

from builder.drawings.shapes import Drawing, Shape, moved, together
from builder.dryrun.effects import Close, Effect, Lay, Lift, Make, Paint, Place, Wetten
from builder.dryrun.effects import Shape as Shaped
from builder.dryrun.run import Frame

MOST = 4
"""So many panels at most."""

GAP = 6.0
"""Room between two panels, mm."""


class Panel(NamedTuple):
    """Frames that share a panel, what they do, and how often the same is done again for other copies."""

    kind: str
    frames: tuple[Frame, ...]
    times: int = 1

    @property
    def copies(self) -> tuple[str, ...]:
        """The written actions, each once: the copies of a repeat have the same."""
        return tuple(dict.fromkeys(f.action.path for f in self.frames))


def kind_of(frame: Frame) -> str:
    """What a frame does, as far as a drawing shows it; empty if it changes nothing that can be seen."""
    verb = frame.action.verb.kind
    found = {type(e) for e in frame.effects}
    if verb in VERBS and not (verb == "roll" and Place in found):
        return verb
    if Place in found:
        return "place"
    if Wetten in found or any(isinstance(e, Close) and e.joint.adhesive for e in frame.effects):
        return "glue"
    for effect, kind in KINDS:
        if effect in found:
            return kind
    return ""


VERBS = ("cut", "fold", "roll", "tie", "paint", "sand")
"""Acts that have pictures of their own, whatever they do to the bench."""

KINDS: tuple[tuple[type[Effect], str], ...] = (
    (Lay, "mark"),
    (Shaped, "hole"),
    (Lift, "lift"),
    (Make, "make"),
    (Paint, "paint"),
)
"""Effects by which a frame is told, the first that it has."""


def panels_of(frames: Sequence[Frame]) -> list[Panel]:
    """The panels of a step's frames, in order; one where all is done at once."""
    found: list[Panel] = []
    quiet: list[Frame] = []
    for frame in frames:
        kind = kind_of(frame)
        last = found[-1] if found else None
        if not kind and last is None:
            quiet.append(frame)
        elif last is not None and _shares(last, frame, kind):
            found[-1] = last._replace(frames=(*last.frames, frame))
        else:
            found.append(Panel(kind, (*quiet, frame)))
            quiet = []
    if not found:
        return [Panel("", tuple(frames))]
    for merge in MERGES:
        if len(found) <= MOST and merge is not _before_folding and merge is not _lifted:
            break
        found = merge(found)
    return found


def _shares(last: Panel, frame: Frame, kind: str) -> bool:
    """True if a frame is drawn with those before it."""
    if not kind:
        return True
    if kind == "lift":
        return last.kind in ("lift", "roll")  # the pictures of a rolling show the former that comes out
    if kind != last.kind:
        return False
    if kind == "tie":
        return frame.action.path == last.frames[-1].action.path  # each knot has its own picture
    return kind != "glue" or frame.action.path == last.frames[-1].action.path or _open(last, frame)


def _open(last: Panel, frame: Frame) -> bool:
    """True if glue goes onto the same thing as the glue before."""
    hosts = {e.wet.host for f in last.frames for e in f.effects if isinstance(e, Wetten)}
    return bool(hosts & {e.wet.host for e in frame.effects if isinstance(e, Wetten)})


def _joined(panels: list[Panel], i: int, kind: str) -> list[Panel]:
    """Two neighbours as one."""
    a, b = panels[i], panels[i + 1]
    return [*panels[:i], Panel(kind, (*a.frames, *b.frames), max(a.times, b.times)), *panels[i + 2 :]]


def _before_folding(panels: list[Panel]) -> list[Panel]:
    """The pictures of a folding show the glue that is folded in."""
    for i in range(len(panels) - 1):
        if panels[i].kind == "glue" and panels[i + 1].kind == "fold":
            return _before_folding(_joined(panels, i, "fold"))
    return panels


def _lifted(panels: list[Panel]) -> list[Panel]:
    """What is taken away before something is done where it was is drawn with that."""
    for i in range(len(panels) - 1):
        if panels[i].kind == "lift":
            return _lifted(_joined(panels, i, panels[i + 1].kind))
    return panels


def _repeated(panels: list[Panel]) -> list[Panel]:
    """A repeat as two panels or as many as its actions are: the first copy's, and at the last all copies'."""
    found: list[Panel] = []
    i = 0
    while i < len(panels):
        repeat = panels[i].frames[0].repeat
        n = i + 1
        while repeat is not None and n < len(panels) and panels[n].frames[0].repeat == repeat:
            n += 1
        if repeat is None or n == i + 1:
            found.append(panels[i])
            i += 1
            continue
        own = panels[i:n]
        round_ = 1 + next((k for k in range(1, len(own)) if own[k].copies == own[0].copies), len(own)) - 1
        times = len(own) // round_
        found += [p._replace(times=times) for p in own[: round_ - 1]]
        found.append(Panel(own[round_ - 1].kind, tuple(f for p in own for f in p.frames)))
        i = n
    return found


def _with_its_cut(panels: list[Panel]) -> list[Panel]:
    """A piece that is cut out is drawn when something is next done to it."""
    for i in range(len(panels) - 1):
        if panels[i].kind == "cut":
            return _joined(panels, i, panels[i + 1].kind)
    return panels


def _last_ones(panels: list[Panel]) -> list[Panel]:
    """All that comes late is drawn as it is in the end; what is taken away last keeps its picture."""
    if len(panels) <= MOST:
        return panels
    kept = [panels[-1]] if panels[-1].kind == "lift" else []
    first, late = panels[: MOST - 1 - len(kept)], panels[MOST - 1 - len(kept) : len(panels) - len(kept)]
    return [*first, Panel(late[-1].kind, tuple(f for p in late for f in p.frames)), *kept]


MERGES: tuple[Callable[[list[Panel]], list[Panel]], ...] = (
    _before_folding,
    _lifted,
    _repeated,
    _with_its_cut,
    _last_ones,
)
"""How panels become fewer, in turn, until there are MOST; the first two always."""


def in_rows(drawings: Sequence[Drawing], title: str, width: float) -> Drawing:
    """Panels in rows from left to right, as many in a row as fit a width in mm, their tops level.

    ValueError if there is none.
    """
    kept = tuple(drawings)
    if not kept:
        raise ValueError("nothing to draw")
    if len(kept) == 1:
        return kept[0]._replace(title=title)
    rows: list[list[Drawing]] = []
    for d in kept:
        own = rows[-1] if rows else None
        if own is not None and sum(o.width + GAP for o in own) + d.width <= width:
            own.append(d)
        else:
            rows.append([d])
    wide = max(sum(d.width + GAP for d in row) - GAP for row in rows)
    shapes: list[Shape] = []
    y = 0.0
    for row in rows:
        x = (wide - (sum(d.width + GAP for d in row) - GAP)) / 2 if len(row) == 1 else 0.0
        for d in row:
            shapes += [moved(s, x, y) for s in d.shapes]
            x += d.width + GAP
        y += max(d.height for d in row) + GAP
    return together(kept, title, wide, y - GAP, shapes)
