"""A guide as facts: everything that it says, each under its own name, and nothing of where it was written.

Two guides with equal trees say the same. A fact is a piece of text under a path (`thing / body / length`);
what has an order is a list of keys. What follows from other facts (a derived number, a computed caution) is
no fact, so that one change of a guide is one difference.
"""

from __future__ import annotations

from collections.abc import Mapping

import msgspec

from builder.findings import Place
from builder.guide.model import (
    Action,
    Angle,
    Caution,
    Choose,
    Guide,
    Repeat,
    Stage,
    Step,
    Thing,
    Value,
)
from builder.revisions.texts import (
    LINES,
    exact_text,
    notes_text,
    prose_text,
    ref_text,
    refs_text,
    share_text,
    spot_text,
    text_of,
    window_text,
)

Path = tuple[str, ...]


class Facts(msgspec.Struct, frozen=True):
    """`leaves` are the facts by path, `orders` the lists of keys by path, `values` the number behind a
    fact that is one."""

    leaves: Mapping[Path, str]
    orders: Mapping[Path, tuple[str, ...]]
    values: Mapping[Path, Value]

    def below(self, *prefix: str) -> dict[Path, str]:
        """The facts whose path begins so."""
        size = len(prefix)
        return {path: text for path, text in self.leaves.items() if path[:size] == prefix}

    def keys(self, kind: str) -> list[str]:
        """The second parts of the paths of a kind, each once, in their order: the ids of things, of steps."""
        return list(dict.fromkeys(path[1] for path in self.leaves if path[0] == kind))


def facts_of(guide: Guide, cautions: Mapping[str, tuple[Caution, ...]]) -> Facts:
    """All facts of a guide. `cautions` are those that stand before each step, since a caution that stands
    nowhere says nothing."""
    writer = _Writer(guide)
    writer.top()
    for thing in guide.things.values():
        if thing.sort != "assembly" and not thing.blank_of:
            writer.thing(thing)
    used = {caution.id for row in cautions.values() for caution in row}
    for name, caution in guide.cautions.items():
        if name in used:
            writer.caution(("caution", name), caution)
    writer.entries()
    return Facts(writer.leaves, writer.orders, writer.values)


