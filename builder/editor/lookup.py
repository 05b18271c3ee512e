"""Names of a guide: where each is defined, and what it is in a few words."""

from __future__ import annotations

import re
from collections.abc import Iterator

from builder.dryrun.kinds import VERBS
from builder.editor.tables import below, field_at
from builder.editor.where import Under, scalars, under
from builder.findings import Place
from builder.guide.model import Action, Guide, Thing
from builder.guide.nodes import Node, place_of
from builder.guide.plain import strict

_SHARED = r"(?m)^shared: *[\"']?({name})\b"


def definition(guide: Guide, file: str, text: str, line: int, column: int, name: str) -> list[Place]:
    """Where a name that stands at a position of a file is defined; the most likely first."""
    spot = under(text, line, column)
    verbs = {**VERBS, **guide.own_verbs}
    if spot is not None and spot.is_key and field_at(spot.root, spot.path, verbs) is not None:
        return []  # a word of the format, defined nowhere in the guide
    beside = names_beside(spot)
    head, dot, tail = name.partition(".")
    found: list[Place] = []
    bound = list(_parameter(text, file, head))
    found += bound
    if dot and tail:
        thing = guide.thing(head)
        if thing is not None:
            found += part_of(thing, tail)
    if spot is not None and "use" in spot.path[-1:]:
        found += shared_step(guide, name)
    things = [thing for each in beside if (thing := guide.thing(each)) is not None]
    if head not in guide.things:
        for thing in things:  # a zone of what the same action names
            found += part_of(thing, head)
    found += defined(guide, head)
    if not found:
        for thing in guide.things.values():
            found += part_of(thing, head)
    return list(dict.fromkeys(found))


def defined(guide: Guide, name: str) -> Iterator[Place]:
    """Where an id of the guide itself is defined."""
    thing = guide.thing(name)
    if thing is not None:
        yield thing.at
    if name in guide.dimensions:
        yield guide.dimensions[name].at
    if name in guide.choices:
        yield guide.choices[name].at
    for step in guide.every_step():
        if step.id == name:
            yield step.at
    caution = guide.cautions.get(name)
    if caution is not None and caution.at is not None:
        yield _head_of(guide, name, caution.at)
    for action in marks(guide):
        if action.word("what") == name:
            yield action.field_place("what")
    for choice in guide.choices.values():
        if name in choice.options:
            yield choice.at


def _head_of(guide: Guide, name: str, at: Place) -> Place:
    """The key above a mapping that begins at a place; the place itself if it is not there."""
    lines = guide.texts.get(at.file, "").splitlines()[: at.line]
    for number in range(len(lines), max(len(lines) - 2, 0), -1):
        match = re.match(rf" *({re.escape(name)}) *:", lines[number - 1])
        if match is not None:
            return Place(at.file, number, match.start(1) + 1, len(name))
    return at


def marks(guide: Guide) -> Iterator[Action]:
    """The actions that draw a mark."""
    for step in guide.every_step():
        yield from (action for action in step.each_action() if action.verb.kind == "mark")


def part_of(thing: Thing, name: str) -> Iterator[Place]:
    """Where a zone, a hole or a field of a thing is written."""
    for chain in thing.chains:
        yield from (zone.at for zone in chain.zones if zone.name == name)
    yield from (hole.at for hole in thing.holes if hole.name == name)
    if name in thing.where:
        yield thing.where[name]
    elif name in thing.values:
        value = thing.values[name]
        yield value.at if value.text else thing.at


def shared_step(guide: Guide, name: str) -> Iterator[Place]:
    """The head of the file that a shared step stands in."""
    pattern = re.compile(_SHARED.replace("{name}", re.escape(name)))
    for file, text in guide.texts.items():
        match = pattern.search(text) if file != guide.file and file.endswith(".yml") else None
        if match is not None:
            line = text.count("\n", 0, match.start()) + 1
            yield Place(file, line, match.start(1) - match.start() + 1, len(name))


def _parameter(text: str, file: str, name: str) -> Iterator[Place]:
    """In a shared file a parameter is defined under `takes`."""
    if not re.search(r"(?m)^takes:", text):
        return
    for path, is_key, node in scalars(strict(text)):
        if is_key and path == ("takes", name):
            yield place_of(node, file)


def names_beside(spot: Under | None) -> list[str]:
    """The names that stand in the same action: what a place in it may belong to."""
    if spot is None:
        return []
    steps = list(spot.path)
    while steps and not (isinstance(steps[-1], int) and steps[-2:-1] == ["actions"]):
        steps.pop()
    node: Node | None = spot.root
    for step in steps:
        node = below(node, step)
    if not steps or node is None:
        return []
    found = []
    for _, is_key, each in scalars(node):
        if not is_key:
            found += re.findall(r"[a-z][a-z0-9_]*", each.value)
    return list(dict.fromkeys(found))
