"""Words round a finished picture: the order of several pictures, how the work is turned, and the legend."""

from __future__ import annotations

from collections.abc import Sequence

from builder.drawings.grain import LEVEL, sign
from builder.drawings.measure import CAP_HEIGHT, text_width
from builder.drawings.shapes import (
    DIGITS,
    Arc,
    Arrow,
    Box,
    Drawing,
    Hatch,
    Point,
    Polyline,
    Shape,
    Text,
    moved,
    segment,
)
from builder.drawings.style import LINES
from builder.guide.model import Guide, Step

MARGIN = 2.0
"""Room round what is added, mm."""

ROW = 6.0
"""Height of a row of the legend, mm."""

SAMPLE = 7.5
"""Length of a legend's sample, mm."""

CUT = "cut open"

LEGEND: tuple[tuple[str, tuple[str, ...]], ...] = (
    ("new in this step", ("new", "new_section", "new_thin", "new_hatch")),
    ("pencil line", ("new_mark",)),
    ("earlier line", ("mark",)),
    ("work on this", ("worked",)),
    ("glue", ("glue", "bead")),
    ("grain", ("grain",)),
    ("left over", ("spare",)),
    (CUT, ("hatch", "section", "new_section")),
    ("behind something", ("hidden",)),
    ("middle", ("centre",)),
    ("fold", ("fold",)),
    ("taken off", ("ghost",)),
    ("way it goes", ("way",)),
)
"""What a legend says of which classes of line; one row each, in this order."""


EACH = ", for each in turn"
"""What the word over a picture adds where one copy stands for all."""


def ordered(drawings: Sequence[Drawing], each: Sequence[bool] = ()) -> list[Drawing]:
    """Pictures that follow one another, each with its word: first, then, last.

    `each` says of which pictures what they show is done for one copy after another.
    """
    if len(drawings) < 2:
        return list(drawings)
    words = ["first", *["then"] * (len(drawings) - 2), "last" if len(drawings) > 2 else "then"]
    drawings = list(drawings)
    for i, again in enumerate(each):
        if again:
            words[i] += EACH
            drawings[i] = drawings[i]._replace(alt=f"{words[i].capitalize()}: {drawings[i].alt}")
    return [with_caption(d, w) for d, w in zip(drawings, words, strict=True)]


def with_caption(drawing: Drawing, text: str) -> Drawing:
    """A line of text over a picture, at its left."""
    high = CAP_HEIGHT + 2 * MARGIN + 1.5
    width = max(drawing.width, text_width(text) + 2 * MARGIN)
    shapes = [moved(s, 0.0, high - MARGIN) for s in drawing.shapes]
    return drawing._replace(
        width=round(width, DIGITS),
        height=round(drawing.height + high - MARGIN, DIGITS),
        shapes=(*shapes, Text((MARGIN, MARGIN + CAP_HEIGHT), text)),
    )


def turned_over(drawing: Drawing, face: str) -> Drawing:
    """Over a picture: an arrow round a level axis, and which face is now up."""
    text = f"turn it over: its {face} is up"
    said = with_caption(drawing, text)
    x = MARGIN + text_width(text) + 6.0
    y = MARGIN + CAP_HEIGHT / 2
    # an arrow round a level line: the near half of the way is drawn in front of it, and its head points up
    arc = Arc((x + 5.0, y), 2.0, 3.6, "sign", None, 0.0, -60.0, 250.0)
    tip = arc.at(1.0)
    sign: list[Shape] = [
        segment((x, y), (x + 12.0, y), "sign"),
        arc,
        Arrow((tip[0] + 0.2, tip[1] - 1.6), 278.0, "sign", None, 3.0),
    ]
    down = 3.0
    return said._replace(
        width=max(said.width, round(x + 14.0, DIGITS)),
        height=round(said.height + 2 * down, DIGITS),
        shapes=(
            *(moved(s, 0.0, 2 * down) for s in said.shapes[:-1]),
            *(moved(s, 0.0, down) for s in (said.shapes[-1], *sign)),
        ),
        alt=f"First turn it over: its {face} is up. It turns about its long middle line. {drawing.alt}",
    )


