"""Ends, sides and directions of a writer's sentence, compared with its action's own."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

import msgspec

from builder.guide.model import Action
from builder.guide.wording.desk import PLACE_FIELDS, Book, Desk
from builder.guide.wording.places import find_stretch, mark_origin, touched_end
from builder.guide.wording.prose import host_of
from builder.guide.wording.saying import Say, covers, literal
from builder.guide.wording.scan import Word, words_of
from builder.trade.ends import END_PAIRS, ENDS

_TURNED_NOUNS = ("end", "ends", "edge", "face", "side", "hand")
_LEADS = frozenset(("the", "its", "their", "each", "from", "at", "towards"))
_SIDES = {"inside": "outside", "outside": "inside", "inner": "outside", "outer": "inside", "underside": "top"}
_CANONICAL = {"underside": "under", "inner": "inside", "outer": "outside", "lower": "bottom", "upper": "top"}
_END_FIELDS = ("from", "towards", "sticks_out")
_WORD_FIELDS = ("from", "towards", "sticks_out", "edge", "face", "by")
_OPPOSITES: dict[str, set[str]] = {"inside": {"outside"}, "outside": {"inside"}, "top": {"under", "bottom"}}
for _pair in END_PAIRS:
    _OPPOSITES.setdefault(_pair.origin, set()).add(_pair.other)
    _OPPOSITES.setdefault(_pair.other, set()).add(_pair.origin)


class Turned(msgspec.Struct, frozen=True):
    """An end or a side that is not the action's own: the word, where, and the action's own word (empty if it
    names none)."""

    word: Word
    own: str


def turned(book: Book, say: Say) -> list[Turned]:
    """The first end, side or direction word that is the opposite of the action's own, or that the action does
    not name at all."""
    text = literal(say.prose)
    words = _outside_names(book, text, words_of(text))
    strong: set[str] = set()
    soft: set[str] = set()
    ways: set[str] = set()
    for action in say.actions:
        strong |= _strong(action)
        soft |= _soft(book, action)
        ways |= {action.word(f) for f in _END_FIELDS} - {""}
    said = {_CANONICAL.get(w.text, w.text) for w in words}
    refs = {piece[0] for piece in say.prose.pieces if not isinstance(piece, str)}
    if refs & {"from", "towards", "sticks out", "sticks_out"}:
        said |= ways
    for i, word in enumerate(words):
        end = _CANONICAL.get(word.text, word.text)
        if end not in _OPPOSITES or not _as_noun(words, i):
            continue
        against = sorted(_OPPOSITES[end] & strong)
        direct = _direct(words, i)
        if end in ways or (end in strong and not (direct and _OPPOSITES[end] & ways)):
            continue
        if against and ((direct and _OPPOSITES[end] & ways) or not said & set(against)):
            own = sorted(_OPPOSITES[end] & ways) if direct and _OPPOSITES[end] & ways else against
            return [Turned(word, own[0])]
        if direct and end in ENDS and _named_end(words, i) and end not in soft and end not in strong:
            return [Turned(word, "")]
    return _turned_edge(book, say, words) or _turned_way(say)


def _as_noun(words: Sequence[Word], i: int) -> bool:
    before = words[i - 1].text if i else ""
    after = words[i + 1].text if i + 1 < len(words) else ""
    if words[i].text in ("inside", "outside", "underside"):
        return True
    return before in _LEADS or after in _TURNED_NOUNS


def _named_end(words: Sequence[Word], i: int) -> bool:
    return i + 1 < len(words) and words[i + 1].text in _TURNED_NOUNS


def _direct(words: Sequence[Word], i: int) -> bool:
    """Whether the word says where something comes in or goes out: "from the rear end", "in at the rear"."""
    j = i - 1
    if j >= 0 and words[j].text == "the":
        j -= 1
    return j >= 0 and words[j].text in ("from", "at", "over", "into", "towards", "in", "through")


def _strong(action: Action) -> set[str]:
    """The ends and sides that an action's own fields name."""
    out = {action.word(f) for f in _WORD_FIELDS} - {""}
    out |= {f for f in ("inside", "outside", "top", "under") if f in action.fields}
    out |= set(action.words("edges")) | set(action.words("not"))
    for field in PLACE_FIELDS:
        for spot in action.spots(field):
            if spot.kind in ("from", "stretch", "two", "flush", "meets", "middle", "named"):
                out |= {name for name in spot.names if name in _OPPOSITES}
    return out


