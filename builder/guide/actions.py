"""Actions -> verbs with their fields, every name looked up; notes and repeats among them."""

from __future__ import annotations

from collections.abc import Mapping

import msgspec

from builder.findings import Place
from builder.guide.declared import EVERY_ACTION, NOTE_WORDS, REPEAT
from builder.guide.desk import Pairs, cut, plain_pairs
from builder.guide.fields import Field, Holds, by_name
from builder.guide.model import Action, Angle, Note, Prose, Ref, Repeat, Thing, Value, Verb
from builder.guide.nodes import MappingNode, Node, ScalarNode, SequenceNode, place_of
from builder.guide.reading import READERS, Reader, Reading
from builder.guide.suspects import MOST_WORDS, blame, of_words, words_of
from builder.trade.ends import ENDS

MOST_ACTIONS = 2_000

Verbs = Mapping[str, tuple[Verb, tuple[Field, ...]]]
Read = Action | Repeat | Note

_EVERY = by_name(EVERY_ACTION)
_REPEAT = by_name(REPEAT)
_NOTES = {word: Field(word, Holds.PROSE, "Informs, never instructs.", "...") for word in NOTE_WORDS}


class Slot(msgspec.Struct, frozen=True):
    """A field in one verb: its key among the action's values, the last word of its path, how it is read."""

    key: str
    word: str
    read: Reader | None
    names_things: bool


class Names:
    """What a reference may name: ids with their sorts, and the things for their zones and copies."""

    def __init__(self, sorts: Mapping[str, str], things: Mapping[str, Thing]) -> None:
        self.sorts = sorts
        self.things = things

    def checked(self, ref: Ref, sort: str, reading: Reading) -> Ref | None:
        """The reference if it names something; else a finding, and the nearest name."""
        found = self.sorts.get(ref.id)
        if found is not None and not ref.part and not ref.copies and (not sort or found in sort.split("|")):
            return ref
        if ref.id == "all" and not sort:
            return ref  # `loads: all`
        sorts = sort.split("|") if sort else []
        name = ref.text if ref.part and ref.text in self.sorts else ref.id
        if name not in self.sorts:
            fit = [n for n, s in self.sorts.items() if not sorts or s in sorts]
            guess = reading.unknown(ref.at, ref.id,
                                    f'there is no {" or ".join(sorts) or "thing"} "{cut(ref.id)}"',
                                    "What is not on a list cannot be bought, made or found.", fit,
                                    "Add it to the materials, tools or parts.")  # fmt: skip
            return Ref(guess, ref.at, ref.copies, ref.part) if guess else None
        if sorts and self.sorts[name] not in sorts:
            reading.fault("wrong-sort", ref.at, f'"{name}" is a {self.sorts[name]}, but a '
                          f'{" or a ".join(sorts)} belongs here',
                          "It could not do what is asked of it here.", "Name another thing.")  # fmt: skip
            return None
        if ref.copies:
            return self._with_copies(ref, reading)
        if not ref.part:
            return ref
        return Ref(name, ref.at) if name == ref.text else self._with_part(ref, reading)

    def _with_copies(self, ref: Ref, reading: Reading) -> Ref:
        thing = self.things.get(ref.id)
        if thing is not None and thing.values["count"].quantity is None:
            return ref
        count = thing.count if thing is not None else 1
        there = tuple(n for n in ref.copies if 1 <= n <= count)
        if len(there) < len(ref.copies):
            wrong = next(n for n in ref.copies if not 1 <= n <= count)
            reading.fault("unknown-name", ref.at, f'there is no "{ref.id} {wrong}"',
                          f"There {'is only one' if count == 1 else f'are {count}, counted from 1'}.",
                          "Name a copy that there is, or change the count.")  # fmt: skip
        return Ref(ref.id, ref.at, there, ref.part)

    def _with_part(self, ref: Ref, reading: Reading) -> Ref:
        thing = self.things.get(ref.id)
        if thing is None:
            return ref
        zones = [z.name for chain in thing.chains for z in chain.zones]
        holes = [h.name for h in thing.holes]
        edges = thing.outline.edges if thing.outline is not None else ()
        blank = ["blank"] if f"{ref.id}.blank" in self.things else []
        if ref.part in (*zones, *holes, *edges, *ENDS, *thing.values):
            return ref
        guess = reading.unknown(ref.at, ref.part, f'"{ref.id}" has no zone or hole "{cut(ref.part)}"',
                                "The builder could not find it.", [*zones, *holes, *edges, *blank],
                                "Name one that is written under the part, or the part alone.")  # fmt: skip
        if guess == "blank":
            return Ref(f"{ref.id}.blank", ref.at)
        return Ref(ref.id, ref.at, (), guess or "")


