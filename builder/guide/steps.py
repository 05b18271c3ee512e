"""Entries -> stages, steps, actions: structure words unfolded, shared steps bound, verbs read."""

from __future__ import annotations

from collections.abc import Mapping

from builder.findings import Place, Related
from builder.guide.declared import CAUTION, EVERY_ACTION, NOTE_WORDS, REPEAT, STAGE, STEP, USE
from builder.guide.fields import Field, Holds, by_name
from builder.guide.model import (
    Action,
    Caution,
    Choose,
    Dropped,
    Note,
    Picture,
    Prose,
    Ref,
    Repeat,
    Stage,
    Step,
    Value,
    Verb,
)
from builder.guide.nodes import MappingNode, Node, SequenceNode
from builder.guide.reading import Pairs, Reading, nearest
from builder.quantities.units import Dimension

MOST_STEPS = 400
MOST_ACTIONS = 2_000


Verbs = Mapping[str, tuple[Verb, tuple[Field, ...]]]


class Shared:
    """A shared step of guides/common/: its parameters by kind, and its steps' nodes."""

    __slots__ = ("at", "file", "name", "params", "steps")

    def __init__(self, name: str, file: str, params: dict[str, str], steps: Node | None, at: Place) -> None:
        self.name, self.file, self.params, self.steps, self.at = name, file, params, steps, at


