"""What may be typed at the cursor: fields, verbs, words, ids, places."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator

import msgspec

from builder.checks.every import ALL as CHECKS
from builder.dryrun.kinds import VERBS
from builder.editor.lookup import marks
from builder.editor.tables import Path, below, field_at, fields_of, holder_at
from builder.editor.where import Typing
from builder.explain.numbers import numbers_of
from builder.guide.actions import Verbs
from builder.guide.fields import Field, Holds, type_words
from builder.guide.model import Guide, Thing
from builder.guide.nodes import MappingNode, Node, ScalarNode
from builder.trade.ends import ENDS

# The kinds of item of the protocol (3.17, CompletionItemKind).
VARIABLE, PROPERTY, VALUE, KEYWORD, CONSTANT, REFERENCE = 6, 10, 12, 14, 21, 18


class Item(msgspec.Struct, frozen=True):
    """Something that may be typed: what is listed, what is put in, what it is."""

    label: str
    insert: str
    kind: int
    detail: str = ""
    about: str = ""


def completions(guide: Guide, typing: Typing) -> list[Item]:
    """Everything that fits what has been typed, in the order in which it is declared or written."""
    found = _keys(guide, typing) if typing.is_key else _values(guide, typing)
    typed = typing.typed
    fitting = (item for item in found if item.label.startswith(typed) and item.label != typed)
    return list({item.label: item for item in fitting}.values())


# -- keys ---------------------------------------------------------------------------------------------


def _keys(guide: Guide, typing: Typing) -> Iterator[Item]:
    verbs = {**VERBS, **guide.own_verbs}
    holder, node = holder_at(typing.root, typing.path[:-1], verbs)
    if holder is None:
        return
    there = _words(node)
    if holder.kind in ("fields", "entry", "action"):
        plain = _without_cursor(node)
        for name, field in fields_of(holder, plain, verbs).items():
            if name not in there:
                yield _key(name, field, verbs)
    yield from (_named(name, "") for name in _new_names(guide, typing.path[:-1], node) if name not in there)


def _words(node: Node | None) -> list[str]:
    if not isinstance(node, MappingNode):
        return []
    return [key.value for key, _ in node.value if isinstance(key, ScalarNode)]


def _without_cursor(node: Node | None) -> Node | None:
    """The mapping without the key that is being typed, which has no meaning yet."""
    from builder.editor.where import WORD

    if not isinstance(node, MappingNode):
        return node
    pairs = [pair for pair in node.value if WORD not in getattr(pair[0], "value", "")]
    return MappingNode(node.tag, pairs, node.start_mark, node.end_mark)


def _key(name: str, field: Field, verbs: Verbs) -> Item:
    verb = name in verbs
    about = f"{verbs[name][0].about} {field.about}" if verb else field.about
    kind = KEYWORD if verb or name in ("repeat", "stage", "use", "choose") else PROPERTY
    return Item(name, f"{name}: ", kind, type_words(field), f"{about}\n\nExample: `{field.example}`")


def _new_names(guide: Guide, path: Path, node: Node | None) -> Iterable[str]:
    """Keys that are names of this guide: options of a choice, parameters of a shared step."""
    choice = below(node, "choose")
    if isinstance(choice, ScalarNode) and choice.value in guide.choices:
        return guide.choices[choice.value].options
    return ()


# -- values -------------------------------------------------------------------------------------------


def _values(guide: Guide, typing: Typing) -> Iterator[Item]:
    holder, _ = holder_at(typing.root, typing.path, {**VERBS, **guide.own_verbs})
    keys = [step for step in typing.path if isinstance(step, str)]
    field = holder.field if holder is not None and holder.field is not None else _field_of(guide, typing)
    if field is None or not keys:
        return
    yield from _by_name(guide, keys, field)
    yield from _of_holds(guide, typing, field)


def _field_of(guide: Guide, typing: Typing) -> Field | None:
    path = typing.path
    while path and isinstance(path[-1], int):
        path = path[:-1]
    return field_at(typing.root, path, {**VERBS, **guide.own_verbs})


def _by_name(guide: Guide, keys: list[str], field: Field) -> Iterator[Item]:
    """Fields whose words are names that only this guide knows."""
    name = keys[-1]
    if name == "use":
        for text in guide.texts.values():
            yield from (
                _named(found, "shared step") for found in re.findall(r"(?m)^shared: *([a-z_0-9]+)", text)
            )
    elif name == "stands for":
        yield from (Item(word, word, KEYWORD, "verb", verb.about) for word, (verb, _) in VERBS.items())
    elif name == "choose":
        yield from (_named(each, "choice") for each in guide.choices)
    elif name == "cautions":
        yield from (_named(each, "caution", c.hazard) for each, c in guide.cautions.items())
    elif name == "check" and "accepted" in keys:
        yield from (Item(each.name, each.name, VALUE, each.severity.value, each.why) for each in CHECKS)
    elif name == "at" and "accepted" in keys:
        yield from (_named(step.id, "step") for step in guide.every_step())
        yield from (_of_thing(thing) for thing in guide.things.values())
    elif field.holds is Holds.TEXT and name in ("from", "towards", "sticks out", "comes off towards"):
        yield from (Item(end, end, CONSTANT, "end") for end in ENDS)


def _of_holds(guide: Guide, typing: Typing, field: Field) -> Iterator[Item]:
    holds = field.holds
    if field.words:
        yield from (Item(word, word, VALUE, field.name) for word in field.words)
    elif holds is Holds.YES:
        yield Item("yes", "yes", VALUE, field.name)
    elif holds in (Holds.THING, Holds.THINGS, Holds.AROUND):
        sorts = field.sort.split("|") if field.sort else []
        yield from (_of_thing(thing) for thing in guide.things.values() if not sorts or _is(thing, sorts))
    elif holds in (Holds.PLACE, Holds.PLACES):
        yield from _places(guide, _beside(guide, typing))
        yield from _numbers(guide)
    elif holds in (Holds.NUMBER, Holds.SIZE, Holds.SIZES):
        yield from _numbers(guide)
    elif holds is Holds.PROSE:
        yield from _references(guide, typing)


def _is(thing: Thing, sorts: list[str]) -> bool:
    return thing.sort in sorts or (thing.sort == "assembly" and "part" in sorts)


def _beside(guide: Guide, typing: Typing) -> list[Thing]:
    """The things that the same action names."""
    node: Node | None = typing.root
    found = []
    for step in typing.path[:-1]:
        node = below(node, step)
        if isinstance(node, MappingNode):
            found = [value.value for _, value in node.value if isinstance(value, ScalarNode)]
    things = (guide.thing(name.partition(".")[0]) for name in found)
    return [thing for thing in things if thing is not None and thing.sort in ("part", "tool", "assembly")]


def _places(guide: Guide, hosts: list[Thing]) -> Iterator[Item]:
    """Zones, marks and ends, in the words of the place grammar."""
    for host in hosts:
        thing = guide.thing(host.refs["base"].id) if "base" in host.refs else host
        for chain in thing.chains if thing is not None else ():
            for zone in chain.zones:
                detail = f"zone of {host.id}, {chain.side}"
                yield _named(zone.name, detail)
                yield _named(f"start of {zone.name}", detail)
                yield _named(f"end of {zone.name}", detail)
        for hole in host.holes:
            yield _named(hole.name, f"hole of {host.id}")
    yield from (_named(action.word("what"), "mark") for action in marks(guide))
    for end in ENDS:
        yield Item(f"flush with {end}", f"flush with {end}", CONSTANT, "end")
        yield Item(end, end, CONSTANT, "end")
    yield from (_named(f"meets {t.id}", t.name) for t in guide.things.values() if t.sort in ("part", "tool"))


def _numbers(guide: Guide) -> Iterator[Item]:
    """Dimensions, and every number of a thing that a sum may name."""
    for name, value in guide.dimensions.items():
        yield _named(name, value.text, value.why)
    for name, value in numbers_of(guide).items():
        if name.count(".") == 1 and name.partition(".")[0] in guide.things and not name.endswith(".count"):
            yield Item(name, name, VARIABLE, value.text or "worked out")


def _references(guide: Guide, typing: Typing) -> Iterator[Item]:
    """Inside single braces: the action's own fields, and things. What stands before the brace stays."""
    head, brace, _ = typing.typed.rpartition("{")
    if not brace or "}" in typing.typed[len(head) :]:
        return
    _, node = holder_at(typing.root, typing.path[:-1], {**VERBS, **guide.own_verbs})
    for name in [*_words(node), "place", *guide.things]:
        yield _named(f"{head}{{{name}", "reference")


def _of_thing(thing: Thing) -> Item:
    return Item(thing.id, thing.id, REFERENCE, thing.sort, thing.name)


def _named(name: str, detail: str, about: str = "") -> Item:
    return Item(name, name, REFERENCE, detail, about)