class Actions:
    """Reads the actions of one guide."""

    def __init__(self, verbs: Verbs, names: Names) -> None:
        self.verbs = verbs
        self.names = names
        self.brought: Mapping[str, Mapping[str, str]] = {}  # by verbs of a writer's own: field -> text
        self.count = 0
        self._allowed: dict[str, dict[str, Field]] = {}
        self._slots: dict[tuple[str, str], Slot] = {}
        self._words: dict[int, tuple[Node, list[str]]] = {}

    def of_step(self, pairs: Pairs, reading: Reading, id: str) -> tuple[list[Action | Repeat], list[Note]]:
        """The actions of a step, and the notes among them."""
        actions: list[Action | Repeat] = []
        notes: list[Note] = []
        if "actions" not in pairs:
            return actions, notes
        node = pairs["actions"][1]
        if not isinstance(node, SequenceNode):
            reading.fault("shape", node, "actions are a list", "Their order is the order of the work.",
                          "Begin each with a dash.")  # fmt: skip
            return actions, notes
        for number, entry in enumerate(node.value, 1):
            for read in self._entry(entry, reading, f"{id}.{number}"):
                if isinstance(read, Note):
                    notes.append(read)
                else:
                    actions.append(read)
        return actions, notes

    def _entry(self, node: Node, reading: Reading, path: str, within: Node | None = None) -> list[Read]:
        """What one dash of the list says; where a dash is missing, what the two would have said.

        A fault `within` a repeat needs no doubts of its own where the repeat doubts every word that it holds.
        """
        self.count += 1
        if self.count > MOST_ACTIONS:
            if self.count == MOST_ACTIONS + 1:
                reading.fault("too-many", node, f"the guide has more than {MOST_ACTIONS} actions",
                              "No class gets to the end of it.", "Split it into several guides.")  # fmt: skip
            return []
        if not isinstance(node, MappingNode):
            reading.pairs(node, "an action")
            return []
        before = len(reading.findings)
        try:
            return self._parts(node, reading, path)
        finally:
            if len(reading.findings) > before and (
                within is None or len(self._words_of(within)) >= MOST_WORDS  # some were passed over
            ):
                blame(reading.findings, before, self.doubts(node, reading))

    def doubts(self, node: Node, reading: Reading) -> frozenset[str]:
        """What may be wrong because of a fault in an entry."""
        words = self._words_of(node)
        if reading.bind:
            words = [reading.bound(word) for word in words]
        return of_words(words, self.names.things, self.verbs)

    def _words_of(self, node: Node) -> list[str]:
        """The words of a node, looked through once; only faults ask for them."""
        found = self._words.get(id(node))
        if found is None:
            found = self._words[id(node)] = (node, words_of(node))  # kept, so that the id stays its own
        return found[1]

    def _parts(self, node: MappingNode, reading: Reading, path: str) -> list[Read]:
        """The one action of an entry, or the two of which the dash is missing."""
        pairs = plain_pairs(node.value)
        if pairs is not None and len(pairs.keys() & self.verbs.keys()) == 1:
            read = self._action(pairs, node, reading, path)
            return [] if read is None else [read]
        second = self._second_verb(node)
        if second:
            key = node.value[second][0]
            reading.fault("two-verbs", key, f'a second verb, "{key.value}", stands in the same action',
                          "One action is one thing done; the bench would not see the second.",
                          "A dash is missing: begin a new action with it.")  # fmt: skip
            parts = ((node.value[:second], path), (node.value[second:], f"{path}b"))
            found = [self._action(reading.pairs_of(part), node, reading, p) for part, p in parts]
        else:
            found = [self._action(reading.pairs_of(node.value), node, reading, path)]
        return [read for read in found if read is not None]

    def _second_verb(self, node: MappingNode) -> int:
        """Where a second action begins in the same mapping; 0 if none does."""
        first = node.value[0][0].value if node.value else ""
        if not isinstance(first, str) or first not in self.verbs:
            return 0
        allowed = self._fields_of(first)
        for i, (key, _) in enumerate(node.value):
            if i and isinstance(key, ScalarNode) and key.value in self.verbs and key.value not in allowed:
                return i
        return 0

    def _fields_of(self, word: str) -> dict[str, Field]:
        """The fields that an action with this verb may have, by name; the verb itself is the first."""
        found = self._allowed.get(word)
        if found is None:
            verb, spec = self.verbs[word]
            own = {f.name: f for f in spec}
            fields = {word: own.get(verb.word) or own["*"], **own, **_EVERY}
            fields.pop("*", None)
            found = self._allowed[word] = fields
        return found

    def _slot(self, word: str, name: str, field: Field) -> Slot:
        """How a field of a verb is read; made when the field is written for the first time."""
        found = self._slots.get((word, name))
        if found is None:
            key, last = ("what", word) if name == word else (field.key, field.key)
            names_things = field.holds in (Holds.THING, Holds.THINGS)
            found = self._slots[word, name] = Slot(key, last, READERS.get(field.holds), names_things)
        return found

    def _action(self, pairs: Pairs, node: Node, reading: Reading, path: str) -> Read | None:
        if not pairs:
            return None
        first = next(iter(pairs))
        row = self.verbs.get(first)
        if row is not None:
            return self._fields(first, row, pairs, node, reading, path)
        if first == "repeat":
            return self._repeat(pairs, node, reading, path)
        others = [name for name in pairs if name in self.verbs]
        if others:
            reading.fault("verb-first", pairs[first][0],
                          f'an action begins with its verb, not with "{cut(first)}"',
                          "Read aloud, it is a sentence.", f"Put `{others[0]}` first.")  # fmt: skip
            return self._fields(others[0], self.verbs[others[0]], pairs, node, reading, path)
        if first in NOTE_WORDS:
            known = reading.known(pairs, {first: _NOTES[first]}, f"a {first}")
            if first not in known:
                return None
            return Note(first, reading.prose(known[first][1], first), reading.place(known[first][1]))
        guess = self._meant(first, pairs, reading)
        if guess not in self.verbs or guess in pairs:
            return None
        renamed = Pairs()
        renamed.update((guess if name == first else name, pair) for name, pair in pairs.items())
        return self._fields(guess, self.verbs[guess], renamed, node, reading, path)

    def _meant(self, word: str, pairs: Pairs, reading: Reading) -> str:
        """The verb that was probably meant: one that is told in this word, or one that is spelt like it."""
        telling = [v.word for v, _ in self.verbs.values() if word in v.says]
        fields = {name: self._fields_of(name) for name in telling}
        fitting = [name for name in telling if all(p in fields[name] for p in pairs if p != word)]
        guess = (fitting or telling or [""])[0]
        guess = guess or reading.nearest(word, [*self.verbs, "repeat", *NOTE_WORDS]) or ""
        reading.fault("unknown-verb", pairs[word][0], f'"{cut(word)}" is not a verb that a guide knows',
                      "The dry run cannot carry it out.",
                      f"Did you mean `{guess}`?" if guess
                      else f"Known are: {', '.join(self.verbs)}.")  # fmt: skip
        strange = guess in self.verbs and any(p not in self._fields_of(guess) for p in pairs if p != word)
        return "" if strange and not telling else guess

    def _fields(self, first: str, row: tuple[Verb, tuple[Field, ...]], pairs: Pairs, node: Node,
                reading: Reading,
                path: str) -> Action:  # fmt: skip
        verb, spec = row
        allowed = self._fields_of(first)
        brought = self.brought.get(first)
        if brought:
            pairs = _with_brought(pairs, pairs[first][0], brought)
        pairs = reading.known(pairs, allowed, f'"{verb.word}"', NOTE_WORDS)
        values: dict[str, object] = {}
        where: dict[str, Place] = {}
        notes: list[Note] = []
        file = reading.file
        for name, (_, value) in pairs.items():
            field = allowed.get(name)
            if field is None:
                notes.append(Note(name, reading.prose(value, name), reading.place(value)))
                continue
            slot = self._slot(first, name, field)
            key, reader = slot.key, slot.read
            where[key] = place_of(value, file)
            if reader is None:
                values[key] = self._special(field, value, reading)
                continue
            read = reader(reading, field, value, f"{path}.{slot.word}")
            if slot.names_things:
                read = self._checked(read, field, reading)
            elif field.holds is Holds.AROUND and read != "yes":
                read = self.around(str(read or ""), where[key], reading)
            elif isinstance(read, Angle) and read.of:
                of = self.names.checked(Ref(read.of, where[key]), "part", reading)
                read = Angle(read.at, read.value, read.evenly, of.id if of is not None else "")
            if read is not None:
                values[key] = read
        main = allowed[first].name
        missing = [f for f in spec if f.required and f.name != main and f.name not in pairs
                   and f.name not in pairs.spoiled]  # fmt: skip
        reading.missing(missing, pairs, node, f'this "{verb.word}"')
        say = values.pop("say", None)
        takes = values.pop("takes", None)
        return Action(
            verb, reading.place(node), path, values, where, spec,
            say if isinstance(say, Prose) else None,
            takes if isinstance(takes, Value) else None,
            values.pop("told_above", False) is True,
            tuple(notes),
        )  # fmt: skip

    def _special(self, field: Field, node: Node, reading: Reading) -> object:
        """`gently: {joints: [a], why: text}`."""
        inner = by_name(field.inner)
        pairs = reading.known(reading.pairs(node, f'"{field.name}"'), inner, f'"{field.name}"')
        reading.required(pairs, inner, node, f'"{field.name}"')
        joints = reading.refs(pairs["joints"][1], "joints") if "joints" in pairs else ()
        found = (self.names.checked(r, "part", reading) for r in joints)
        why = reading.text(pairs["why"][1], "why") if "why" in pairs else ""
        return (tuple(r for r in found if r is not None), why)

    def _checked(self, read: object, field: Field, reading: Reading) -> object | None:
        if isinstance(read, Ref):
            return self.names.checked(read, field.sort, reading)
        if isinstance(read, tuple):
            found = [self.names.checked(r, field.sort, reading) for r in read]
            return tuple(r for r in found if r is not None)
        return None

    def around(self, text: str, at: Place, reading: Reading) -> str:
        """`body`, `canopy corners`: the host must be known."""
        head, space, rest = text.partition(" ")
        if not head:
            return ""
        found = self.names.checked(Ref(reading.bound(head), at), "", reading)
        return "" if found is None else found.id + space + rest

    def _repeat(self, pairs: Pairs, node: Node, reading: Reading, path: str) -> Repeat | None:
        verb = next((name for name in pairs if name in self.verbs and name not in _REPEAT), None)
        inner = pairs["actions"][1] if "actions" in pairs else None
        entries: list[Node] = list(inner.value) if isinstance(inner, SequenceNode) else []
        if verb is not None:
            reading.fault("shape", pairs[verb][0], "the actions of a repeat stand under `actions`",
                          "Otherwise nobody can tell what is repeated.",
                          "Write `actions:` and begin each with a dash.")  # fmt: skip
            keys = list(pairs)
            loose = [pairs.pop(name) for name in keys[keys.index(verb) :] if name != "actions"]
            pairs.spoiled.add("actions")
            entries.append(MappingNode("", loose, loose[0][0].start_mark, loose[-1][1].end_mark))
        elif inner is not None and not isinstance(inner, SequenceNode):
            reading.fault("shape", inner, "actions are a list", "Their order is the order of the work.",
                          "Begin each with a dash.")  # fmt: skip
        spoiled = pairs.spoiled
        pairs = reading.known(pairs, _REPEAT, "a repeat", NOTE_WORDS)
        pairs.spoiled |= spoiled
        reading.required(pairs, _REPEAT, node, "a repeat")
        ref = reading.ref(pairs["repeat"][1], "repeat") if "repeat" in pairs else None
        checked = self.names.checked(ref, "part", reading) if ref else None
        actions: list[Action] = []
        notes = [Note(w, reading.prose(pairs[w][1], w), reading.place(pairs[w][1])) for w in NOTE_WORDS
                 if w in pairs]
        for number, entry in enumerate(entries, 1):
            for read in self._entry(entry, reading, f"{path}.{number}", node):
                if isinstance(read, Repeat):
                    reading.fault("shape", entry, "a repeat stands inside a repeat",
                                  "The copies cannot be counted.",
                                  "Write two repeats one after the other.")  # fmt: skip
                elif isinstance(read, Note):
                    notes.append(read)
                else:
                    actions.append(read)
        around = ""
        if "around" in pairs:
            around = self.around(reading.word_text(pairs["around"][1], "around"),
                                 reading.place(pairs["around"][1]),
                                 reading)  # fmt: skip
        spots = reading.spots(pairs["at"][1], f"{path}.at") if "at" in pairs else ()
        if checked is None:
            return None
        return Repeat(checked, reading.place(node), path, tuple(actions), around, spots, tuple(notes))


def _with_brought(pairs: Pairs, key: ScalarNode, brought: Mapping[str, str]) -> Pairs:
    """The pairs of an action with those that its verb brings along; they stand where the verb stands."""
    begin, end = key.start_mark, key.end_mark
    for name, text in brought.items():
        if name not in pairs:
            pairs[name] = (ScalarNode("", name, begin, end), ScalarNode("", text, begin, end))
    return pairs