class Entries:
    """Reads the entries of a guide in order, remembering the stage that a step belongs to."""

    def __init__(self, reading: Reading, verbs: Verbs, shared: Mapping[str, Shared], choices: Mapping[str, object],
                 known: Mapping[str, str], cautions: Mapping[str, Caution]) -> None:  # fmt: skip
        self.reading = reading
        self.verbs = verbs
        self.shared = shared
        self.choices = choices
        self.known = known  # id -> sort
        self.cautions = cautions
        self.stage = Stage("Build", reading.place_of_start())
        self.stages: list[Stage] = []
        self.taken: dict[str, Place] = {}
        self.used: list[str] = []
        self.actions_read = 0
        self._every = by_name(EVERY_ACTION)

    # -- entries ----------------------------------------------------------------------------------

    def read(self, node: Node, *, inside_choice: bool = False) -> list[Step | Choose]:
        """All entries of a list."""
        out: list[Step | Choose] = []
        if not isinstance(node, SequenceNode):
            self.reading.fault("shape", node, "steps are a list", "Their order is the order of the work.",
                               "Begin each with a dash.")  # fmt: skip
            return out
        for entry in node.value:
            if len(self.taken) >= MOST_STEPS:
                self.reading.fault("too-many", entry, f"the guide has more than {MOST_STEPS} steps",
                                   "No class gets to the end of it.", "Split it into several guides.")  # fmt: skip
                break
            out += self._entry(entry, inside_choice)
        return out

    def _entry(self, node: Node, inside_choice: bool) -> list[Step | Choose]:
        pairs = self.reading.pairs(node, "a step")
        if not pairs:
            return []
        if "stage" in pairs:
            self._stage(pairs, node)
            return []
        if "use" in pairs:
            return list(self._use(pairs, node))
        if "choose" in pairs:
            if inside_choice:
                self.reading.fault("shape", node, "a choice stands inside another choice",
                                   "Routes would grow past counting.", "Put it after the first.")  # fmt: skip
                return []
            return self._choose(pairs, node)
        step = self._step(pairs, node, self.reading, "")
        return [step] if step else []

    def _stage(self, pairs: Pairs, node: Node) -> None:
        fields = by_name(STAGE)
        pairs = self.reading.known(pairs, fields, "a stage")
        read = {n: self.reading.field(fields[n], p[1], f"stage.{n}") for n, p in pairs.items()}
        base = read.get("base")
        share = read.get("per")
        if isinstance(base, Ref):
            base = self.checked(base, "part")
        self.stage = Stage(
            name=str(read.get("stage") or ""),
            at=self.reading.place(node),
            makes=str(read.get("makes") or ""),
            base=base.id if isinstance(base, Ref) else "",
            lying=str(read.get("lying") or ""),
            who=str(read.get("who") or ""),
            per_class=getattr(share, "builders", 1) == 0,
        )
        self.stages.append(self.stage)

    def _choose(self, pairs: Pairs, node: Node) -> list[Step | Choose]:
        choice = self.reading.text(pairs["choose"][1], "choose")
        known = self.choices.get(choice)
        if known is None:
            guess = nearest(choice, self.choices)
            self.reading.fault("unknown-name", pairs["choose"][1], f'there is no choice "{choice}"',
                               "A route is made of the options of a choice.",
                               f"Did you mean `{guess}`?" if guess else "Add it to `choices`.")  # fmt: skip
            if guess is None:
                return []
            choice = guess
            known = self.choices[guess]
        wanted: Mapping[str, str] = getattr(known, "options", {})
        options: dict[str, tuple[Step, ...]] = {}
        for name, (key, value) in pairs.items():
            if name == "choose":
                continue
            if name not in wanted:
                guess = nearest(name, wanted)
                self.reading.fault("unknown-name", key, f'the choice "{choice}" has no option "{name}"',
                                   "These steps would belong to no route.",
                                   f"Did you mean `{guess}`?" if guess else f"It has: {', '.join(wanted)}.")  # fmt: skip
                if guess is None or guess in pairs:
                    continue
                name = guess
            steps = self.read(value, inside_choice=True)
            options[name] = tuple(s for s in steps if isinstance(s, Step))
        for name in wanted:
            if name not in options:
                self.reading.fault("missing-field", node, f'the option "{name}" of "{choice}" has no steps here',
                                   "A route would end in the air.", f"Write `{name}: []` if nothing is done.")  # fmt: skip
                options[name] = ()
        return [Choose(choice, options, self.reading.place(node))]

    def _use(self, pairs: Pairs, node: Node) -> list[Step]:
        fields = by_name(USE)
        pairs = self.reading.known(pairs, fields, "a `use`")
        self.reading.required(pairs, fields, node, "a `use`")
        if "use" not in pairs or "as" not in pairs:
            return []
        name = self.reading.text(pairs["use"][1], "use")
        prefix = self.reading.new_id(pairs["as"][1], "the prefix")
        shared = self.shared.get(name)
        if shared is None:
            guess = nearest(name, self.shared)
            self.reading.fault("unknown-name", pairs["use"][1], f'there is no shared step "{name}"',
                               "Shared steps stand in guides/common/.",
                               f"Did you mean `{guess}`?" if guess else "Write it there.")  # fmt: skip
            if guess is None:
                return []
            shared = self.shared[guess]
        self.used.append(shared.name)
        bind = self._parameters(shared, pairs, node)
        outer = self.reading
        self.reading = outer.for_shared(shared.file, bind)
        try:
            steps = []
            if isinstance(shared.steps, SequenceNode):
                for entry in shared.steps.value:
                    inner = self.reading.pairs(entry, "a step")
                    step = self._step(inner, entry, self.reading, f"{prefix}_", shared.name, outer.place(node))
                    if step:
                        steps.append(step)
        finally:
            self.reading = outer
        return steps

    def _parameters(self, shared: Shared, pairs: Pairs, node: Node) -> dict[str, str]:
        bind: dict[str, str] = {}
        given = self.reading.pairs(pairs["with"][1], "`with`") if "with" in pairs else {}
        for name, (key, value) in given.items():
            if name not in shared.params:
                guess = nearest(name, shared.params)
                self.reading.fault("unknown-name", key, f'"{shared.name}" takes no "{name}"',
                                   f"It takes: {', '.join(shared.params)}.",
                                   f"Did you mean `{guess}`?" if guess else "Leave it out.")  # fmt: skip
                if guess is None or guess in given:
                    continue
                name = guess
            ref = self.reading.ref(value, f'"{name}"')
            checked = self.checked(ref, shared.params[name]) if ref else None
            if checked:
                bind[name] = checked.id
        for name, sort in shared.params.items():
            if name not in bind and name not in given:
                self.reading.fault("missing-field", node, f'"{shared.name}" needs a {sort} for "{name}"',
                                   "The shared step speaks of it.", f"Write `with: {{{name}: ID}}`.")  # fmt: skip
        return bind

    # -- steps ------------------------------------------------------------------------------------

    def _step(self, pairs: Pairs, node: Node, reading: Reading, prefix: str, shared: str = "",
              use_at: Place | None = None) -> Step | None:  # fmt: skip
        fields = by_name(STEP)
        pairs = reading.known(pairs, fields, "a step", NOTE_WORDS)
        reading.required(pairs, fields, node, "a step")
        id = prefix + (reading.new_id(pairs["id"][1], "the id of a step") if "id" in pairs else "")
        at = reading.place(pairs["id"][1] if "id" in pairs else node)
        if not id:
            id = f"step_{len(self.taken) + 1}"
        if id in self.taken:
            reading.fault("duplicate-id", use_at or at, f'there are two steps "{id}"',
                          "A step's id is its lasting address.", "Give one of them another id.",
                          (Related(self.taken[id], "the first one"),))  # fmt: skip
            while id in self.taken:
                id += "_again"
        self.taken[id] = at
        time, set_up = self._time(pairs, reading, id)
        picture = None
        if "picture" in pairs:
            alt = reading.text(pairs["alt"][1], "alt") if "alt" in pairs else ""
            picture = Picture(reading.text(pairs["picture"][1]), alt, reading.place(pairs["picture"][1]))
            if not alt:
                reading.fault("picture-alt", pairs["picture"][1], "the picture has no text alternative",
                              "Whoever cannot see it learns nothing from it.",
                              "Write `alt:` with what it shows.")  # fmt: skip
        actions, notes = self._actions(pairs, reading, id)
        for word in NOTE_WORDS:
            if word in pairs and word != "why":
                notes.append(Note(word, reading.prose(pairs[word][1], word), reading.place(pairs[word][1])))
        return Step(
            id=id,
            title=reading.prose(pairs["title"][1], "title") if "title" in pairs else Prose("", at, ()),
            at=at,
            stage=self.stage,
            actions=tuple(actions),
            time=time,
            set_up=set_up,
            who=reading.text(pairs["who"][1], "who") if "who" in pairs else self.stage.who,
            why=reading.prose(pairs["why"][1], "why") if "why" in pairs else None,
            notes=tuple(notes),
            optional="optional" in pairs and reading.yes(pairs["optional"][1], "optional"),
            cautions=tuple(self._cautions(pairs, reading)),
            dropped=tuple(self._dropped(pairs, reading)),
            picture=picture,
            shared=shared,
            use_at=use_at,
            where={n: reading.place(p[1]) for n, p in pairs.items()},
        )

    def _time(self, pairs: Pairs, reading: Reading, id: str) -> tuple[Value | None, Value | None]:
        if "time" not in pairs:
            return None, None
        node = pairs["time"][1]
        if not isinstance(node, MappingNode):
            return reading.number(node, f"{id}.time", Dimension.TIME), None
        parts = reading.pairs(node, "`time`")
        for name in parts:
            if name not in ("set up", "each"):
                reading.fault("unknown-key", parts[name][0], f'a time has no part "{name}"',
                              "A preparation has a set-up and a time for each.",
                              "Write `{set up: 10 min, each: 2 min}`.")  # fmt: skip
        each = reading.number(parts["each"][1], f"{id}.time.each", Dimension.TIME) if "each" in parts else None
        set_up = reading.number(parts["set up"][1], f"{id}.time.set_up", Dimension.TIME) if "set up" in parts else None
        return each, set_up

    def _cautions(self, pairs: Pairs, reading: Reading) -> list[Caution]:
        if "cautions" not in pairs:
            return []
        node = pairs["cautions"][1]
        out = []
        for each in node.value if isinstance(node, SequenceNode) else [node]:
            if isinstance(each, MappingNode):
                caution = read_caution("", each, reading)
                if caution:
                    out.append(caution)
                continue
            name = reading.text(each, "a caution")
            found = self.cautions.get(name)
            if found is None:
                guess = nearest(name, self.cautions)
                reading.fault("unknown-name", each, f'there is no caution "{name}"',
                              "The builder would not be warned.",
                              f"Did you mean `{guess}`?" if guess else "Write it whole: level, hazard, consequence, "
                              "avoidance.")  # fmt: skip
                found = self.cautions.get(guess) if guess else None
            if found is not None:
                out.append(found)
        return out

    def _dropped(self, pairs: Pairs, reading: Reading) -> list[Dropped]:
        if "without caution" not in pairs:
            return []
        node = pairs["without caution"][1]
        at = reading.place(node)
        if isinstance(node, MappingNode):
            inner = reading.pairs(node, "`without caution`")
            hazard = reading.text(inner["caution"][1]) if "caution" in inner else ""
            why = reading.text(inner["why"][1]) if "why" in inner else ""
            return [Dropped(hazard, why, at)]
        return [Dropped(h, "", at) for h in reading.words(node, "`without caution`")]

    # -- actions ----------------------------------------------------------------------------------

    def _actions(self, pairs: Pairs, reading: Reading, id: str) -> tuple[list[Action | Repeat], list[Note]]:
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
            self.actions_read += 1
            if self.actions_read > MOST_ACTIONS:
                reading.fault("too-many", entry, f"the guide has more than {MOST_ACTIONS} actions",
                              "No class gets to the end of it.", "Split it into several guides.")  # fmt: skip
                break
            read = self._action(entry, reading, f"{id}.{number}")
            if isinstance(read, Note):
                notes.append(read)
            elif read is not None:
                actions.append(read)
        return actions, notes

    def _action(self, node: Node, reading: Reading, path: str) -> Action | Repeat | Note | None:
        pairs = reading.pairs(node, "an action")
        if not pairs:
            return None
        first = next(iter(pairs))
        if first in NOTE_WORDS:
            return Note(first, reading.prose(pairs[first][1], first), reading.place(pairs[first][1]))
        if first == "repeat":
            return self._repeat(pairs, node, reading, path)
        row = self.verbs.get(first)
        if row is None:
            others = [name for name in pairs if name in self.verbs]
            if others:
                reading.fault("verb-first", pairs[first][0], f'an action begins with its verb, not with "{first}"',
                              "Read aloud, it is a sentence.", f"Put `{others[0]}` first.")  # fmt: skip
                row = self.verbs[others[0]]
                first = others[0]
            else:
                guess = nearest(first, [*self.verbs, "repeat", *NOTE_WORDS])
                reading.fault("unknown-verb", pairs[first][0], f'"{first}" is not a verb that a guide knows',
                              "The dry run cannot carry it out.",
                              f"Did you mean `{guess}`?" if guess else f"Known are: {', '.join(self.verbs)}.")  # fmt: skip
                if guess not in self.verbs or guess in pairs:
                    return None
                row = self.verbs[guess]
                pairs = {guess if n == first else n: p for n, p in pairs.items()}
                first = guess
        return self._fields(first, row, pairs, node, reading, path)

    def _fields(self, first: str, row: tuple[Verb, tuple[Field, ...]], pairs: Pairs, node: Node, reading: Reading,
                path: str) -> Action:  # fmt: skip
        verb, spec = row
        fields = {f.name: f for f in spec}
        allowed = {first: fields.get(verb.word) or fields["*"], **fields, **self._every}
        allowed.pop("*", None)
        second = next((n for n in pairs if n != first and n in self.verbs and n not in allowed), None)
        if second is not None:
            reading.fault("two-verbs", pairs[second][0], f'a second verb, "{second}", stands in the same action',
                          "One action is one thing done; the bench would not see the second.",
                          "A dash is missing: begin a new action with it.")  # fmt: skip
            pairs = {n: p for n, p in pairs.items() if n != second}
        pairs = reading.known(pairs, allowed, f'"{verb.word}"', NOTE_WORDS)
        values: dict[str, object] = {}
        where: dict[str, Place] = {}
        notes: list[Note] = []
        for name, (_, value) in pairs.items():
            if name in NOTE_WORDS and name not in allowed:
                notes.append(Note(name, reading.prose(value, name), reading.place(value)))
                continue
            field = allowed[name]
            key = "what" if name == first else field.key
            where[key] = reading.place(value)
            if field.holds is Holds.SPECIAL:
                values[key] = self._special(field, value, reading)
                continue
            read = reading.field(field, value, f"{path}.{field.key}" if name != first else f"{path}.{first}")
            if field.holds in (Holds.THING, Holds.THINGS) and read is not None:
                read = self._checked_all(read, field)
            if read is not None:
                values[key] = read
        for field in spec:
            key = "what" if field.name in ("*", verb.word) else field.key
            if field.required and key not in where:
                reading.fault("missing-field", node, f'"{verb.word}" does not say "{field.name}"', field.about,
                              f"Write `{field.name}: {field.example}`.")  # fmt: skip
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
        pairs = reading.pairs(node, f'"{field.name}"')
        joints = reading.refs(pairs["joints"][1], "joints") if "joints" in pairs else ()
        why = reading.text(pairs["why"][1], "why") if "why" in pairs else ""
        if not why:
            reading.fault("missing-field", node, f'"{field.name}" gives no reason',
                          "A reviewer has to see why the joint bears it.",
                          "Write `{joints: [fin], why: ...}`.")  # fmt: skip
        return (joints, why)

    def _checked_all(self, read: object, field: Field) -> object | None:
        if isinstance(read, Ref):
            return self.checked(read, field.sort)
        if isinstance(read, tuple):
            found = (self.checked(r, field.sort) for r in read if isinstance(r, Ref))
            return tuple(r for r in found if r is not None)
        return read

    def checked(self, ref: Ref, sort: str) -> Ref | None:
        """The reference if it names something; else a finding, and the nearest name."""
        if ref.id == "all" and not sort:
            return ref  # `loads: all`
        sorts = sort.split("|") if sort else []
        name = ref.text if ref.text in self.known else ref.id
        if name in self.known:
            if sorts and self.known[name] not in sorts:
                self.reading.fault("wrong-sort", ref.at, f'"{name}" is a {self.known[name]}, but a '
                                   f'{" or a ".join(sorts)} belongs here',
                                   "It could not do what is asked of it here.", "Name another thing.")  # fmt: skip
                return None
            return Ref(name, ref.at, ref.copies, "") if name == ref.text else ref
        fit = [n for n, s in self.known.items() if not sorts or s in sorts]
        guess = nearest(ref.id, fit)
        self.reading.fault("unknown-name", ref.at, f'there is no {sort.replace("|", " or ") or "thing"} "{ref.id}"',
                           "What is not on a list cannot be bought, made or found.",
                           f"Did you mean `{guess}`?" if guess else "Add it to the materials, tools or parts.")  # fmt: skip
        return Ref(guess, ref.at, ref.copies, ref.part) if guess else None

    def _repeat(self, pairs: Pairs, node: Node, reading: Reading, path: str) -> Repeat | None:
        fields = by_name(REPEAT)
        pairs = reading.known(pairs, fields, "a repeat", NOTE_WORDS)
        reading.required(pairs, fields, node, "a repeat")
        if "repeat" not in pairs:
            return None
        ref = reading.ref(pairs["repeat"][1], "repeat")
        checked = self.checked(ref, "part") if ref else None
        if checked is None:
            return None
        actions: list[Action] = []
        notes: list[Note] = []
        inner = pairs["actions"][1] if "actions" in pairs else None
        if isinstance(inner, SequenceNode):
            for number, entry in enumerate(inner.value, 1):
                read = self._action(entry, reading, f"{path}.{number}")
                if isinstance(read, Repeat):
                    reading.fault("shape", entry, "a repeat stands inside a repeat", "The copies cannot be counted.",
                                  "Write two repeats one after the other.")  # fmt: skip
                elif isinstance(read, Note):
                    notes.append(read)
                elif read is not None:
                    actions.append(read)
        around = reading.bound(reading.text(pairs["around"][1], "around")) if "around" in pairs else ""
        spots = reading.spots(pairs["at"][1], f"{path}.at") if "at" in pairs else ()
        return Repeat(checked, reading.place(node), path, tuple(actions), around, spots, tuple(notes))


def read_caution(id: str, node: Node, reading: Reading) -> Caution | None:
    """A caution written whole; a part that is missing is a finding."""
    fields = by_name(CAUTION)
    pairs = reading.known(reading.pairs(node, "a caution"), fields, "a caution")
    for field in CAUTION:
        if field.required and field.name not in pairs:
            reading.fault("caution-part", node, f'the caution{f" {id!r}" if id else ""} does not say its {field.name}',
                          "A caution tells what it is, what it does, and how to keep out of its way; with one part "
                          "missing it is not heeded.", f"Write `{field.name}: {field.example}`.")  # fmt: skip
    read = {n: reading.field(fields[n], p[1], f"caution.{n}") for n, p in pairs.items()}
    gear = read.get("gear")
    return Caution(
        id or str(read.get("covers") or "own"), str(read.get("level") or "caution"), str(read.get("hazard") or ""),
        str(read.get("consequence") or ""), str(read.get("avoidance") or ""), reading.place(node),
        gear if isinstance(gear, tuple) else (), str(read.get("source") or "the guide"))  # fmt: skip
