"""Signs below a picture for what cannot be seen in a thing: a wait, a look, a measure, paint, a push.

Which sign stands for what is one literal table; its words are short and come from the same facts as the
page. A step whose picture shows all that it does has none.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from fractions import Fraction
from typing import NamedTuple

from builder.drawings.measure import CAP_HEIGHT, LINE_PITCH, text_width, wrapped
from builder.drawings.shapes import DIGITS, Drawing, Shape, Text, moved
from builder.drawings.signs import SIDE, SIGNS, WIDE
from builder.drawings.words import held, told_toleranced
from builder.dryrun.run import Frame
from builder.guide.model import Guide
from builder.guide.wording import name_of, render, sentence
from builder.plan.times import waited_for
from builder.plan.told_wait import told_wait
from builder.quantities.show import show_time

OVERNIGHT = Fraction(8 * 3600)
"""A wait from here on, in seconds, goes over a night."""

WORDS_WIDE = 66.0
"""The words beside a sign are wrapped to this width, mm."""

ALONE_WIDE = 105.0
"""The same for the only sign of a picture, mm."""

GAP = 2.2
"""Between a sign and its words, mm."""

APART = 7.0
"""Between two signs in a row, mm."""

ROW_APART = 3.0
"""Between two rows of signs, mm."""


class Act(NamedTuple):
    """A sign by its name, and its words."""

    sign: str
    words: str


FIRST_WORDS: dict[str, str] = {
    "fan": "hand",
    "letter": "pencil",
    "look": "eye",
    "point": "eye",
    "press": "finger",
    "rub": "cloth",
    "slide": "slides",
    "spin": "turns",
    "turn": "turns",
    "wipe": "cloth",
    "write": "pencil",
}
"""The sign of a `do` by the first word of its sentence; any other has a hand."""

BEFORE_IT = ("bend", "flex", "gather", "hold", "hook", "lift", "pinch", "squeeze", "steady", "tilt", "turn")
"""What a hand does before the act of its verb: no thing on the bench shows it, so the sentence's words do."""

VERIFIES: tuple[tuple[str, str], ...] = (
    ("turns_in", "turns"),
    ("slides_out_of", "slides"),
    ("angle", "square"),
    ("by", "ruler"),
    ("length", "ruler"),
    ("shows", "eye"),
)
"""The sign of a `verify` by the field that it states: one row for each, the first that is there."""


def _wait(guide: Guide, frame: Frame) -> Act | None:
    action = frame.action
    labels = waited_for(guide, frame)
    told = told_wait(guide, action, labels, frame.seconds)
    state = action.word("until")
    what = f"the {guide.things[labels[0]].name}" if len(labels) == 1 else "it"
    until = f"until {what} is {state}" if state else ""
    words = ", ".join(w for w in (show_time(told, up=True) if told else "", until) if w)
    return Act("night" if told >= OVERNIGHT else "clock", words) if words else None


def _verify(guide: Guide, frame: Frame) -> Act | None:
    action = frame.action
    found = next(((field, sign) for field, sign in VERIFIES if field in action.fields), None)
    if found is None:
        return None
    field, sign = found
    names = " and ".join(name_of(guide.things[r.id]) for r in action.refs("what") if r.id in guide.things)
    other = action.ref(field)
    if field in ("turns_in", "slides_out_of"):
        host = guide.things.get(other.id) if other is not None else None
        way = "turns in" if sign == "turns" else "slides out of"
        return Act(sign, f"{names} {way} the {host.name}") if host is not None else None
    if field == "shows":
        shows = action.prose(field)
        return Act(sign, render(shows, guide, action).text.rstrip(".")) if shows is not None else None
    angle = action.angle(field)
    value = angle.value if angle is not None else action.value(field)
    return Act(sign, f"{names}: {told_toleranced(guide, value)}") if value is not None else None


def _do(guide: Guide, frame: Frame) -> Act | None:
    words = held(sentence(frame.action, guide)).rstrip(".")
    return Act(FIRST_WORDS.get(words.partition(" ")[0].lower(), "hand"), words) if words else None


