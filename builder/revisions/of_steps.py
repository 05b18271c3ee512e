"""Changes of the order of the work and of what stands around its actions: steps, stages, choices, notes."""

from __future__ import annotations

from collections.abc import Sequence

from builder.guide.model import Step
from builder.quantities.show import show_time
from builder.revisions import safety
from builder.revisions.change import NOTHING, STRENGTHENED, WEAKENED, Change, Field, Kind, Rank, Spread, made
from builder.revisions.consequences import Consequences
from builder.revisions.desk import Desk
from builder.revisions.edits import Insert, Take
from builder.revisions.facts import Path
from builder.revisions.grouping import Group
from builder.revisions.of_actions import LOOKING, harm_of, items, notes, sentence
from builder.revisions.of_guide import of_number
from builder.revisions.waits import Waiting, rest_less

# -- whole steps ----------------------------------------------------------------------------------


def of_step(group: Group, desk: Desk) -> Change:
    """A step is new or gone."""
    id = group.key[1]
    before, after = desk.step(id)
    new = group.how == "new"
    step = after if new else before
    assert step is not None
    text = f"{desk.at(id)}: is {group.how}"
    mark, more = _come(step, desk) if new else _gone(step, desk)
    others = dict.fromkeys(put.path[1] for put in group.puts if put.path[0] == "step" and put.path[1] != id)
    if others:
        where = " and ".join(desk.at(other) for other in others)
        more += f"; {'some of its actions were in' if new else 'some of its actions are now in'} {where}"
    works = any(action.verb.kind not in LOOKING for action in step.each_action())
    return made(
        Kind.STEP, Rank.FIT, text + more, group.edits, f"step {id}", mark=mark,
        field=Field.SWAP if works and new else Field.NOTHING,
        before=None if new else desk.old.title(step.id), after=desk.new.title(step.id) if new else None,
    )  # fmt: skip


def _come(step: Step, desk: Desk) -> tuple[str, str]:
    """The mark of a new step, and what is said of it."""
    known = [caution.id for row in desk.old.cautions.values() for caution in row]
    own = {key for action in step.each_action() for key in harm_of(action, desk.new)}
    harm = safety.uncovered_by(known, sorted(own))
    if harm:
        return WEAKENED, f"; it can do what no step could before: {', '.join(harm)}"
    waits = _waits_of(step, desk, new=True)
    return (STRENGTHENED, f"; its wait is {_longest(waits)}") if waits else ("", "")


def _gone(step: Step, desk: Desk) -> tuple[str, str]:
    """The mark of a step that is gone, and what is said of it."""
    left = {desk.back.get(("caution", c.id), c.id) for row in desk.new.cautions.values() for c in row}
    lost = [caution.id.replace("_", " ") for caution in step.cautions if caution.id not in left]
    waits = _waits_of(step, desk, new=False)
    weaker = any(rest_less(wait, desk.routes, items(desk)) for wait in waits)
    told = f"; its wait was {_longest(waits)}" if weaker else ""
    told += f"; its caution ({', '.join(lost)}) stands nowhere now" if lost else ""
    return (WEAKENED if weaker or lost else ""), told


def _waits_of(step: Step, desk: Desk, *, new: bool) -> list[Waiting]:
    return [wait for wait in desk.waits[1 if new else 0].values() if wait.step == step.id]


def _longest(waits: Sequence[Waiting]) -> str:
    return show_time(max(wait.seconds for wait in waits))


# -- order ----------------------------------------------------------------------------------------


def of_moved(group: Group, desk: Desk) -> Change:
    """A step, or an action within its step, stands elsewhere."""
    id = group.key[1]
    about = f"step {id}"
    if len(group.key) > 2:
        place = next((edit.index + 1 for edit in group.edits if isinstance(edit, Insert)), 0)
        text = (
            f'{desk.at(id)}: "{sentence(desk, id, group.key[3], new=True)}" is now action {place} of the step'
        )
        return made(Kind.ORDER, Rank.TIMING, text, group.edits, about)
    before, after = desk.step(id)
    assert before is not None and after is not None
    was, now = desk.old.numbers.get(before.id, "?"), desk.new.numbers.get(after.id, "?")
    text = f"{desk.at(id)}: moved, was step {was}"
    way = {type(edit): edit.path for edit in group.edits if isinstance(edit, Take | Insert)}
    if len(set(way.values())) == 2:
        text = f"{desk.at(id)}: moved to {_list(way[Insert], desk, new=True)}, was step {was} of "
        text += _list(way[Take], desk, new=False)
    waits = [wait for wait in _waits_of(before, desk, new=False) if not wait.stated]
    weaker = any(rest_less(wait, desk.routes, items(desk)) for wait in waits)
    return made(
        Kind.ORDER,
        Rank.TIMING,
        text,
        group.edits,
        about,
        mark=WEAKENED if weaker else "",
        before=was,
        after=now,
    )


def _list(path: Path, desk: Desk, *, new: bool) -> str:
    """The list of steps that a path stands for: all routes, or one."""
    if len(path) < 3:
        return "all routes"
    id, option = path[1].split(" ")[1], path[2]
    side = desk.old
    if new:
        id, option, side = desk.name("choice", id), desk.option(id, option), desk.new
    choice = side.guide.choices.get(id)
    return f'the route "{choice.options.get(option, option) if choice is not None else option}"'


def of_carried(group: Group, desk: Desk) -> Change:
    """Actions that went from one step to another."""
    _, here, there = group.key
    count = sum(1 for put in group.puts if put.path[-1] == "verb" and put.after is not None)
    were = "1 action was" if count == 1 else f"{count} actions were"
    text = f"{desk.at(there)}: {were} in {desk.at(here)} before"
    return made(Kind.ORDER, Rank.TIMING, text, group.edits, f"step {there}")


