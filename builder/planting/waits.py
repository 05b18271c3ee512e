"""Waits that are left out, too short, or for nothing."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from builder.dryrun.run import Frame
from builder.findings import Place as FilePlace
from builder.guide.model import Action
from builder.planting.ground import Ground, Spot
from builder.planting.kind import Kind, Plant
from builder.planting.sheet import Edit, MappingNode, ScalarNode, SequenceNode, value_of


def _needed_waits(ground: Ground) -> Iterator[tuple[Spot, str]]:
    """Waits that a later action rests on: a joint closed before it bears what it could not without it."""
    for wait in ground.of("wait"):
        if wait.step.shared:
            continue
        node = wait.value("until")
        if not isinstance(node, ScalarNode):
            continue
        for run, number, frame in ground.frames(wait):
            if _rests_on(run.frames, number, frame.seconds):
                yield wait, node.value
                break


def _things(wait: Spot) -> tuple[str, ...]:
    """What an edit of a wait lies in: its step, and what is waited for."""
    return (*wait.things, *(ref.id for ref in wait.action.refs("what")))


def _rests_on(frames: tuple[Frame, ...], number: int, seconds: Fraction, *, load: bool = False) -> bool:
    """Whether a joint that dries in this wait is worked on sooner than it may be, once the wait is gone.

    With `load`, only work for which the joint has to be cured.
    """
    frame = frames[number]
    for joint in frame.before.joints:
        if not joint.adhesive or joint.cured_at is None or joint.cured_at <= frame.before.clock:
            continue
        for later in frames[number + 1 :]:
            groups, cured = _strained(later)
            ripe = joint.cured_at if cured else joint.set_at
            early = ripe is not None and later.before.clock - seconds < ripe
            if early and (cured or not load) and any(joint.a in g and joint.b in g for g in groups):
                return True
    return False


def _strained(frame: Frame) -> tuple[list[set[str]], bool]:
    """The groups of items whose joints an action strains, and whether these have to be cured for it."""
    bench, action = frame.before, frame.action
    items = _items_named(frame, "what", "handles", "loads")
    below = {x for i in items for x in bench.below(i)}
    kind = action.verb.kind
    if kind == "paint":
        return [below], True
    if kind == "do" and action.refs("loads"):
        return [{x for i in items for x in bench.assembly(i)}], True
    if kind in ("sand", "drill", "screw", "tie"):
        hosts = {bench.seats[i].host for i in items if i in bench.seats}
        return [below | hosts | set(_items_named(frame, "into", "to"))], True
    if kind in ("seat", "attach"):
        base = frame.step.stage.base
        paths = [
            bench.path(host, base if base in bench.items else bench.root(host))
            for host in _items_named(frame, "into", "over", "onto")
        ]
        return [below, *(set(path) for path in paths if path)], False
    return [], False


def _items_named(frame: Frame, *fields: str) -> list[str]:
    named = {r.id for field in fields for r in frame.action.refs(field)}
    items = [i for i in frame.before.items if i.partition(" ")[0] in named]
    return [i for i in items if i.partition(" ")[2] in ("", str(frame.copy))] if frame.copy else items


def wait_gone(ground: Ground) -> Iterator[Plant]:
    """A wait is left out, and what it was for is worked on at once."""
    yield from _uses_gone(ground)
    for wait, _ in _needed_waits(ground):
        node = ground.step_node(wait.step)
        edits = wait.sheet.without_item(wait.items, wait.number)
        if not edits and node is not None:
            edits = step_taken_out(ground, wait)
        yield Plant(wait.name, _things(wait), edits)


def _waiting_uses(ground: Ground) -> Iterator[tuple[MappingNode, str, list[Action]]]:
    """Uses of shared steps that only wait: the entry, its prefix, its actions."""
    for node, _, _ in ground.entries("use"):
        prefix = value_of(node, "as")
        own = [s for s in ground.guide.every_step() if s.use_at is not None and _here(node, s.use_at)]
        actions = [a for s in own for a in s.each_action()]
        if isinstance(prefix, ScalarNode) and actions and all(a.verb.kind == "wait" for a in actions):
            yield node, prefix.value, actions


def _uses_gone(ground: Ground) -> Iterator[Plant]:
    """A shared step that only waits is left out."""
    for node, prefix, actions in _waiting_uses(ground):
        _, steps, index = next(e for e in ground.entries("use") if e[0] is node)
        needed = any(
            frame.action is actions[0] and _rests_on(run.frames, number, frame.seconds)
            for run in ground.runs
            for number, frame in enumerate(run.frames)
        )
        if needed:
            what = tuple(ref.id for ref in actions[0].refs("what"))
            yield Plant(f"use {prefix}", (f"use {prefix}", *what), ground.main.without_item(steps, index))


def _here(node: MappingNode, place: FilePlace) -> bool:
    mark = node.start_mark
    return bool(mark.line + 1 == place.line and mark.column + 1 == place.column)


def step_taken_out(ground: Ground, spot: Spot) -> tuple[Edit, ...]:
    for items in spot.sheet.nodes():
        if isinstance(items, SequenceNode):
            for index, entry in enumerate(items.value):
                if value_of(entry, "actions") is spot.items:
                    return spot.sheet.without_item(items, index)
    return ()


def wait_short(ground: Ground) -> Iterator[Plant]:
    """A wait ends when the glue is set, where it has to be cured."""
    for wait in ground.of("wait"):
        node = wait.value("until")
        if not isinstance(node, ScalarNode) or node.value != "cured" or wait.step.shared:
            continue
        if any(_too_soon_if_set(run.frames, number) for run, number, _ in ground.frames(wait)):
            yield Plant(wait.name, _things(wait), (wait.sheet.replace(node, "set"),))
    for node, prefix, actions in _waiting_uses(ground):
        number = next((i for i, f in enumerate(ground.runs[0].frames) if f.action is actions[0]), None)
        what = actions[0].ref("what")
        if number is not None and what is not None and _too_soon_if_set(ground.runs[0].frames, number):
            wait_for = f"{{wait for: {what.id}, until: set, if missed: No harm.}}"
            text = f"{{id: {prefix}_set, title: Let it set, actions: [{wait_for}]}}"
            things = (f"use {prefix}", what.id)
            yield Plant(f"use {prefix}", things, (ground.main.replace(node, text),))


def _too_soon_if_set(frames: tuple[Frame, ...], number: int) -> bool:
    """Whether something is loaded too soon if the wait lasts only until all is set."""
    frame = frames[number]
    set_at = [j.set_at for j in frame.before.joints if j.set_at is not None and j.adhesive]
    left = max((at - frame.before.clock for at in set_at), default=Fraction(0))
    return _rests_on(frames, number, frame.seconds - max(left, Fraction(0)), load=True)


def wait_minute(ground: Ground) -> Iterator[Plant]:
    """A wait is given a minute of the clock in place of the label's time."""
    for wait, _ in _needed_waits(ground):
        node = wait.value("until")
        key = next((k for k, v in wait.node.value if v is node), None)
        if isinstance(node, ScalarNode) and key is not None:
            edits = (wait.sheet.replace(key, "for"), wait.sheet.replace(node, "1 min"))
            yield Plant(wait.name, _things(wait), edits)


def wait_twice(ground: Ground) -> Iterator[Plant]:
    """A wait for what is dry already."""
    for wait in ground.of("wait"):
        if isinstance(wait.value("until"), ScalarNode):
            edits = wait.sheet.with_item(
                wait.items, wait.number + 1, wait.sheet.item(wait.items, wait.number)
            )
            yield Plant(wait.name, _things(wait), edits)


WAIT_CHECKS = ("joint-bears", "joint-set", "joint-steady", "coat-cured", "recoat")

KINDS = (
    Kind("wait left out", WAIT_CHECKS, wait_gone),
    Kind("cured wait cut to set", WAIT_CHECKS, wait_short),
    Kind("wait of a minute", WAIT_CHECKS, wait_minute),
    Kind("wait for what is dry", ("nothing-dries",), wait_twice, "warning"),
)