def face_before(guide: Guide, step: Step, root: str) -> str:
    """How the work lay in the stage before, "" if this step does not begin its stage or nothing was said."""
    for route in guide.routes:
        steps = [s for s in route.steps if s.stage is step.stage or s.stage == step.stage]
        if not steps or steps[0].id != step.id:
            continue
        before = ""
        for other in route.steps:
            if other.id == step.id:
                return before
            if other.stage.lying.startswith(f"{root} "):
                before = other.stage.lying
    return ""


def is_under(lying: str) -> bool:
    """True if the words of a stage say that the under face is up."""
    return "under" in lying


def with_legend(drawing: Drawing, width: float) -> Drawing:
    """A small legend below: a sample and a word for each class of line used, wrapped to a width in mm."""
    used = {s.line for s in drawing.shapes}
    entries = [
        (word, next(c for c in classes if c in used)) for word, classes in LEGEND if used & set(classes)
    ]
    entries = [e for e in entries if e[0] != "new in this step" or "outline" in used or "section" in used]
    if not entries:
        return drawing
    shapes: list[Shape] = []
    x, y = MARGIN, drawing.height + ROW
    widest = 0.0
    for word, line in entries:
        long = sample_length(line)
        step = long + 1.8 + text_width(word) + 4.0
        if x > MARGIN and x + step > width:
            x, y = MARGIN, y + ROW
        line = "section" if word == CUT and line != "hatch" else line
        shapes += _sample((x, y - CAP_HEIGHT / 2), line, used)
        shapes.append(Text((x + long + 1.8, y), word))
        x += step
        widest = max(widest, x - 4.0)
    whole = max(drawing.width, round(widest + MARGIN, DIGITS))
    shift = (whole - drawing.width) / 2
    kept = [moved(s, shift, 0.0) for s in drawing.shapes] if shift > 0 else list(drawing.shapes)
    return drawing._replace(width=whole, height=round(y + MARGIN, DIGITS), shapes=(*kept, *shapes))


def sample_length(line: str) -> float:
    """How long a legend's sample is, mm: of a dashed line, enough to show how its dashes follow."""
    dash = LINES[line].dash
    return min(16.0, max(SAMPLE, 1.6 * sum(dash))) if dash and not LINES[line].dots else SAMPLE


def _sample(at: Point, line: str, used: set[str]) -> list[Shape]:
    """A short piece of a class of line as it is used."""
    x, y = at
    if line == "way":
        return [segment((x, y), (x + SAMPLE - 3.5, y), line), Arrow((x + SAMPLE, y), 0.0, line, None, 3.6)]
    if line == "grain":
        return list(sign((x + SAMPLE / 2, y), LEVEL, SAMPLE))
    if line in ("new", "new_section", "new_thin", "new_hatch"):
        frame = Box(x + 0.5, y - 1.7, x + SAMPLE - 0.5, y + 1.7)
        corners = (
            (frame.left, frame.top),
            (frame.right, frame.top),
            (frame.right, frame.bottom),
            (frame.left, frame.bottom),
        )
        own = "new" if "new" in used else line if line != "new_hatch" else "new"
        return [Polyline(corners, own, None, closed=True)]
    if line == "hatch":
        runs = tuple(((x + 1 + i * 1.7, y + 1.6), (x + 1 + i * 1.7 + 3.2, y - 1.6)) for i in range(2))
        return [Hatch(runs, line)]
    if line == "section":
        # a thin wall is filled in: the bore lies open below it, so that it is not taken for a heavy line
        left, right, top = x + 0.5, x + SAMPLE - 0.5, y - 1.5
        bar = ((left, top - 0.4), (right, top - 0.4), (right, top + 0.4), (left, top + 0.4))
        sides = [segment((at, top), (at, y + 1.7), "outline") for at in (left, right)]
        return [Polyline(bar, "section", None, closed=True, filled=True), *sides]
    return [segment((x, y), (x + sample_length(line), y), line)]