def _paint(guide: Guide, frame: Frame) -> Act | None:
    paint = next(
        (guide.things[r.id] for r in frame.action.refs("with") if guide.things[r.id].form == "paint"), None
    )
    if paint is None:
        return None
    kind = f"{paint.words.get('paint', '')} {paint.name}"
    coats = frame.action.value("coats")
    many = coats is not None and coats.base is not None and coats.base > 1
    words = f"{paint.name}, {coats.base} coats" if many and coats is not None else paint.name
    return Act("can" if "aerosol" in kind or "spray" in kind else "brush", words)


ACTS: dict[str, Callable[[Guide, Frame], Act | None]] = {
    "do": _do,
    "paint": _paint,
    "verify": _verify,
    "wait": _wait,
}
"""What has a sign, by kind of action."""


def _before_it(guide: Guide, frame: Frame) -> Act | None:
    """What a writer's own sentence has a hand do first: `Lift the clip aside` of `Lift the clip aside and
    slide the case in`."""
    verb = frame.action.verb
    if frame.action.say is None:
        return None
    words = held(sentence(frame.action, guide))
    start = words.partition(" ")[0].lower()
    if start not in BEFORE_IT or start in verb.says:
        return None
    found = [at for word in verb.says if (at := words.find(f" and {word} ")) > 0]
    return Act("hand", words[: min(found)].rstrip(",")) if found else None


def acts_of(guide: Guide, frames: Sequence[Frame]) -> tuple[Act, ...]:
    """The signs of a step in the order in which things are done, each once."""
    return tuple(dict.fromkeys(_acts(guide, frames)))


def _acts(guide: Guide, frames: Sequence[Frame]) -> Iterator[Act]:
    seen: set[str] = set()
    for frame in frames:
        act = ACTS.get(frame.action.verb.kind, _before_it)
        if frame.action.path in seen:
            continue
        seen.add(frame.action.path)
        made = act(guide, frame)
        if made is not None:
            yield made


def with_acts(drawing: Drawing, acts: Sequence[Act], width: float) -> Drawing:
    """The signs in rows below a picture, wrapped to a width in mm; the alternative names them."""
    if not acts:
        return drawing
    shapes: list[Shape] = []
    x, top, tall, widest = 0.0, drawing.height + ROW_APART, 0.0, 0.0
    for act in acts:
        wide = WIDE.get(act.sign, SIDE)
        room = WORDS_WIDE if len(acts) > 1 else ALONE_WIDE
        lines = wrapped(act.words, min(room, width - wide - GAP))
        step = wide + GAP + max(text_width(line) for line in lines)
        high = max(SIDE, CAP_HEIGHT + LINE_PITCH * (len(lines) - 1) + 2.0)
        if x > 0 and x + step > width:
            x, top, tall = 0.0, top + tall + ROW_APART, 0.0
        middle = top + high / 2
        shapes += [moved(s, x + wide / 2, middle) for s in SIGNS[act.sign]()]
        first = middle + CAP_HEIGHT / 2 - LINE_PITCH * (len(lines) - 1) / 2
        shapes += [Text((x + wide + GAP, first + LINE_PITCH * i), line) for i, line in enumerate(lines)]
        widest = max(widest, x + step)
        x += step + APART
        tall = max(tall, high)
    whole = max(drawing.width, round(widest + 4.0, DIGITS))
    shift = (whole - drawing.width) / 2
    left = (whole - widest) / 2
    return drawing._replace(
        width=whole,
        height=round(top + tall + ROW_APART, DIGITS),
        shapes=(
            *(drawing.shapes if shift <= 0 else (moved(s, shift, 0.0) for s in drawing.shapes)),
            *(moved(s, left, 0.0) for s in shapes),
        ),
        alt=f"{drawing.alt} {' '.join(f'Sign: {act.sign}, {act.words}.' for act in acts)}",
    )
