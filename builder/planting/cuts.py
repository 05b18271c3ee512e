"""Cuts and marks that come too late, twice or never."""

from __future__ import annotations

from collections.abc import Iterator

from builder.dryrun.needs import Marked
from builder.planting.ground import Ground, Spot
from builder.planting.kind import Kind, Plant
from builder.planting.sheet import Edit, SequenceNode, value_of


def cut_gone(ground: Ground) -> Iterator[Plant]:
    """A part is never cut out."""
    for cut in ground.of("cut"):
        refs = cut.action.refs("what")
        if (
            len(refs) == 1
            and not _prepared(ground, cut)
            and _used_later(ground, cut)
            and cut.action.sizes("leaves") is None
        ):
            yield Plant(cut.name, (*cut.things, refs[0].id), cut.sheet.without_item(cut.items, cut.number))


def _prepared(ground: Ground, cut: Spot) -> bool:
    """Whether it is the teacher's to make, so that its preparation is what is missed."""
    return any(ground.guide.things[r.id].words.get("made_by") for r in cut.action.refs("what"))


def _used_later(ground: Ground, cut: Spot) -> bool:
    made = {r.id for r in cut.action.refs("what")}
    frames = list(ground.frames(cut))
    return bool(frames) and all(
        any(r.id in made for later in run.frames[number + 1 :] for f in later.action.fields
            for r in later.action.refs(f))
        for run, number, _ in frames
    )  # fmt: skip


def cut_later(ground: Ground) -> Iterator[Plant]:
    """A part is cut out only after its first use."""
    for cut in ground.of("cut"):
        made = {r.id for r in cut.action.refs("what")}
        if len(made) != 1 or cut.action.sizes("leaves") is not None or _prepared(ground, cut):
            continue
        run, number, _ = next(ground.frames(cut), (None, 0, None))
        if run is None:
            continue
        for later in run.frames[number + 1 :]:
            if made & {r.id for f in later.action.fields for r in later.action.refs(f)}:
                target = ground.by_path.get(later.action.path)
                if target is None or target.sheet is not cut.sheet:
                    break
                items, index = (
                    (target.items, target.number + 1)
                    if target.repeat is None
                    else (_outer(ground, target.items), -1)
                )
                if items is None:
                    break
                place = index if index >= 0 else _outer_index(items, target.items) + 1
                edits = (
                    cut.sheet.moved(cut.items, cut.number, items, place)
                    if cut.items is not items
                    else _within(cut, items, place)
                )
                yield Plant(f"{cut.name}, after {target.name}", (*cut.things, *target.things, *made), edits)
                break


def _within(cut: Spot, items: SequenceNode, place: int) -> tuple[Edit, ...]:
    text = cut.sheet.item(items, cut.number)
    return (*cut.sheet.without_item(items, cut.number), *cut.sheet.with_item(items, place, text))


def _outer(ground: Ground, inner: SequenceNode) -> SequenceNode | None:
    """The list of actions that a repeat stands in."""
    for sheet in ground.sheets.values():
        for node in sheet.nodes():
            if isinstance(node, SequenceNode) and any(value_of(i, "actions") is inner for i in node.value):
                return node
    return None


def _outer_index(items: SequenceNode, inner: SequenceNode) -> int:
    return next(i for i, item in enumerate(items.value) if value_of(item, "actions") is inner)


def cut_twice(ground: Ground) -> Iterator[Plant]:
    """A part is cut out twice."""
    for cut in ground.of("cut"):
        if cut.action.sizes("leaves") is None and len(cut.action.refs("what")) == 1:
            edits = cut.sheet.with_item(cut.items, cut.number + 1, cut.sheet.item(cut.items, cut.number))
            yield Plant(cut.name, (*cut.things, *(r.id for r in cut.action.refs("what"))), edits)


def mark_gone(ground: Ground) -> Iterator[Plant]:
    """A mark is never drawn."""
    for mark in ground.of("mark"):
        if mark_used(ground, mark) is not None and not mark.step.shared:
            edits = mark.sheet.without_item(mark.items, mark.number)
            if edits:
                yield Plant(mark.name, (*mark.things, mark.action.word("what")), edits)


def mark_later(ground: Ground) -> Iterator[Plant]:
    """A mark is drawn only after it is used."""
    for mark in ground.of("mark"):
        user = mark_used(ground, mark)
        taken = mark.action.ref("from") is not None  # the guide that it is taken from may be off by then
        if user is None or user.sheet is not mark.sheet or mark.step.shared or user.repeat or taken:
            continue
        if user.items is mark.items:
            edits = _within(mark, mark.items, user.number + 1)
        else:
            edits = mark.sheet.moved(mark.items, mark.number, user.items, user.number + 1)
        things = (*mark.things, *user.things, mark.action.word("what"))
        yield Plant(f"{mark.name}, after {user.name}", things, edits)


def mark_used(ground: Ground, mark: Spot) -> Spot | None:
    """The first action that lines something up with a mark."""
    name = mark.action.word("what")
    for run in ground.runs:
        for frame in run.frames:
            if any(isinstance(need, Marked) and need.mark == name for need in frame.needs):
                return ground.by_path.get(frame.action.path)
    return None


KINDS = (
    Kind("part never cut", ("used-before-made",), cut_gone),
    Kind("part cut after its use", ("used-before-made",), cut_later),
    Kind("part cut twice", ("made-twice",), cut_twice),
    Kind("mark never drawn", ("mark-order", "unknown-place"), mark_gone),
    Kind("mark drawn after its use", ("mark-order",), mark_later),
)
