"""The patterns of a guide as true-size sheets: each thing with a pattern, in the shape that its numbers give.

Things that share a pattern are cut from one outline.  A strip that goes once round a tube is a marking
strip: its lines are the marks that the dry run takes from it, and the others that stand round that tube.
"""

from __future__ import annotations

from collections.abc import Iterable
from math import pi

from builder.drawings import patterns
from builder.drawings.grain import direction
from builder.drawings.measure import CAP_HEIGHT
from builder.drawings.of_bench import thing_of
from builder.drawings.of_part import hole_at, mm, outline_of
from builder.drawings.patterns import Line, Pattern
from builder.drawings.shapes import Drawing, Text
from builder.drawings.sheets import COMMON, Origin, printable, sheets
from builder.drawings.told_by import letter_of, middle_of
from builder.dryrun.effects import Lay, Place
from builder.dryrun.run import DryRun
from builder.guide.model import Guide, Thing

PLAY = 0.5
"""Room that a slot leaves where its guide states none, mm."""

HOLE = 3.0
"""A hole of a flat part whose diameter is not stated is marked this wide, mm."""


def pattern_sheets(
    guide: Guide, runs: Iterable[DryRun], *, paper: str = "", things: Iterable[str] | None = None,
    carded: bool = True,
) -> list[Drawing]:  # fmt: skip
    """The sheets of a guide's patterns; `paper` letter or a4, else what both can print.

    `things` limits them to some ids (one packet's route, the teacher's share); `carded` adds a card outline.
    """
    wanted = None if things is None else set(things)
    own = [p for p in patterns_of(guide, runs) if wanted is None or wanted & set(p.id.split(", "))]
    return sheets(own, origin_of(guide, paper), printable(paper) if paper else COMMON, carded=carded)


def origin_of(guide: Guide, paper: str = "", what: str = "Patterns") -> Origin:
    """What the head of a sheet says of its guide."""
    revision = f"revision {guide.revision.number}" if guide.revision is not None else "no revision"
    names = {"letter": "letter paper", "a4": "A4 paper"}
    return Origin(guide.title, revision, names.get(paper, "letter or A4"), what)


def pattern_things(guide: Guide) -> dict[str, list[Thing]]:
    """The things of each pattern, by the pattern's name, in the order written."""
    found: dict[str, list[Thing]] = {}
    for thing in guide.things.values():
        name = thing.words.get("pattern", "")
        if not name and _cut_along_pattern(guide, thing.id):
            name = thing.id
        if name:
            found.setdefault(name, []).append(thing)
    return found


def _cut_along_pattern(guide: Guide, name: str) -> bool:
    """True if some step cuts a thing along a pattern that nobody named."""
    return any(
        action.verb.kind == "cut"
        and action.word("along") == "pattern"
        and any(ref.id == name for ref in action.refs("what"))
        for step in guide.every_step()
        for action in step.each_action()
    )


def patterns_of(guide: Guide, runs: Iterable[DryRun]) -> list[Pattern]:
    """Every pattern whose numbers are known; its id is the ids of its things, comma between."""
    runs = tuple(runs)
    found: list[Pattern] = []
    for name, things in pattern_things(guide).items():
        thing = things[0]
        title = thing.name if len(things) == 1 else name.replace("_", " ")
        ids = ", ".join(t.id for t in things)
        made = pattern_of(guide, thing, ids, title, _note(things), runs)
        if made is not None:
            found.append(made)
    return found


def _note(things: list[Thing]) -> str:
    """How many to cut, and of which part where one outline serves several."""
    if len(things) == 1:
        return f"cut {things[0].count}"
    return "cut " + " and ".join(f"{t.count} {t.name}" for t in things)


def pattern_of(
    guide: Guide, thing: Thing, ids: str, title: str, note: str, runs: tuple[DryRun, ...]
) -> Pattern | None:
    """The pattern of one thing, with the way of its grain; None if a number that it needs is unknown."""
    made = _shape_of(guide, thing, ids, title, note, runs)
    return made._replace(grain=direction(thing)) if made is not None else None


def _shape_of(
    guide: Guide, thing: Thing, ids: str, title: str, note: str, runs: tuple[DryRun, ...]
) -> Pattern | None:
    if thing.form in ("ring", "disc"):
        return _round(guide, thing, ids, title, note, runs)
    if thing.form == "regular polygon":
        flats, sides = mm(thing.mm("across_flats")), thing.mm("sides")
        return patterns.polygon(ids, title, int(sides), flats, note=note) if sides and flats else None
    if thing.form == "strip":
        return _strip(guide, thing, ids, title, note, runs)
    if thing.outline is not None and thing.outline.shape == "fin":
        root, tip, span = (mm(thing.mm(f)) for f in ("root", "tip", "span"))
        if min(root, span) <= 0:
            return None
        square = thing.outline.words.get("square_edge", "")
        sweep = thing.mm("sweep")
        return patterns.fin(
            ids, title, root, tip, span, square_edge=square, note=note,
            sweep=None if sweep is None else float(sweep),
        )  # fmt: skip
    points = outline_of(thing)
    if points is None:
        return None
    holes = tuple((at, HOLE) for at in (hole_at(thing, hole) for hole in thing.holes) if at is not None)
    made = patterns.outline(ids, title, points, holes=holes, note=note)
    letter = letter_of(thing)
    if not letter:
        return made
    x, y = middle_of(points)
    return made._replace(shapes=(*made.shapes, Text((x, CAP_HEIGHT / 2 - y), letter, "middle")))


