"""Sentences from actions: the tool words every action, a writer's own `say` is told with its references.

Pure functions of an action and its guide. The facts of a sentence come from the model; what only the dry
run knows (the minutes of a wait, where a part will come to sit) is handed in. Wherever a guide is asked for,
a `Book` of it serves too, and is quicker for many actions.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction

from builder.guide.fields import Field
from builder.guide.model import Action, Guide, Prose, Ref, Repeat, Step, Thing
from builder.guide.phrases import (
    BY_TOOL,
    PHRASES,
    SCREW_AGAIN,
    SKELETON_FIRST,
    SKELETON_HOLDS_WHAT,
    SKELETONS,
)
from builder.guide.wording.cutting import cut
from builder.guide.wording.desk import Book, Desk, Known
from builder.guide.wording.joining import attach, do, remove, screw, seat, tape, tie, verify, wait
from builder.guide.wording.making import drill, fold, glue, mark, paint, roll, sand
from builder.guide.wording.nouns import listed, plural_name, the
from builder.guide.wording.pieces import (
    NUMBER,
    Piece,
    Sentence,
    Words,
    capital,
    closed,
    fill,
    plain,
    slots_of,
    tidy,
)
from builder.guide.wording.places import where
from builder.guide.wording.prose import inner
from builder.guide.wording.told import Told, other
from builder.quantities.show import show_number
from builder.quantities.values import number

_TELLERS = {
    "attach": attach,
    "cut": cut,
    "do": do,
    "drill": drill,
    "fold": fold,
    "glue": glue,
    "mark": mark,
    "paint": paint,
    "remove": remove,
    "roll": roll,
    "sand": sand,
    "screw": screw,
    "seat": seat,
    "tape": tape,
    "tie": tie,
    "verify": verify,
}


# Phrases and verbs that stand in for a verb's own, and the lead-in of a preparation.
_OPENINGS = frozenset(
    phrase.partition(" ")[0]
    for phrase in (
        *(PHRASES[key] for key in ("mark.line", "mark.point", "fillet", "wait.for", "for each")),
        *BY_TOOL.values(),
        *SCREW_AGAIN,
    )
)


def sentence(
    action: Action,
    guide: Guide | Book,
    copy: int | None = None,
    *,
    wait: Fraction | None = None,
    glues: Sequence[str] = (),
    known: Mapping[str, Known] | None = None,
) -> Sentence:
    """What a page prints for an action: the writer's own `say`, else the tool's words.

    `copy` names one copy of a repeat's part ("fin 2"; without it "the fin"). `wait` is the wait's length in
    seconds and `glues` the ids of the adhesives or paints whose labels give it. `known` maps a place field
    to the stretch that the dry run found for it.
    """
    if action.say is not None:
        return render(action.say, guide, action, copy)
    return generated(action, guide, copy, wait=wait, glues=glues, known=known)


def generated(
    action: Action,
    guide: Guide | Book,
    copy: int | None = None,
    *,
    wait: Fraction | None = None,
    glues: Sequence[str] = (),
    known: Mapping[str, Known] | None = None,
) -> Sentence:
    """The tool's own words for an action, whether or not its writer has others. See `sentence`."""
    desk = Desk(guide, action, copy, known)
    told = _told(desk, action, wait, glues)
    phrase = PHRASES[told.phrase] if told.phrase else action.verb.phrase
    if told.verb or (told.phrase and action.verb.stands_for):
        first = action.verb.phrase.partition(" ")[0] if action.verb.stands_for else told.verb
        phrase = first + " " + phrase.partition(" ")[2]
    words = [*told.before, *fill(phrase, told.slots)]
    named = slots_of(phrase)
    for slot, more in told.slots.items():  # a verb of a writer's own may have a shorter phrase
        if slot not in named and more:
            words += [Piece(" "), *more]
    out = list(closed(words))
    for more in told.after:
        out += [Piece(" "), *closed(more)]
    return Sentence(tuple(out))


def _told(desk: Desk, action: Action, seconds: Fraction | None, glues: Sequence[str]) -> Told:
    if action.verb.kind == "wait":
        return wait(desk, action, seconds, glues)
    return _TELLERS.get(action.verb.kind, other)(desk, action)


def opening_words(action: Action) -> frozenset[str]:
    """The words that the tool's own sentence for an action can begin with, in small letters."""
    return _OPENINGS | {action.verb.phrase.partition(" ")[0]}


