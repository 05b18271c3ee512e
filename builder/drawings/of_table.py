"""What lies on the table: loose things, each by the face that tells it, and the guide's patterns."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence

from builder.drawings.alternative import listed
from builder.drawings.assembly import MOST, is_part, names_of
from builder.drawings.callouts import Callout, flags
from builder.drawings.changes import Changes, items_of
from builder.drawings.dimensions import runs_through
from builder.drawings.lying import lies
from builder.drawings.measure import text_width
from builder.drawings.of_bench import Sitting, settle, thing_of
from builder.drawings.of_part import mm
from builder.drawings.of_pattern import pattern_of, pattern_things
from builder.drawings.of_scene import scene_of
from builder.drawings.patterns import Pattern, with_slot
from builder.drawings.scaled import scaled
from builder.drawings.shapes import Box, Drawing, Polyline, Shape, Text, finished, moved, segment, stacked
from builder.drawings.solids import Turned
from builder.drawings.told_by import letter_of
from builder.drawings.vectors import Pose
from builder.drawings.views import plan, side
from builder.dryrun.run import DryRun, Frame
from builder.guide.model import Guide, Prose, Ref, Thing

FACE_UP = Pose((0.0, 0.0, 0.0), (0.0, 0.0, 1.0), (1.0, 0.0, 0.0), (0.0, 1.0, 0.0))
"""How a ring or a disc lies: its axis upright."""

IN_A_ROW = 5
"""So many kinds of things at most lie in one row."""


def is_disc(solid: object) -> bool:
    """True for what is round and shorter than it is wide: it lies on its face."""
    return isinstance(solid, Turned) and solid.end - solid.start < 2 * solid.largest


def own_run(frames: Sequence[Frame], guide: Guide) -> DryRun:
    """The frames of one step as a run of their own, for what is looked up in runs."""
    return DryRun(guide.routes[0], frames[0].before, tuple(frames))


def nothing(
    guide: Guide, step: Changes, title: str, width: float, things: Collection[str] | None = None
) -> Drawing:
    """For a step that puts nothing together: its patterns if it speaks of them, else what it speaks of, else
    what the builder has on the table, in a row."""
    words = " ".join(f.action.word("what") for f in step.frames if f.action.verb.kind == "do")
    if "pattern" in words:
        made = printed(guide, step, title, width, things)
        if made is not None:
            return made
    told = spoken_of(guide, step)
    items = told or [i for i in step.bench.items if i not in step.bench.seats and is_part(guide, i)]
    kinds: dict[str, list[str]] = {}
    for item in items:
        thing = thing_of(guide, item)
        if thing is not None:
            kinds.setdefault(thing.id, []).append(item)
    drawings: list[Drawing] = []
    room = (width / max(1, min(len(kinds), IN_A_ROW)), 40.0)
    for copies in list(kinds.values())[:IN_A_ROW]:
        made = loose(guide, step, copies[0], title, room)
        if made is not None:
            drawings.append(made)
    if not drawings:
        return finished(title, f"{title}. Nothing of the kit is on the table yet.", ())
    row = stacked(drawings, title, level=True)
    names = names_of(guide, [i for copies in kinds.values() for i in copies])
    marks = [mark_of(guide, copies[0]) for copies in kinds.values()]
    how = f" They are {listed([m for m in marks if m])}." if any(marks) else ""
    return row._replace(alt=f"Nothing is put together in this step. On the table: {names}.{how}", unseen=())


def mark_of(guide: Guide, item: str) -> str:
    """What tells a thing from others like it, in the guide's words; empty if nothing is said."""
    thing = thing_of(guide, item)
    return "" if thing is None else thing.words.get("told_by", "")


def spoken_of(guide: Guide, step: Changes) -> list[str]:
    """Items that the words of a `do` refer to by name."""
    found: list[str] = []
    for frame in step.frames:
        prose = frame.action.fields.get("what")
        if not isinstance(prose, Prose):
            continue
        for piece in prose.pieces:
            if not isinstance(piece, str) and piece[0] in guide.things:
                found += items_of(guide, step.bench, Ref(piece[0], piece[1]))
    return [i for i in dict.fromkeys(found) if is_part(guide, i)]


