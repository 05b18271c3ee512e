"""Entries -> stages and steps: structure words unfolded, shared steps bound, cautions named."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

import msgspec

from builder.findings import Finding, Place, Related
from builder.guide.actions import Actions, Names, Verbs
from builder.guide.declared import NOTE_WORDS, STAGE, STEP, USE
from builder.guide.desk import Pairs, cut
from builder.guide.fields import by_name
from builder.guide.library import Library, Shared
from builder.guide.model import (
    Caution,
    Choice,
    Choose,
    Note,
    Picture,
    Prose,
    Ref,
    Stage,
    Step,
    Value,
)
from builder.guide.nodes import MappingNode, Node, ScalarNode, SequenceNode
from builder.guide.reading import Reading
from builder.guide.step_cautions import cautions_named, dropped_in
from builder.guide.suspects import UNDONE
from builder.quantities.units import Dimension

MOST_STEPS = 400

_STAGE, _USE, _STEP = by_name(STAGE), by_name(USE), by_name(STEP)
_TIME = by_name(_STEP["time"].inner)
_BEGINS = ("stage", "use", "choose", "id")  # the first word of an entry


class Entries:
    """Reads the entries of a guide in order, remembering the stage that a step belongs to."""

    def __init__(self, reading: Reading, verbs: Verbs, library: Library, choices: Mapping[str, Choice],
                 names: Names, cautions: Mapping[str, Caution]) -> None:  # fmt: skip
        self.reading = reading
        self.library = library
        self.choices = choices
        self.names = names
        self.cautions = cautions
        self.actions = Actions(verbs, names)
        self.stage = Stage("Build", Place(reading.file, 1, 1))
        self.stages: list[Stage] = []
        self.taken: dict[str, Place] = {}
        self.used: list[str] = []
        self.prefixes: dict[tuple[str, str], Place] = {}
        self.full = False

    # -- entries ----------------------------------------------------------------------------------

    def read(self, node: Node, *, inside_choice: bool = False) -> list[Step | Choose]:
        """All entries of a list."""
        out: list[Step | Choose] = []
        if not isinstance(node, SequenceNode):
            self.reading.fault("shape", node, "steps are a list", "Their order is the order of the work.",
                               "Begin each with a dash.")  # fmt: skip
            return out
        for entry in node.value:
            before = len(self.reading.findings)
            for pairs in self._apart(entry):
                out += self._entry(pairs, entry, inside_choice)
            self._doubt(before, entry)
            if self.full:
                break
        return out

    def _doubt(self, before: int, entry: Node) -> None:
        """What a whole entry does is in doubt where its fault is not told of one of its actions."""
        findings = self.reading.findings
        fresh = [i for i in range(before, len(findings)) if not findings[i].suspects]
        self._missed(before, entry)
        if not fresh:
            return
        facts = self.actions.doubts(entry, self.reading)
        if any(isinstance(key, ScalarNode) and key.value == "use" for key, _ in _pairs(entry)):
            facts |= {f"done:{verb}" for verb in self.actions.verbs}  # what it would have done is not known
        for i in fresh:
            missing = findings[i].check in ("missing-value", "missing-field")
            lost = {UNDONE} if missing and '"actions"' in findings[i].message else set()
            findings[i] = msgspec.structs.replace(findings[i], suspects=facts | lost)

    def _missed(self, before: int, entry: Node) -> None:
        """What a tool or a material stands in the place of is not named there any more; probably it is
        something else of that step, which then lacks what the action does."""
        findings = self.reading.findings
        wrong = [i for i in range(before, len(findings)) if findings[i].check == "wrong-sort"]
        if wrong:
            facts = self.actions.doubts(entry, self.reading)
            facts = frozenset(f for f in facts if f.startswith(("placed:", "held:", "there:", "seat:")))
            for i in wrong:
                findings[i] = msgspec.structs.replace(findings[i], suspects=findings[i].suspects | facts)

    def _apart(self, node: Node) -> Iterator[Pairs]:
        """The pairs of an entry; where a dash is missing, those of each entry that runs into another."""
        if not isinstance(node, MappingNode):
            yield self.reading.pairs(node, "a step")
            return
        begin = 0
        first = ""
        for i, (key, _) in enumerate(node.value):
            word = key.value if isinstance(key, ScalarNode) else ""
            if word not in _BEGINS:
                continue
            if i > begin and first and (word != "id" or first in _BEGINS):
                self.reading.fault("missing-dash", key, f'another entry, "{word}", begins inside this one',
                                   "The two would be read as one.", "Begin it with a dash.")  # fmt: skip
                yield self.reading.pairs_of(node.value[begin:i])
                begin = i
            first = word
        yield self.reading.pairs_of(node.value[begin:])

    def _entry(self, pairs: Pairs, node: Node, inside_choice: bool) -> list[Step | Choose]:
        if not pairs:
            return []
        if "stage" in pairs:
            self._stage(pairs, node)
            return []
        if "use" in pairs:
            return list(self._use(pairs, node))
        if "choose" in pairs:
            if inside_choice:
                self.reading.fault("shape", pairs["choose"][0], "a choice stands inside another choice",
                                   "Routes would grow past counting.", "Put it after the first.")  # fmt: skip
                return []
            return self._choose(pairs, node)
        step = self._step(pairs, node, self.reading, "")
        return [step] if step else []

    def _stage(self, pairs: Pairs, node: Node) -> None:
        key = next(iter(pairs.values()))[0]
        at = self.reading.place(node if key is node.value[0][0] else key)
        pairs = self.reading.known(pairs, _STAGE, "a stage")
        read = {n: self.reading.field(_STAGE[n], p[1], f"stage.{n}") for n, p in pairs.items()}
        base = read.get("base")
        if isinstance(base, Ref):
            base = self.names.checked(base, "part", self.reading)
        makes = str(read.get("makes") or "")
        if makes in self.names.things:
            self.reading.fault("duplicate-id", pairs["makes"][1],
                               f'"{cut(makes)}" already names something else',
                               "A name that means two things cannot be told apart in a step.",
                               "Give the sub-assembly another id.",
                               (Related(self.names.things[makes].at, "the first one"),))  # fmt: skip
        share = read.get("per")
        self.stage = Stage(
            name=str(read.get("stage") or ""),
            at=at,
            makes=makes,
            base=base.id if isinstance(base, Ref) else "",
            lying=str(read.get("lying") or ""),
            who=str(read.get("who") or ""),
            per_class=getattr(share, "builders", 1) == 0,
            time=time if isinstance(time := read.get("time"), Value) else None,
        )
        self.stages.append(self.stage)

    def _choose(self, pairs: Pairs, node: Node) -> list[Step | Choose]:
        at = self.reading.place(node)
        name_node = pairs["choose"][1]
        choice = self.reading.word_text(name_node, "`choose`")
        if choice and choice not in self.choices:
            choice = self.reading.unknown(name_node, choice, f'there is no choice "{cut(choice)}"',
                                          "A route is made of the options of a choice.", self.choices,
                                          "Add it to `choices`.") or ""  # fmt: skip
        if not choice:
            return []
        wanted = self.choices[choice].options
        options: dict[str, tuple[Step, ...]] = {}
        astray = 0
        for name, (key, value) in pairs.items():
            option: str | None = name
            if name == "choose":
                continue
            if name not in wanted:
                option = self.reading.unknown(key, name, f'the choice "{choice}" has no option "{cut(name)}"',
                                              "These steps would belong to no route.", wanted,
                                              f"It has: {', '.join(wanted)}.")  # fmt: skip
                if option is None or option in pairs:
                    astray += 1
                    continue
            steps = self.read(value, inside_choice=True)
            options[option or name] = tuple(s for s in steps if isinstance(s, Step))
        lacking = [name for name in wanted if name not in options]
        for name in lacking:
            if len(lacking) > astray:
                self.reading.fault("missing-field", pairs["choose"][0],
                                   f'the option "{name}" of "{choice}" has no steps here',
                                   "A route would end in the air.",
                                   f"Write `{name}: []` if nothing is done.")  # fmt: skip
            options[name] = ()
        return [Choose(choice, options, at)]

    # -- shared steps -----------------------------------------------------------------------------

    def _use(self, pairs: Pairs, node: Node) -> list[Step]:
        at = self.reading.place(node)
        pairs = self.reading.known(pairs, _USE, "a `use`")
        self.reading.required(pairs, _USE, node, "a `use`")
        if "use" not in pairs:
            return []
        name: str | None = self.reading.word_text(pairs["use"][1], "`use`")
        if name and name not in self.library.shared:
            name = self.reading.unknown(pairs["use"][1], name, f'there is no shared step "{cut(name)}"',
                                        "Shared steps stand in guides/common/.", self.library.shared,
                                        "Write it there.")  # fmt: skip
        shared = self.library.step(name, self.reading) if name else None
        if shared is None:
            return []
        prefix = self.reading.new_id(pairs["as"][1], "the prefix") if "as" in pairs else shared.name
        self.used.append(shared.name)
        if (prefix, shared.name) in self.prefixes:
            self.reading.fault("duplicate-id", pairs["as"][1] if "as" in pairs else node,
                               f'the prefix "{cut(prefix)}" is used twice',
                               "The steps would have the same ids.",
                               "Give each use a prefix of its own.",
                               (Related(self.prefixes[prefix, shared.name], "the first one"),))  # fmt: skip
            while (prefix, shared.name) in self.prefixes:
                prefix += "_again"
        self.prefixes[prefix, shared.name] = self.reading.place(pairs["as"][1] if "as" in pairs else node)
        bind, unbound = self._parameters(shared, pairs, node)
        outer = self.reading
        before = len(outer.findings)
        inner = outer.for_shared(shared.file, bind, shared.lost | unbound, shared.source)
        steps = list(self._shared_steps(shared, inner, f"{prefix}_", at))
        note = Related(at, f'used here as "{prefix}"')
        for i, finding in enumerate(outer.findings[before:], before):
            if finding.place.file == shared.file:
                outer.findings[i] = also(finding, (note,))
        return steps

    def _shared_steps(self, shared: Shared, reading: Reading, prefix: str, at: Place) -> Iterator[Step]:
        if shared.steps is None:
            return
        if not isinstance(shared.steps, SequenceNode):
            reading.fault("shape", shared.steps, "steps are a list", "Their order is the order of the work.",
                          "Begin each with a dash.")  # fmt: skip
            return
        for entry in shared.steps.value:
            pairs = reading.pairs(entry, "a step")
            word = next((w for w in ("stage", "use", "choose") if w in pairs), None)
            if word is not None:
                reading.fault("shape", pairs[word][0], f"`{word}` stands inside a shared step",
                              "A shared step holds steps alone, so that its uses can be told apart.",
                              "Write it in the guide that uses the step.")  # fmt: skip
                continue
            step = self._step(pairs, entry, reading, prefix, shared.name, at) if pairs else None
            if step:
                yield step
            if self.full:
                return

    def _parameters(self, shared: Shared, pairs: Pairs, node: Node) -> tuple[dict[str, str], frozenset[str]]:
        """What the parameters stand for, and those that stand for nothing because of a fault told here."""
        bind: dict[str, str] = {}
        astray = 0
        given = self.reading.pairs(pairs["with"][1], "`with`") if "with" in pairs else Pairs()
        for name, (key, value) in given.items():
            param: str | None = name
            if name not in shared.params:
                param = self.reading.unknown(key, name, f'"{shared.name}" takes no "{cut(name)}"',
                                             f"It takes: {', '.join(shared.params)}.", shared.params,
                                             "Leave it out.")  # fmt: skip
                if param is None or param in given:
                    astray += 1
                    continue
            ref = self.reading.ref(value, f'"{name}"')
            checked = self.names.checked(ref, shared.params[param or name], self.reading) if ref else None
            bind[param or name] = checked.id if checked else ""
        lacking = [name for name in shared.params if name not in bind]
        if lacking and given.whole and "with" not in pairs.spoiled and len(lacking) > astray:
            needs = " and ".join(f'a {shared.params[n].replace("|", " or a ") or "thing"} for "{n}"'
                                 for n in lacking)
            write = ", ".join(f"{name}: ID" for name in lacking)
            self.reading.fault("missing-field", node, f'"{shared.name}" needs {needs}',
                               "The shared step speaks of it.", f"Write `with: {{{write}}}`.")  # fmt: skip
        bound = {name: id for name, id in bind.items() if id}
        return bound, frozenset(name for name in shared.params if name not in bound)

    # -- steps ------------------------------------------------------------------------------------

    def _step(self, pairs: Pairs, node: Node, reading: Reading, prefix: str, shared: str = "",
              use_at: Place | None = None) -> Step | None:  # fmt: skip
        if len(self.taken) >= MOST_STEPS:
            if not self.full:
                reading.fault("too-many", node, f"the guide has more than {MOST_STEPS} steps",
                              "No class gets to the end of it.", "Split it into several guides.")  # fmt: skip
            self.full = True
            return None
        pairs = reading.known(pairs, _STEP, "a step", NOTE_WORDS)
        reading.required(pairs, _STEP, node, "a step")
        at = reading.place(pairs["id"][1] if "id" in pairs else node)
        id = self._new_step(pairs, reading, prefix, use_at, at)
        time, set_up = self._time(pairs, reading, id)
        actions, notes = self.actions.of_step(pairs, reading, id)
        for word in NOTE_WORDS:
            if word in pairs and word != "why":
                notes.append(Note(word, reading.prose(pairs[word][1], word), reading.place(pairs[word][1])))
        return Step(
            id=id,
            title=reading.prose(pairs["title"][1], "the title") if "title" in pairs else Prose("", at, ()),
            at=at,
            stage=self.stage,
            actions=tuple(actions),
            time=time,
            set_up=set_up,
            who=reading.text(pairs["who"][1], "who") if "who" in pairs else self.stage.who,
            why=reading.prose(pairs["why"][1], "why") if "why" in pairs else None,
            notes=tuple(notes),
            optional="optional" in pairs and reading.yes(pairs["optional"][1], "optional"),
            critical="critical" in pairs and reading.yes(pairs["critical"][1], "critical"),
            cautions=tuple(cautions_named(pairs, reading, self.cautions)),
            dropped=tuple(dropped_in(pairs, reading)),
            picture=_picture(pairs, reading),
            shared=shared,
            use_at=use_at,
            where={n: reading.place(p[1]) for n, p in pairs.items()},
        )

    def _new_step(self, pairs: Pairs, reading: Reading, prefix: str, use_at: Place | None, at: Place) -> str:
        own = reading.new_id(pairs["id"][1], "the id of a step") if "id" in pairs else ""
        id = prefix + own if own else f"{prefix}step_{len(self.taken) + 1}"
        if id in self.taken:
            reading.fault("duplicate-id", use_at or at, f'there are two steps "{cut(id)}"',
                          "A step's id is its lasting address.", "Give one of them another id.",
                          (Related(self.taken[id], "the first one"),))  # fmt: skip
            while id in self.taken:
                id += "_again"
        self.taken[id] = at
        return id

    def _time(self, pairs: Pairs, reading: Reading, id: str) -> tuple[Value | None, Value | None]:
        if "time" not in pairs:
            return None, None
        node = pairs["time"][1]
        if not isinstance(node, MappingNode):
            return reading.number(node, f"{id}.time", Dimension.TIME), None
        parts = reading.known(reading.pairs(node, "`time`"), _TIME, "a time")
        each = reading.number(parts["each"][1], f"{id}.time.each",
                              Dimension.TIME) if "each" in parts else None
        set_up = reading.number(parts["set up"][1], f"{id}.time.set_up",
                                Dimension.TIME) if "set up" in parts else None
        return each, set_up


def _pairs(node: Node) -> list[tuple[Node, Node]]:
    return node.value if isinstance(node, MappingNode) else []


def _picture(pairs: Pairs, reading: Reading) -> Picture | None:
    if "picture" not in pairs:
        return None
    node = pairs["picture"][1]
    alt = reading.text(pairs["alt"][1], "alt") if "alt" in pairs else ""
    if not alt and "alt" not in pairs.spoiled:
        reading.fault("picture-alt", node, "the picture has no text alternative",
                      "Whoever cannot see it learns nothing from it.", "Write `alt:` with what it shows.")
    return Picture(reading.text(node, "the picture"), alt, reading.place(node))


def also(finding: Finding, more: Iterable[Related]) -> Finding:
    """A finding with further places that it is about."""
    return msgspec.structs.replace(finding, also=tuple(dict.fromkeys((*finding.also, *more))))


