"""Nouns: names with their article and number, lists, ends, edges and faces."""

from __future__ import annotations

from collections.abc import Sequence

from builder.guide.model import Ref, Thing
from builder.guide.phrases import (
    AGREE,
    AND,
    BARE_ENDS,
    COMMA,
    COMMA_AND,
    COUNTS,
    EDGE_WORD,
    END_WORD,
    EVERYTHING,
    FACE_WORD,
    FACES,
    LINE_WORDS,
    ORDINALS,
    POINT_WORDS,
    THE,
)
from builder.guide.wording.desk import Desk, Mark
from builder.guide.wording.pieces import NAME, NUMBER, Piece, Words, plain
from builder.trade.words import MASS_NOUNS, PLURAL_ONLY, article, plural, singular

_HEAD_ENDS = (" for the ", " in a ", " in the ", " with a ", " with the ", " of ", " on ")
FLAT = frozenset(("clip", "regular polygon", "sheet", "slab", "strip"))
UNCOUNTED = frozenset(("adhesive", "paint", "tape", "wadding"))


def plural_name(name: str) -> str:
    """The plural of a name: its head is turned ("bit in a pin vice" -> "bits in a pin vice")."""
    cut = min((name.find(end) for end in _HEAD_ENDS if end in name), default=-1)
    return plural(name[:cut]) + name[cut:] if cut > 0 else plural(name)


def head_noun(name: str) -> str:
    """The last word of a name's head."""
    cut = min((name.find(end) for end in _HEAD_ENDS if end in name), default=-1)
    return (name[:cut] if cut > 0 else name).rpartition(" ")[2]


def always_plural(name: str) -> bool:
    """True for scissors, goggles, pliers."""
    return head_noun(name) in PLURAL_ONLY


def count_word(n: int) -> str:
    """ "four" up to twelve, then digits."""
    return COUNTS[n] if 0 <= n < len(COUNTS) else str(n)


def ordinal(n: int) -> str:
    """ "second" up to twelve, then "13th"."""
    if 0 < n < len(ORDINALS):
        return ORDINALS[n]
    ending = "th" if n % 100 in (11, 12, 13) else {1: "st", 2: "nd", 3: "rd"}.get(n % 10, "th")
    return f"{n}{ending}"


def listed(items: Sequence[Words], *, long: bool = False) -> Words:
    """a, b and c; with a comma before the last "and" where an item holds one itself, or is `long`."""
    out: list[Piece] = []
    wide = long or any(AND in piece.text for item in items for piece in item)
    for i, item in enumerate(items):
        if i:
            out.append(Piece(COMMA if i < len(items) - 1 else COMMA_AND if wide else AND))
        out += item
    return tuple(out)


def spaced(id: str) -> str:
    """An id as words."""
    return id.replace("_", " ")


def uncounted(thing: Thing) -> bool:
    """True for what takes no "a": glue, paint, tape, paper."""
    if thing.sort != "material":
        return False
    return thing.form in UNCOUNTED or head_noun(thing.name) in MASS_NOUNS


def bare(desk: Desk, ref: Ref, *, one: bool = False) -> Words:
    """The name without an article: "fin", "fins", "fin 2", "wheels 1 and 3", "shoulder of the nose cone"."""
    if ref.id == "all":
        return plain(EVERYTHING)
    if ref.part:
        return desk.say(
            "of",
            part=(Piece(spaced(ref.part), NAME, ref.text),),
            whole=the(desk, Ref(ref.id, ref.at, ref.copies)),
        )
    thing = desk.thing(ref.id)
    name = thing.name if thing is not None else spaced(ref.id)
    if ref.copies:
        some = name if len(ref.copies) == 1 else plural_name(name)
        numbers = listed([plain(str(n)) for n in ref.copies])
        return (Piece(f"{some} {''.join(p.text for p in numbers)}", NAME, ref.id),)
    if not one and desk.number_of(ref) > 1:
        return (Piece(plural_name(name), NAME, ref.id),)
    repeat = desk.repeat
    if repeat is not None and desk.copy is not None and ref.id == repeat.of.id:
        return (Piece(f"{name} {desk.copy}", NAME, ref.id),)
    return (Piece(name, NAME, ref.id),)


def _proper(desk: Desk, ref: Ref) -> bool:
    """True for what takes no article: `fin 2`, everything."""
    if ref.id == "all" or (ref.copies and not ref.part):
        return True
    return desk.copy is not None and desk.repeat is not None and ref.id == desk.repeat.of.id