def loose(guide: Guide, step: Changes, item: str, title: str, size: tuple[float, float]) -> Drawing | None:
    """One thing as it lies on the table, with its name; None if its size is unknown."""
    settled = settle(guide, step.bench, item, lies(guide, item))
    if not settled:
        return None
    solid = settled[item].solid
    up = is_disc(solid)
    if up:
        settled = {item: Sitting(solid, FACE_UP, False)}
    scene = scene_of(guide, step._replace(frames=(), holes=()), item, settled, title)
    mark = mark_of(guide, item)
    parts = tuple(p._replace(name=f"{p.name}, {mark}") for p in scene.parts[:1] if mark) or scene.parts
    flat = up or not isinstance(solid, Turned)
    return (plan if flat else side)(scene._replace(ends=("", ""), parts=parts), size)


def loose_ones(
    guide: Guide, step: Changes, items: Iterable[str], title: str, size: tuple[float, float]
) -> list[Drawing]:
    """Things that come from no stock (cut out of a printed pattern): each as its pattern shows it."""
    found: list[Drawing] = []
    for item in list(items)[:MOST]:
        thing = thing_of(guide, item)
        pattern = None if thing is None else patterned(guide, thing, step)
        made = (
            cut_out(pattern, item, thing, title, size) if pattern is not None and thing is not None else None
        )
        made = made or loose(guide, step, item, title, size)
        if made is not None:
            found.append(made)
    return found


def patterned(guide: Guide, thing: Thing, step: Changes) -> Pattern | None:
    """The pattern of a thing as far as the step's own frames and bench tell it."""
    run = own_run(step.frames, guide)
    made = pattern_of(guide, thing, thing.id, thing.name, "", (run,))
    slot = thing.refs.get("slots")
    other = guide.things.get(slot.id) if slot is not None else None
    if (
        made is None
        or other is None
        or thing.form != "disc"
        or any(isinstance(s, Polyline) and s.line == "cut" for s in made.shapes[1:])
    ):
        return made
    host = _host_of(guide, other)
    if host is None:
        return made
    play = mm(thing.mm("play"), 0.5)
    radius = mm(host.mm("outside")) / 2 - play / 2
    return with_slot(made, radius, mm(other.mm("width")) + play, mm(other.mm("thickness")) + play)


def _host_of(guide: Guide, thing: Thing) -> Thing | None:
    """What a thing is taped to, or put onto, in some step of the guide."""
    for step in guide.every_step():
        for action in step.each_action():
            if any(ref.id == thing.id for ref in action.refs("what")):
                for field in ("to", "onto"):
                    for ref in action.refs(field):
                        return guide.things.get(ref.id)
    return None


def cut_out(pattern: Pattern, item: str, thing: Thing, title: str, size: tuple[float, float]) -> Drawing:
    """What is cut out of its printed pattern, with the lines that the pattern puts on it."""
    box = pattern.box
    scale = min((size[0] - 30) / max(box.width, 1e-6), size[1] / max(box.height, 1e-6), 1.5)
    letter = letter_of(thing)
    labels = [s.text for s in pattern.shapes if isinstance(s, Text) and s.text != letter]
    made = _at_scale(pattern, scale, item)
    # letters keep their size: what has no room for them is drawn larger
    while made is None and scale < 1.5:
        scale = min(scale * 1.2, 1.5)
        made = _at_scale(pattern, scale, item)
    shapes = made or [scaled(s, scale, s.line, item) for s in pattern.shapes if not isinstance(s, Text)]
    frame = Box(box.left * scale, box.top * scale, box.right * scale, box.bottom * scale)
    corner = (frame.left + frame.width * 0.985, frame.top)
    if thing.form in ("disc", "ring") or (thing.outline is not None and thing.outline.shape == "disc"):
        corner = ((frame.left + frame.right) / 2, frame.top)
    shapes += flags([Callout(thing.name, item, (corner,))], frame, frame.top, shapes).shapes
    said = f"Cut out of its printed pattern. New in this step: {thing.name}."
    if letter:
        said += f" Its letter is {letter}."
    if labels:
        said += f" Its lines: {', '.join(labels)}."
    return finished(title, said, shapes)


