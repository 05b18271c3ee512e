"""A part that goes in one way round only, and the step does not say so.

What: A step that places a part with a `way round` says which way: in the sentence of the action, a note, or
the words of its picture.

Why: Half of the class puts it in the other way round, and sees it three steps later.

Bad:
    - {slide: ring, over: tube, from: rear, to: seat}  # ring: {way round: the slot over the clip}

Good:
    - {slide: ring, over: tube, from: rear, to: seat, say: "Slide the {ring} ..., slot over the clip."}
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.checks.base import Check, Look, see
from builder.findings import Finding, Severity
from builder.guide.model import Note, Prose, Repeat, Step
from builder.guide.wording.saying import literal
from builder.guide.wording.scan import words_of
from builder.trade.words import singular

PLACES = ("seat", "attach", "screw", "tape", "roll")
_SMALL = frozenset((
    "a", "an", "and", "at", "by", "for", "from", "in", "into", "is", "it", "its", "of", "on", "onto",
    "or", "over", "side", "the", "to", "towards", "up", "way", "with",
))  # fmt: skip


def find(look: Look) -> Iterator[Finding]:
    """One finding for each placing that leaves the way round out."""
    turned = {t.id: t for t in look.guide.things.values() if t.words.get("way_round")}
    if not turned:
        return
    for step in look.guide.every_step():
        for action in step.each_action():
            if action.verb.kind not in PLACES:
                continue
            for ref in action.refs("what"):
                thing = turned.get(ref.id)
                if thing is None:
                    continue
                way = thing.words["way_round"]
                wanted = {singular(w.text) for w in words_of(way) if w.text not in _SMALL}
                if wanted and wanted.isdisjoint(_said(step)):
                    yield CHECK.finding(
                        action.at,
                        f"the {thing.name} goes one way round only ({way}), and the step does not say so",
                        also=see(thing.place("way_round"), "where it is written"),
                    )


def _said(step: Step) -> set[str]:
    notes: list[Note] = [*step.notes]
    texts: list[Prose] = [step.title]
    for entry in step.actions:
        notes += entry.notes
        for action in entry.actions if isinstance(entry, Repeat) else (entry,):
            notes += action.notes
            texts += [action.say] if action.say is not None else []
    plain = " ".join(literal(prose) for prose in [*texts, *(note.text for note in notes)])
    plain += f" {step.picture.alt}" if step.picture is not None else ""
    return {singular(word.text) for word in words_of(plain)}


CHECK = Check(
    "way-round", Severity.WARNING, "guide",
    why="Half of the class puts it in the other way round, and sees it three steps later.",
    mend="Say it in the `say` of the action, or in a note of the step.",
    find=find, source="studies of self-assembly: parts that look symmetrical are placed the wrong way round",
)  # fmt: skip