def lead(repeat: Repeat, guide: Guide | Book) -> Sentence:
    """The line above a repeat: "For each of the four fins, spaced evenly round the body (0, 90, 180 and 270
    deg):"."""
    desk = Desk(guide)
    parts = the(desk, repeat.of)
    if repeat.of.copies:
        return Sentence(closed(desk.say("lead copies", parts=parts)))
    if repeat.spots:
        host = _host_of_repeat(desk.guide, repeat)
        spots = [where(desk, spot, host, _place_field(repeat)) for spot in repeat.spots]
        named = all(w.noun for w in spots)
        told = listed([w.noun if named else w.adverb for w in spots], long=not named)
        holes = {hole.name for hole in host.holes} if host is not None else frozenset()
        bored = all(spot.kind == "named" and spot.names[0] in holes for spot in repeat.spots)
        way = "lead places" if not named else "lead holes" if bored else "lead spots"
        return Sentence(closed(desk.say(way, parts=parts, spots=told)))
    around = desk.thing(repeat.around)
    if around is not None:
        return Sentence(closed(_lead_round(desk, repeat, parts, the(desk, Ref(around.id, repeat.at)))))
    head, _, what = repeat.around.partition(" ")
    if what and desk.thing(head) is not None:
        whole = the(desk, Ref(head, repeat.at))
        return Sentence(closed(desk.say("lead corners", parts=parts, host=whole, corners=plain(what))))
    return Sentence(closed(desk.say("lead", parts=parts)))


def _lead_round(desk: Desk, repeat: Repeat, parts: Words, host: Words) -> Words:
    n = desk.number_of(repeat.of)
    step = Fraction(360, max(n, 1))
    if n > 8 or step.denominator != 1:
        every = plain(f"{show_number(number(step))} deg")
        return desk.say("lead round step", parts=parts, host=host, angles=every)
    angles = listed([(Piece(str(int(step * i)), NUMBER),) for i in range(n)])
    return desk.say("lead round", parts=parts, host=host, angles=(*angles, Piece(" deg")))


def _host_of_repeat(guide: Guide, repeat: Repeat) -> Thing | None:
    for action in repeat.actions:
        ref = action.ref("onto") or action.ref("into") or action.ref("over")
        if ref is not None:
            return guide.thing(ref.id)
    return None


def _place_field(repeat: Repeat) -> str:
    sides = ("under", "top", "inside", "outside")
    return next((f for a in repeat.actions for f in sides if f in a.fields), "at")


def title(step: Step, guide: Guide | Book) -> Sentence:
    """The title of a step, with its references told."""
    return Sentence(capital(tidy(inner(Desk(guide), step.title))))


def render(
    prose: Prose, guide: Guide | Book, action: Action | None = None, copy: int | None = None
) -> Sentence:
    """A writer's text with its references told: names without an article, values in both units.

    With an action its own fields may be named (`{with}`, `{place}`). A reference that nothing is known
    by stays as it was typed; it has its own finding.
    """
    return Sentence(closed(inner(Desk(guide, action, copy), prose)))


def otherwise(action: Action, guide: Guide | Book, copy: int | None = None) -> Sentence | None:
    """What the builder does when a measure is off (`else`) or a wait was too long (`if missed`)."""
    prose = action.prose("else") or action.prose("if_missed")
    return render(prose, guide, action, copy) if prose is not None else None


def name_of(thing: Thing, count: int = 1) -> str:
    """What a reader calls a thing, or so many of it."""
    return thing.name if count == 1 else plural_name(thing.name)


def skeleton(action: Action) -> str:
    """The `say` to start from: the verb's first word and a reference for each field that must be told."""
    kind = action.verb.kind
    if kind == "do":
        return action.word("what")  # its words are the writer's own already
    told = [_key(action, f) for f in action.spec if f.told or f.name in ("*", action.verb.word)]
    slots = [s for s in slots_of(action.verb.phrase) if s in told]
    order = [SKELETON_FIRST.get(kind, "what"), "what", *slots, *told]
    present = [k for k in dict.fromkeys(order) if k in action.fields and action.fields[k] is not True]
    if any(key in action.fields for key in SKELETON_HOLDS_WHAT.get(kind, ())):
        present = [key for key in present if key != "what"]
    words = " ".join(_reference(action, key) for key in present).replace(" ,", ",")
    return f"{action.verb.phrase.partition(' ')[0].capitalize()} {words}."


def _key(action: Action, field: Field) -> str:
    return "what" if field.name in ("*", action.verb.word) else field.key


def _reference(action: Action, key: str) -> str:
    kind = action.verb.kind
    name = action.verb.word if key == "what" else key.replace("_", " ")
    general = "place" if action.spots(key) else key
    if kind == "mark" and key == "onto":
        key = next((way for way in ("around", "across") if action.yes(way)), key)
    words = (
        SKELETONS.get(f"{kind}.{key}") or SKELETONS.get(f"{kind}.{general}") or SKELETONS.get(general, "{%}")
    )
    return words.replace("%", name)


__all__ = (
    "Book",
    "Known",
    "Piece",
    "Sentence",
    "Words",
    "generated",
    "lead",
    "name_of",
    "opening_words",
    "otherwise",
    "render",
    "sentence",
    "skeleton",
    "title",
)