def the(desk: Desk, ref: Ref) -> Words:
    """ "the body", "the four fins", "fin 2"; in a repeat "the fin"."""
    name = bare(desk, ref)
    if _proper(desk, ref):
        return name
    n = desk.number_of(ref)
    if n > 1 and not ref.part:
        return (Piece(THE), Piece(count_word(n), NUMBER, f"{ref.id}.count"), Piece(" "), *name)
    return (Piece(THE), *name)


def new(desk: Desk, ref: Ref) -> Words:
    """What is not on the table yet: "a fin", "four fins", "scissors"."""
    name = bare(desk, ref)
    n = desk.number_of(ref)
    if _proper(desk, ref):
        return name
    if n > 1 and not ref.part:
        return (Piece(count_word(n), NUMBER, f"{ref.id}.count"), Piece(" "), *name)
    thing = desk.thing(ref.id)
    if thing is not None and (always_plural(thing.name) or uncounted(thing)):
        return name
    return (Piece(article(name[0].text) + " "), *name)


def stuff(desk: Desk, ref: Ref) -> Words:
    """What is used: glue, paint and tape without an article, one of a set with "a", all else with "the"."""
    thing = desk.thing(ref.id)
    if thing is not None and thing.sort == "material" and thing.form in UNCOUNTED:
        return bare(desk, ref)
    if desk.copies_in_hand(ref) and desk.repeat is not None and ref.id != desk.repeat.of.id:
        return new(desk, ref)
    return the(desk, ref)


def all_of(desk: Desk, refs: Sequence[Ref]) -> Words:
    """the a, the b and the c."""
    return listed([the(desk, ref) for ref in refs])


def how_many(desk: Desk, refs: Sequence[Ref]) -> int:
    """How many things are spoken of; 2 for what is always plural."""
    if len(refs) == 1 and not refs[0].part:
        thing = desk.thing(refs[0].id)
        if thing is not None and desk.number_of(refs[0]) == 1 and always_plural(thing.name):
            return 2
    return sum(1 if ref.part else desk.number_of(ref) for ref in refs)


def agree(word: str, n: int) -> str:
    """The verb as its subject asks: "fills" or "fill"."""
    return AGREE[word][n > 1]


# -- ends and faces -------------------------------------------------------------------------------


def end_bare(thing: Thing | None, end: str) -> str:
    """ "rear end", "front edge", "foot", "underside"."""
    edges = thing.outline.edges if thing is not None and thing.outline is not None else ()
    form = thing.form if thing is not None else ""
    if form in FLAT and end in edges:
        return EDGE_WORD.format(end=end)
    if end in BARE_ENDS:
        return end
    if end in FACES:
        return FACES[end]
    word = FACE_WORD if form in ("ring", "disc") else EDGE_WORD if form in FLAT else END_WORD
    return word.format(end=spaced(end))


def from_the(thing: Thing | None, end: str) -> Words:
    """ "the rear end", as a way in; of a ring just "the rear"."""
    return plain(THE + end) if thing is not None and thing.form in ("ring", "disc") else the_end(thing, end)


def the_end(thing: Thing | None, end: str) -> Words:
    """ "the rear end"."""
    return plain(THE + end_bare(thing, end))


# -- marks ----------------------------------------------------------------------------------------


def mark_name(mark: Mark, *, count: int | None = None) -> str:
    """What a mark is called: "rear line", "front axle line", "fin ticks"."""
    name = spaced(mark.action.word("what"))
    last = name.rpartition(" ")[2]
    if last not in LINE_WORDS and last not in POINT_WORDS:
        name += " line" if mark.shape != "point" else " mark"
    n = mark.count if count is None else count
    head, _, last = name.rpartition(" ")
    one = singular(last)
    last = one if n == 1 else plural(one)
    return f"{head} {last}".strip()


def the_mark(desk: Desk, id: str, *, drop: str = "") -> Words:
    """ "the rear line", "the four fin lines"; in a repeat over as many, "its line" (without the name of the
    part in hand, `drop`)."""
    mark = desk.marks[id]
    own = desk.thing(desk.repeat.of.id) if desk.repeat is not None else None
    if own is not None and mark.count == own.count > 1:
        name = mark_name(mark, count=1)
        if drop and name.startswith(drop + " "):
            name = name[len(drop) + 1 :]
        return desk.say("its", what=(Piece(name, NAME, id),))
    name = mark_name(mark)
    if mark.count > 1:
        return (Piece(THE), Piece(count_word(mark.count), NUMBER), Piece(" "), Piece(name, NAME, id))
    return (Piece(THE), Piece(name, NAME, id))