def _at_scale(pattern: Pattern, scale: float, item: str) -> list[Shape] | None:
    """The lines of a pattern and its labels, each moved off the lines beside it; None if one has no room."""
    found: list[Shape] = []
    texts: list[Text] = []
    for shape in pattern.shapes:
        if isinstance(shape, Text):
            texts.append(shape._replace(at=(shape.at[0] * scale, shape.at[1] * scale)))
        else:
            line = {"cut": "new", "line_up": "centre", "glue_here": "glue"}.get(shape.line, shape.line)
            found.append(scaled(shape, scale, line, item))
    boxes: list[Box] = []
    for text in texts:
        x, y = text.at
        tries = (text._replace(at=(x + right, y + down)) for down in range(7) for right in range(4))
        for one in tries:
            box = one.box()
            if not any(runs_through(s, box.grown(0.7)) for s in found) and not any(
                box.roomy(0.7).meets(b) for b in boxes
            ):
                break
        else:
            return None
        boxes.append(box)
        found.append(one)
    return found


def printed(
    guide: Guide, step: Changes, title: str, width: float, used: Collection[str] | None = None
) -> Drawing | None:
    """The guide's patterns, or those of things that a route uses, as outlines in a row, not to scale, over a
    bar with a ruler along it."""
    made: list[tuple[str, Pattern]] = []
    for title_of, all_of_it in pattern_things(guide).items():
        things = [thing for thing in all_of_it if used is None or thing.id in used]
        if not things:
            continue
        pattern = patterned(guide, things[0], step)
        if pattern is not None:
            made.append((things[0].name if len(things) == 1 else title_of.replace("_", " "), pattern))
    if not made:
        return None
    most = min(30.0, (width - 6.0 * len(made)) / len(made))
    shapes: list[Shape] = []
    names: list[str] = []
    x, row = 0.0, 0.0
    for name, pattern in made:
        box = pattern.box
        scale = min(most / max(box.width, 1e-6), 26.0 / max(box.height, 1e-6))
        wide = max(box.width * scale, text_width(name))
        if x > 0 and x + wide > width:
            x, row = 0.0, row + 40.0
        shift = x + (wide - box.width * scale) / 2 - box.left * scale, row - box.top * scale
        own = [s for s in pattern.shapes if not isinstance(s, Text) and s.line in ("cut", "fold")]
        for s in own:
            drawn = scaled(s, scale, "outline" if s.line == "cut" else s.line)
            shapes.append(moved(drawn._replace(part=None), *shift))
        shapes.append(Text((x + wide / 2, row + box.height * scale + 6.0), name, "middle"))
        names.append(name)
        x += wide + 6.0
    y = row + 46.0
    bar = min(90.0, width - 40.0)
    rule = ((-2.0, y), (bar + 2.0, y), (bar + 2.0, y + 8.0), (-2.0, y + 8.0))
    shapes += [
        segment((0.0, y - 3.0), (bar, y - 3.0), "cut"),
        segment((0.0, y - 5.0), (0.0, y - 1.0), "cut"),
        segment((bar, y - 5.0), (bar, y - 1.0), "cut"),
        Polyline(rule, "outline", None, closed=True),
        *(
            segment((bar * i / 10, y), (bar * i / 10, y + (2.2 if i % 5 else 3.5)), "outline")
            for i in range(11)
        ),
        Text((bar + 5.0, y - 2.0), "bar"),
        Text((bar + 5.0, y + 6.0), "ruler"),
    ]
    said = ", ".join(names)
    return finished(
        title,
        f"The printed patterns, not to scale: {said}. Below them a bar with the ruler along it: "
        "the two must be equally long.",
        shapes,
    )
