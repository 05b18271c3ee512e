"""Two editions of a guide -> what changed, in plain sentences, the gravest first.

Nothing here reads a file. What is compared are the two models and their dry runs, so that a line that was
only moved or typed in another way is no change, and a number that shows at twenty places is one.
"""

from __future__ import annotations

from collections.abc import Iterable

from builder.revisions import of_actions, of_cautions, of_guide, of_steps, of_things
from builder.revisions.change import Change, Kind, Rank, Spread, in_order, made
from builder.revisions.consequences import Consequences
from builder.revisions.desk import Desk
from builder.revisions.edition import Edition
from builder.revisions.edits import Edit, Put, Rename, apply
from builder.revisions.facts import Facts, Path
from builder.revisions.grouping import Group, groups
from builder.revisions.match import matched


def compare(old: Edition, new: Edition) -> tuple[Change, ...]:
    """All changes from the older edition to the newer, by rank, the weakened first."""
    pairs = matched(old.facts, new.facts)
    desk = Desk(old, new, pairs)
    follow = Consequences(desk)
    found = [_change(group, desk, follow) for group in _with_words(_moved(groups(old.facts, pairs)))]
    return in_order((*found, *of_cautions.inherited(desk)))


def edits_of(changes: Iterable[Change]) -> list[Edit]:
    """All edits of all changes."""
    return [edit for change in changes for edit in change.edits]


def applied(changes: Iterable[Change], facts: Facts) -> Facts:
    """The facts after the changes. Errors: Mismatch."""
    return apply(edits_of(changes), facts)


def _change(group: Group, desk: Desk, follow: Consequences) -> Change:
    kind = group.key[0]
    if group.how == "renamed":
        return _renamed(group, desk, follow)
    if group.how == "moved":
        return of_steps.of_moved(group, desk)
    if group.how == "carried":
        return of_steps.of_carried(group, desk)
    if kind == "guide":
        return of_guide.of_guide(group, desk)
    if kind == "term":
        return of_guide.of_term(group)
    if kind == "accepted":
        return of_guide.of_accepted(group)
    if kind == "choice":
        return of_guide.of_choice(group, desk)
    if kind == "dimension":
        return of_guide.of_dimension(group, desk, follow)
    if kind == "thing":
        return of_things.of_thing(group, desk, follow)
    if kind == "caution":
        return of_cautions.of_caution(group, desk)
    if kind == "block":
        return of_steps.of_block(group, desk)
    if kind == "stages":
        return of_steps.of_stages(group, desk)
    if kind == "stage":
        return of_steps.of_stage(group, desk, follow)
    if len(group.key) == 2:
        return of_steps.of_step(group, desk)
    return _within_step(group, desk, follow)


def _within_step(group: Group, desk: Desk, follow: Consequences) -> Change:
    name = group.key[2]
    if name == "action":
        return of_actions.of_action(group, desk, follow)
    if name == "caution":
        return of_cautions.of_step_caution(group, desk)
    if name == "own caution":
        return of_cautions.of_own_caution(group, desk)
    if name == "without caution":
        return of_cautions.of_dropped(group, desk)
    if name == "repeat":
        return of_steps.of_repeat(group, desk)
    return of_steps.of_fact(group, desk, follow)


def _renamed(group: Group, desk: Desk, follow: Consequences) -> Change:
    """An id is another; the steps that name it are its places."""
    path = group.key
    if path[0] == "choice":
        return of_guide.of_renamed_choice(group)
    rename = next((edit for edit in group.edits if isinstance(edit, Rename)), None)
    name = rename.name if rename is not None else desk.pairs.tokens.get(path[-1], path[-1])
    kind = "zone" if len(path) > 2 else {"dimension": "number"}.get(path[0], path[0])
    within = f" of the {desk.called(path[1])}" if len(path) > 2 else ""
    text = f'The {kind} "{path[-1]}"{within} is now called "{name}"'
    places = {place.step: place for place in follow.of_name(name)}
    for put in group.puts:
        step = desk.name("step", put.path[1]) if put.path[0] == "step" else ""
        if step and step not in places:
            places[step] = Spread(f"{desk.at(put.path[1])} names it", step)
    return made(
        Kind.WORDING,
        Rank.WORDING,
        text,
        group.edits,
        f"{path[0]} {path[1]}",
        before=path[-1],
        after=name,
        places=tuple(places.values()),
    )


def _moved(found: list[Group]) -> list[Group]:
    """A caution that leaves one step and comes before another has moved: one group."""
    here = [group for group in found if group.key[0] == "step" and group.key[2:3] == ("caution",)]
    coming = {group.key: group for group in here if group.puts[0].before is None}
    moved: dict[Path, Group] = {}
    twins: set[Path] = set()
    for group in here:
        twin = next((k for k in coming if k[3] == group.key[3] and k not in twins), None)
        if group.puts[0].after is None and twin is not None:
            twins.add(twin)
            moved[group.key] = Group(group.key, group.how, (*group.edits, *coming[twin].edits))
    return [moved.get(group.key, group) for group in found if group.key not in twins]


def _with_words(found: list[Group]) -> list[Group]:
    """The words of a caution that begins or ceases to stand anywhere go with the first step that names it."""
    words = {group.key[1]: group for group in found if group.key[0] == "caution" and len(group.key) == 2
             and group.how in ("new", "gone")}  # fmt: skip
    joined: list[Group] = []
    taken: list[Group] = []
    for group in found:
        for put in group.puts:
            name = put.path[3] if _names_caution(put) else ""
            if name in words:
                taken.append(words.pop(name))
                group = Group(group.key, group.how, (*group.edits, *taken[-1].edits))
        joined.append(group)
    return [group for group in joined if not any(group is other for other in taken)]


def _names_caution(put: Put) -> bool:
    return put.path[0] == "step" and len(put.path) == 4 and put.path[2] == "caution"