def _soft(book: Book, action: Action) -> set[str]:
    """The ends that the zones and marks of an action are measured from, or reach."""
    out: set[str] = set()
    ref = host_of(action)
    host = book.guide.things.get(ref.id) if ref is not None else None
    desk = Desk(book, action)
    for field in PLACE_FIELDS:
        for spot in action.spots(field):
            for name in spot.names:
                stretch = find_stretch(host, name, "inside" if field == "inside" else "outside")
                if stretch is not None:
                    out |= {stretch.end, touched_end(stretch)}
                out.add(mark_origin(desk, name))
                mark = book.marks.get(name)
                if mark is not None and mark.action.path != action.path:
                    out |= _soft(book, mark.action) | _strong(mark.action)
    return out - {""}


def _outside_names(book: Book, text: str, words: Sequence[Word]) -> Sequence[Word]:
    """The words without those that belong to a name: the "front" of "front ring" is no direction."""
    lower = text.lower()
    hits = [w for w in words if w.text in _OPPOSITES or w.text in _CANONICAL]
    if not hits:
        return words
    named = {
        w for w in hits if any(covers(lower, name, w.start, w.end) for name in _names_with(book, w.text))
    }
    return [w for w in words if w not in named] if named else words


def _names_with(book: Book, word: str) -> Iterator[str]:
    for name in book.all_names:
        if word in name and name != word:
            yield name


_AGAINST = {"in": r"\b(out of|off)\s+(?:the\s+)?$", "out": r"\b(into|onto)\s+(?:the\s+)?$"}
_AGAINST_SIGNS = {"in": (" of", "off"), "out": ("nto",)}


def _turned_edge(book: Book, say: Say, words: Sequence[Word]) -> list[Turned]:
    """Another edge of the part than the one that is glued: "the tip edge" for `edge: root`."""
    for action in say.actions:
        own, ref = action.word("edge"), action.ref("what")
        thing = book.guide.things.get(ref.id) if ref is not None else None
        edges = thing.outline.edges if thing is not None and thing.outline is not None else ()
        for i, word in enumerate(words):
            if own and word.text in edges and word.text != own and _named_end(words, i):
                return [Turned(word, own)]
    return []


def _way_of(action: Action) -> str:
    kind = action.verb.kind
    return "in" if kind in ("seat", "attach", "tape", "screw") else "out" if kind == "remove" else ""


def _turned_way(say: Say) -> list[Turned]:
    """ "off the {body}" where a part is put on, "onto the {body}" where it is taken off."""
    ways = {_way_of(action) for action in say.actions}
    if len(ways) > 1:
        return []  # what goes in comes out again
    for action in say.actions:
        way = _way_of(action)
        fields = ("into", "over", "onto", "to") if way == "in" else ("from",)
        hosts = {f for f in fields if f in action.fields} | {r.id for f in fields for r in action.refs(f)}
        if not way:
            continue
        for match in re.finditer(r"\{([^{}]*)\}", say.prose.text):
            if match.group(1).strip() not in hosts:
                continue
            before = say.prose.text[: match.start()].lower()
            if not any(sign in before for sign in _AGAINST_SIGNS[way]):
                continue
            found = re.search(_AGAINST[way], before)
            if found is not None:
                word = Word(found.group(1), found.start(1), found.end(1))
                own = {"out of": "into", "off": "on", "into": "out of", "onto": "off"}[found.group(1)]
                return [Turned(word, own)]
    return []