def of_block(group: Group, desk: Desk) -> Change:
    """The place at which routes part."""
    choice = desk.name("choice", group.key[1].split(" ")[1])
    come = any(isinstance(edit, Insert) for edit in group.edits)
    left = any(isinstance(edit, Take) for edit in group.edits)
    how = "at another place" if come and left else "at one place more" if come else "at one place less"
    text = f'The routes of the choice "{choice.replace("_", " ")}" part {how}'
    return made(Kind.ROUTE, Rank.FIT, text, group.edits, f"choice {choice}")


# -- stages ---------------------------------------------------------------------------------------


def of_stages(group: Group, desk: Desk) -> Change:
    """Steps that belong to another stage."""
    _, before, after = group.key
    was = desk.old.facts.leaves.get(("stage", before, "name"), before)
    now = desk.pairs.new.leaves.get(("stage", after, "name"), after)
    moved = [put.path[1] for put in group.puts if put.path[0] == "step"]
    steps = tuple(Spread(desk.at(step), desk.name("step", step)) for step in moved)
    who = f"{len(steps)} steps belong" if len(steps) > 1 else f"{steps[0].text}: belongs"
    text = f'{who} to the stage "{now}", was "{was}"'
    return made(Kind.WORDING, Rank.WORDING, text, group.edits, f"step {moved[0]}", before=was,
                after=now, places=steps if len(steps) > 1 else ())  # fmt: skip


def of_stage(group: Group, desk: Desk, follow: Consequences) -> Change:
    """A stage: new, gone, renamed, built on another part, prepared or not."""
    key = group.key[1]
    about = f"stage {key}"
    here = ("stage", key, "name")
    name = desk.pairs.new.leaves.get(here) or desk.old.facts.leaves.get(here, key)
    if len(group.key) == 2:
        return made(Kind.WORDING, Rank.WORDING, f'The stage "{name}" is {group.how}', group.edits, about)
    put = group.puts[0]
    field, before, after = put.path[2], put.before or NOTHING, put.after or NOTHING
    if field == "name":
        text = f'The stage "{after}" was called "{before}"'
        return made(Kind.WORDING, Rank.WORDING, text, group.edits, about, before=before, after=after)
    if field == "time":
        what = f'The stage "{name}", time of work'
        return of_number(put, what, Kind.STEP, Rank.TIMING, Field.NOTHING, about, group, desk, follow)
    if field == "per":
        prepared = put.after == "class"
        text = f'The stage "{name}" is {"prepared for the class" if prepared else "done by each builder"}'
        return made(Kind.ACTION, Rank.SAFETY, text, group.edits, about, before=before, after=after,
                    mark=STRENGTHENED if prepared else WEAKENED)  # fmt: skip
    text = f'The stage "{name}", {field}: {after}, was {before}'
    return made(Kind.ACTION, Rank.FIT, text, group.edits, about, before=before, after=after)


# -- facts of a step ------------------------------------------------------------------------------


def of_fact(group: Group, desk: Desk, follow: Consequences) -> Change:
    """Title, time, helper, notes, picture of a step."""
    id, name = group.key[1:3]
    at = desk.at(id)
    about = f"step {id}"
    put = group.puts[0]
    before, after = desk.shown(put.path, put.before, put.after)
    mark, kind, rank = "", Kind.WORDING, Rank.WORDING
    if name in ("time", "set up"):
        what = f"{at}: time of work" + (" to set up" if name == "set up" else "")
        return of_number(put, what, Kind.STEP, Rank.TIMING, Field.NOTHING, about, group, desk, follow)
    if name == "who":
        kind, mark = Kind.STEP, safety.of_who(put.before or "", put.after or "")
        text = f"{at}: {put.after or 'no helper'}, was {put.before or 'no helper'}"
    elif name == "optional":
        kind, rank = Kind.STEP, Rank.FIT
        text = f"{at}: {'may now' if put.after else 'may no longer'} be left out"
    elif name == "critical":
        kind, rank = Kind.STEP, Rank.FIT
        what = "has to be verified now" if put.after else "no longer has to be verified"
        text = f"{at}: what it places {what}"
    elif name == "title":
        text = f'{at}: was called "{desk.old.title(id)}"'
    elif name == "notes":
        text = f"{at}: {notes(put)}"
    elif name == "picture":
        text = f"{at}: another picture, or other words for it"
    else:
        word = "reason" if name == "why" else name
        text = f'{at}: its {word} is "{after}", was "{before}"'
        if put.before is None or put.after is None:
            text = f'{at}: its {word} "{put.after or put.before}" is {"new" if put.after else "gone"}'
    return made(kind, rank, text, group.edits, about, mark=mark, before=before, after=after)


def of_repeat(group: Group, desk: Desk) -> Change:
    """Actions that are done once for each copy of a part."""
    id = group.key[1]
    at, about = desk.at(id), f"step {id}"
    put = group.put("of")
    if group.how == "new" and put is not None:
        text = f"{at}: actions are now done once for each {desk.called(put.after or '')}"
    elif group.how == "gone" and put is not None:
        text = f"{at}: actions are no longer done for each {desk.called(put.before or '')} in turn"
    else:
        put = group.puts[0]
        if put.path[-1] == "notes":
            return made(
                Kind.WORDING,
                Rank.WORDING,
                f"{at}: {notes(put)}",
                group.edits,
                about,
                before=put.before,
                after=put.after,
            )
        what = "which actions are repeated has changed"
        if put.path[-1] != "in":
            what = f"the repeat, {put.path[-1]}: {put.after or NOTHING}, was {put.before or NOTHING}"
        text = f"{at}: {what}"
    return made(Kind.ACTION, Rank.FIT, text, group.edits, about, field=Field.SWAP)