class _Writer:
    def __init__(self, guide: Guide) -> None:
        self.guide = guide
        self.leaves: dict[Path, str] = {}
        self.orders: dict[Path, tuple[str, ...]] = {}
        self.values: dict[Path, Value] = {}
        self.owners = _owners(guide)
        self.stages: dict[tuple[str, Place], str] = {}

    def put(self, path: Path, text: str) -> None:
        """Enter a fact; what is empty is not there."""
        if text:
            self.leaves[path] = text

    def number(self, path: Path, value: Value | None) -> None:
        """Enter a number as it was written, if it was."""
        if value is not None and value.text:
            self.leaves[path] = " ".join(value.text.split())
            self.values[path] = value

    # -- the guide as a whole ---------------------------------------------------------------------

    def top(self) -> None:
        """Title, audience, units, pages in Markdown, choices, dimensions, the end product."""
        guide = self.guide
        self.put(("guide", "title"), guide.title)
        for name, text in guide.audience.items():
            self.put(("guide", name.replace("_", " ")), text)
        units = guide.units
        self.put(("guide", "first"), str(getattr(units, "first", "")))
        self.put(("guide", "second"), str(getattr(units, "second", "")))
        finest = getattr(units, "finest", None)
        self.put(("guide", "finest"), exact_text(getattr(finest, "base", None)))
        self.number(("guide", "cut tolerance"), guide.cut_tolerance)
        for name, text in guide.prose.items():
            self.put(("guide", name), text)
        for choice in guide.choices.values():
            for option, name in choice.options.items():
                self.put(("choice", choice.id, option), name)
        for name, value in guide.dimensions.items():
            self.number(("dimension", name, "is"), value)
            self.put(("dimension", name, "why"), value.why)
        for term in guide.terms:
            self.put(("term", term.word, "means"), term.means)
            self.put(("term", term.word, "never"), ", ".join(term.never))
        for each in guide.accepted:
            self.leaves["accepted", f"{each.check} at {each.spot}", "why"] = each.why
            self.put(("accepted", f"{each.check} at {each.spot}", "facts"), each.facts)
        if guide.finished is not None:
            self.put(("guide", "finished is"), guide.finished.what.text)
            self.put(("guide", "finished holds"), refs_text(guide.finished.holds))
            self.put(("guide", "left over"), refs_text(guide.finished.left_over))

    # -- things -----------------------------------------------------------------------------------

    def thing(self, thing: Thing) -> None:
        """A material, a tool or a part. What it borrows by `like` is told where it is written."""
        base = ("thing", thing.id)
        self.leaves[(*base, "sort")] = thing.sort
        own = {name: self.owners.get((thing.id, name), thing.id) == thing.id for name in thing.where}
        if "like" in thing.where:
            models = [self.owners[thing.id, n] for n in thing.where if not own.get(n, True)]
            self.put((*base, "like"), next(iter(models), ""))
        if own.get("form", True):
            self.put((*base, "form"), thing.form)
        for name, text in thing.words.items():
            if own.get(name, True):
                self.put((*base, name), text)
        for name, ref in thing.refs.items():
            if own.get("rolled" if "rolled" in thing.where else name, True):
                self.put((*base, name), ref.text)
        for value in thing.values.values():
            head, _, name = value.path.partition(".")
            if head == thing.id and name:
                self.number((*base, name), value)
        if thing.hazards is not None and own.get("hazards", True):
            self.put((*base, "hazards"), ", ".join(thing.hazards) or "none")
        if thing.share is not None and own.get("one_per" if thing.sort == "tool" else "per", True):
            self.put((*base, "per"), share_text(thing.share))
        if thing.window is not None and own.get("label", True):
            self.put((*base, "recoat"), window_text(thing.window))
        if own.get("zones", True):
            self._chains(base, thing)
        if own.get("outline", True):
            self._outline(base, thing)
        if own.get("holes", True):
            for hole in thing.holes:
                self.put((*base, "hole", hole.name), spot_text(hole.spot))
        if own.get("diameters", True):
            for taper in thing.tapers:
                self.number((*base, "taper", taper.zone, "first"), taper.first)
                self.number((*base, "taper", taper.zone, "second"), taper.second)

    def _chains(self, base: Path, thing: Thing) -> None:
        for chain in thing.chains:
            name = f"{chain.side} from {chain.origin}"
            self.orders[(*base, "zones", name)] = tuple(zone.name for zone in chain.zones)
            for zone in chain.zones:
                self.number((*base, "zone", name, zone.name), zone.length)

    def _outline(self, base: Path, thing: Thing) -> None:
        outline = thing.outline
        if outline is None or "outline" not in thing.where:
            return
        self.put((*base, "outline"), outline.shape)
        self.put((*base, "edges"), ", ".join(outline.edges))
        for name, text in outline.words.items():
            self.put((*base, name), text)
        self.put((*base, "points"), LINES.join(f"{a.text}, {b.text}" for a, b in outline.points))

    # -- cautions ---------------------------------------------------------------------------------

    def caution(self, base: Path, caution: Caution) -> None:
        """The words of a caution."""
        self.leaves[(*base, "level")] = caution.level
        for name in ("hazard", "consequence", "avoidance", "source"):
            self.put((*base, name), " ".join(str(getattr(caution, name)).split()))
        self.put((*base, "gear"), ", ".join(caution.gear))

    # -- steps ------------------------------------------------------------------------------------

    def entries(self) -> None:
        """The steps in their order, with the choices between them."""
        order: list[str] = []
        blocks: dict[str, int] = {}
        for entry in self.guide.entries:
            if isinstance(entry, Choose):
                blocks[entry.choice] = blocks.get(entry.choice, 0) + 1
                block = f"choose {entry.choice} {blocks[entry.choice]}"
                order.append(block)
                for option, steps in entry.options.items():
                    self.orders["order", block, option] = tuple(step.id for step in steps)
                    for step in steps:
                        self.step(step)
            else:
                order.append(entry.id)
                self.step(entry)
        self.orders["order",] = tuple(order)

    def stage(self, stage: Stage) -> str:
        """The key of a stage; its facts are entered the first time."""
        known = self.stages.get((stage.name, stage.at))
        if known is not None:
            return known
        number = sum(1 for name, _ in self.stages if name == stage.name)
        key = f"{stage.name} #{number + 1}" if number else stage.name
        self.stages[stage.name, stage.at] = key
        self.leaves["stage", key, "name"] = stage.name
        for name in ("makes", "base", "lying"):
            self.put(("stage", key, name), str(getattr(stage, name)))
        self.put(("stage", key, "per"), "class" if stage.per_class else "")
        self.number(("stage", key, "time"), stage.time)
        return key

    def step(self, step: Step) -> None:
        """A step with its actions."""
        base = ("step", step.id)
        self.leaves[(*base, "title")] = prose_text(step.title)
        self.leaves[(*base, "stage")] = self.stage(step.stage)
        self.number((*base, "time"), step.time)
        self.number((*base, "set up"), step.set_up)
        self.put((*base, "who"), step.who)
        if step.why is not None:
            self.put((*base, "why"), prose_text(step.why))
        self.put((*base, "notes"), notes_text(step.notes))
        self.put((*base, "optional"), "yes" if step.optional else "")
        self.put((*base, "critical"), "yes" if step.critical else "")
        named = [c for c in step.cautions if c.at is None or self.guide.cautions.get(c.id) == c]
        for caution in named:
            self.leaves[(*base, "caution", caution.id)] = "yes"
        own = (c for c in step.cautions if c not in named)
        for number, caution in enumerate(own, 1):
            self.caution((*base, "own caution", str(number)), caution)
        for dropped in step.dropped:
            self.put((*base, "without caution", dropped.hazard), dropped.why or "no reason")
        if step.picture is not None:
            self.put((*base, "picture"), step.picture.file)
            self.put((*base, "alt"), step.picture.alt)
        keys: list[str] = []
        repeats = 0
        for entry in step.actions:
            if isinstance(entry, Repeat):
                repeats += 1
                self._repeat(base, str(repeats), entry)
                for action in entry.actions:
                    self.action(base, keys, action, str(repeats))
            else:
                self.action(base, keys, entry, "")
        self.orders[(*base, "actions")] = tuple(keys)

    def _repeat(self, base: Path, key: str, repeat: Repeat) -> None:
        here = (*base, "repeat", key)
        self.leaves[(*here, "of")] = ref_text(repeat.of)
        self.put((*here, "around"), repeat.around)
        self.put((*here, "at"), ", ".join(spot_text(spot) for spot in repeat.spots))
        self.put((*here, "notes"), notes_text(repeat.notes))

    def action(self, base: Path, keys: list[str], action: Action, repeat: str) -> None:
        """An action: its verb and its fields. `repeat` is the key of the repeat that it stands in."""
        key = str(len(keys) + 1)
        keys.append(key)
        here = (*base, "action", key)
        self.leaves[(*here, "verb")] = action.verb.word
        self.put((*here, "in"), repeat)
        for name, value in action.fields.items():
            field = name.replace("_", " ")
            if isinstance(value, Value):
                self.number((*here, field), value)
            elif isinstance(value, Angle) and value.value is not None:
                self.number((*here, field), value.value)
            else:
                self.put((*here, field), text_of(value))
        if action.say is not None:
            self.put((*here, "say"), prose_text(action.say))
        self.number((*here, "takes"), action.takes)
        self.put((*here, "told above"), "yes" if action.told_above else "")
        self.put((*here, "notes"), notes_text(action.notes))


def _owners(guide: Guide) -> dict[tuple[str, str], str]:
    """(thing, field) -> the thing in which a borrowed field is written: the nearest one that begins before
    the place of the field."""
    things = [t for t in guide.things.values() if t.sort != "assembly" and not t.blank_of]
    found: dict[tuple[str, str], str] = {}
    for thing in things:
        if "like" not in thing.where:
            continue
        for name, place in thing.where.items():
            writers = [t for t in things if t.at <= place and t.where.get(name) == place]
            found[thing.id, name] = max(writers, key=lambda t: t.at).id if writers else thing.id
    return found