def _round(
    guide: Guide, thing: Thing, ids: str, title: str, note: str, runs: tuple[DryRun, ...]
) -> Pattern | None:
    outside = mm(thing.mm("outside") or thing.mm("diameter"))
    inside = mm(thing.mm("inside"))
    if outside <= 0:
        return None
    slot = thing.refs.get("slots")
    other = guide.things.get(slot.id) if slot is not None else None
    if inside <= 0:
        made = patterns.disc(ids, title, outside, note=note)
        radius = _stands_at(guide, other, runs) if other is not None else None
        if other is None or radius is None:
            return made
        play = mm(thing.mm("play"), PLAY)
        width, depth = mm(other.mm("width")) + play, mm(other.mm("thickness")) + play
        return patterns.with_slot(made, radius - play / 2, width, depth)
    if other is None:
        return patterns.ring(ids, title, outside, inside, note=note)
    play = mm(thing.mm("play"), PLAY)
    if other.outline is not None and other.outline.shape == "fin":
        width, depth = mm(other.mm("thickness")) + play, mm(other.mm("span")) + play
    else:  # something thin that lies along the bore: a clip
        width, depth = mm(other.mm("width")) + play, mm(other.mm("thickness")) + play
    depth = min(depth, (outside - inside) / 2 - 1.0)
    if depth <= 0 or width >= inside:
        # such a slot cannot be cut, which has its own finding; the ring can still be drawn
        return patterns.ring(ids, title, outside, inside, note=note)
    return patterns.jig(ids, title, outside, inside, other.count, width, depth, note=note)


def _stands_at(guide: Guide, thing: Thing, runs: tuple[DryRun, ...]) -> float | None:
    """How far from the axis a thing lies that is placed on the outside of something round, mm."""
    for run in runs:
        for frame in run.frames:
            for e in frame.effects:
                if isinstance(e, Place) and e.seat.child == thing.id and e.seat.side in ("taped", "outside"):
                    host = thing_of(guide, e.seat.host)
                    size = mm(host.mm("outside")) if host is not None else 0.0
                    return size / 2 if size > 0 else None
    return None


def _strip(
    guide: Guide, thing: Thing, ids: str, title: str, note: str, runs: tuple[DryRun, ...]
) -> Pattern | None:
    length, width = mm(thing.mm("length")), mm(thing.mm("width"))
    if length <= 0 or width <= 0:
        return None
    host = _wrapped_round(guide, thing, runs)
    if host is not None:
        return patterns.marking_strip(ids, title, length, width, _lines(guide, thing, host, runs), note=note)
    folded = mm(thing.mm("folded_length"))
    folds: tuple[float, ...] = ()
    if 0 < folded < length:
        folds = tuple(folded * i for i in range(1, round(length / folded)))
    return patterns.folded_strip(ids, title, length, width, folds, note=note)


def _wrapped_round(guide: Guide, thing: Thing, runs: tuple[DryRun, ...]) -> Thing | None:
    """The tube that a strip is wrapped round on some route, if the strip is as long as it is round."""
    for run in runs:
        for frame in run.frames:
            for e in frame.effects:
                if isinstance(e, Place) and e.seat.child == thing.id and e.seat.side == "outside":
                    host = thing_of(guide, e.seat.host)
                    around = pi * mm(host.mm("outside")) if host is not None else 0.0
                    if host is not None and abs(around - mm(thing.mm("length"))) < 0.5:
                        return host
    return None


def _lines(guide: Guide, thing: Thing, host: Thing, runs: tuple[DryRun, ...]) -> tuple[Line, ...]:
    """A line for each mark that is taken from the strip, and for each other mark at an angle on its tube."""
    length = mm(thing.mm("length"))
    found: dict[float, str] = {}
    for run in runs:
        for frame in run.frames:
            for e in frame.effects:
                if not isinstance(e, Lay) or e.mark.host != host.id or not e.mark.angles:
                    continue
                source = frame.action.ref("from")
                taken = source is not None and source.id == thing.id
                label = _label(guide, e.mark.id, len(e.mark.angles), frame.action.angle("angle"))
                for number, angle in enumerate(e.mark.angles, 1):
                    at = length * float(angle) / 360
                    text = f"{label} {number}" if len(e.mark.angles) > 1 else label
                    if taken or at not in found:
                        found[at] = text
    return tuple(Line(at, label) for at, label in sorted(found.items()))


def _label(guide: Guide, mark: str, count: int, angle: object) -> str:
    """What a line is for: the part that it is spaced for, or the mark's own name."""
    part = getattr(angle, "of", "")
    if part and part in guide.things:
        return guide.things[part].name
    return mark.removesuffix("_line").removesuffix("_lines").replace("_", " ")
