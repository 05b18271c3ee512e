"""Changes of single actions: what is done, with what, where, how long."""

from __future__ import annotations

from fractions import Fraction

from builder.guide.cautions import things_of
from builder.guide.model import Action, Prose
from builder.quantities.show import show_time
from builder.revisions import safety
from builder.revisions.change import NOTHING, STRENGTHENED, WEAKENED, Change, Field, Kind, Rank, made
from builder.revisions.consequences import Consequences
from builder.revisions.desk import Desk
from builder.revisions.edition import Edition
from builder.revisions.edits import Put
from builder.revisions.grouping import Group
from builder.revisions.of_guide import of_number
from builder.revisions.texts import LINES
from builder.revisions.waits import rest_less
from builder.trade.usual import verb_hazards

LOOKING = ("verify", "do", "wait")  # kinds of action that change nothing at the bench but the clock
_WORDS = ("say", "told above", "notes")


def of_action(group: Group, desk: Desk, follow: Consequences) -> Change:
    """An action is new, gone, or done otherwise."""
    id, key = group.key[1], group.key[3]
    at, about = desk.at(id), f"step {id}"
    if group.how in ("new", "gone"):
        return _whole(group, desk, at, about)
    old, new = (action_of(desk, id, key, new=side) for side in (False, True))
    assert old is not None and new is not None
    put = group.puts[0]
    field = put.path[4]
    verb = new.verb.word
    before, after = put.before or NOTHING, put.after or NOTHING
    if field in _WORDS or (field == "verb" and old.verb.root == new.verb.root):
        return _words(group, put, at, about, desk)
    if new.verb.kind == "wait" and field in ("for", "until"):
        return _wait(group, put, at, about, desk)
    if field == "hold":
        mark = safety.of_amount(*_bases(desk, put))
        return of_number(
            put,
            f"{at}: time to hold",
            Kind.WAIT,
            Rank.SAFETY,
            Field.NOTHING,
            about,
            group,
            desk,
            follow,
            mark,
        )
    if field == "takes":
        return of_number(
            put,
            f"{at}: time of one action",
            Kind.STEP,
            Rank.TIMING,
            Field.NOTHING,
            about,
            group,
            desk,
            follow,
        )
    if field == "gently":
        mark = WEAKENED if put.before is None else STRENGTHENED if put.after is None else ""
        text = f"{at}: joints that are said to bear it gently: {after}, was {before}"
        return made(Kind.ACTION, Rank.SAFETY, text, group.edits, about, mark=mark, before=before, after=after)
    if field == "leaves":
        text = f"{at}: what is left of the stock: {after}, was {before}"
        return made(Kind.STOCK, Rank.SHOPPING, text, group.edits, about, before=before, after=after)
    swap = Field.NOTHING if new.verb.kind in LOOKING else Field.SWAP
    if any(desk.values(put.path)):
        return of_number(
            put, f"{at}: {verb}, {field}", Kind.DIMENSION, Rank.FIT, swap, about, group, desk, follow
        )
    mark = safety.of_hazards(sorted(harm_of(old, desk.old)), sorted(harm_of(new, desk.new)))
    if field == "what" and new.verb.kind == "do":  # told by a sentence of the writer's, with names to fill in
        before, after = (sentence(desk, id, key, new=side) for side in (False, True))
        text = f'{at}: "{after}", was "{before}"'
        return made(Kind.ACTION, Rank.FIT, text, group.edits, about, mark=mark, before=before, after=after)
    sticks = _sticky(desk, put)
    kind = Kind.ADHESIVE if sticks else Kind.TOOL if field == "with" else Kind.ACTION
    before, after = (_names(desk, put, new=side) for side in (False, True))
    if any(isinstance(action.fields.get(field), Prose) for action in (old, new)):
        before, after = (text if text == NOTHING else f'"{text}"' for text in (before, after))
    what = (
        f"{verb}, {field}:"
        if field not in ("what", "verb")
        else verb
        if field == "what"
        else "the work is to"
    )
    return made(
        kind,
        Rank.SAFETY if sticks else Rank.FIT,
        f"{at}: {what} {after}, was {before}",
        group.edits,
        about,
        mark=mark,
        field=swap,
        before=before,
        after=after,
    )


def _whole(group: Group, desk: Desk, at: str, about: str) -> Change:
    """An action comes or goes."""
    id, key = group.key[1], group.key[3]
    come = group.how == "new"
    action = action_of(desk, id, key, new=come)
    assert action is not None
    words = sentence(desk, id, key, new=come)
    mark, rank, kind = "", Rank.FIT, Kind.ACTION
    if action.verb.kind == "wait":
        kind, rank = Kind.WAIT, Rank.TIMING
        waiting = desk.waits[1 if come else 0].get(action.path)
        if come:
            mark = STRENGTHENED
        elif waiting is None or rest_less(waiting, desk.routes, items(desk)):
            mark = WEAKENED
    elif come:
        before = desk.step(id)[0]
        known = {key for each in before.each_action() for key in harm_of(each, desk.old)} if before else set()
        mark = WEAKENED if safety.uncovered_by(sorted(known), sorted(harm_of(action, desk.new))) else ""
    field = Field.SWAP if come and action.verb.kind not in LOOKING else Field.NOTHING
    return made(kind, rank, f'{at}: "{words}" is {group.how}', group.edits, about, mark=mark, field=field,
                before=None if come else words, after=words if come else None)  # fmt: skip


def _words(group: Group, put: Put, at: str, about: str, desk: Desk) -> Change:
    """Another sentence for the same work, or another note."""
    if put.path[4] == "notes":
        return made(Kind.WORDING, Rank.WORDING, f"{at}: {notes(put)}", group.edits, about, before=put.before,
                    after=put.after)  # fmt: skip
    id, key = group.key[1], group.key[3]
    before, after = (sentence(desk, id, key, new=side) for side in (False, True))
    text = f'{at}: "{after}" was told "{before}"'
    return made(Kind.WORDING, Rank.WORDING, text, group.edits, about, before=before, after=after)


def _wait(group: Group, put: Put, at: str, about: str, desk: Desk) -> Change:
    """Another length of a wait."""
    if put.path[4] == "for":
        mark = safety.of_amount(*_bases(desk, put))
        before, after = desk.shown(put.path, put.before, put.after)
    else:
        mark = safety.of_until(put.before or "", put.after or "")
        before, after = (_until(desk, group.key[1], group.key[3], new=side) for side in (False, True))
    text = f"{at}: wait {after}, was {before}"
    return made(Kind.WAIT, Rank.SAFETY, text, group.edits, about, mark=mark, before=before, after=after)


def _until(desk: Desk, id: str, key: str, *, new: bool) -> str:
    action = action_of(desk, id, key, new=new)
    until = action.word("until") if action is not None else ""
    if action is None or not until:
        return "for nothing to set or dry"
    waiting = desk.waits[1 if new else 0].get(action.path)
    return f"until {until}" + (
        f" ({show_time(waiting.seconds)})" if waiting is not None and waiting.seconds else ""
    )


# -- looked up ------------------------------------------------------------------------------------


def action_of(desk: Desk, id: str, key: str, *, new: bool) -> Action | None:
    """An action by its older key, before or after."""
    facts = desk.pairs.new if new else desk.old.facts
    step = desk.step(id)[1 if new else 0]
    keys = facts.orders.get(("step", id, "actions"), ())
    return list(step.each_action())[keys.index(key)] if step is not None and key in keys else None


def sentence(desk: Desk, id: str, key: str, *, new: bool) -> str:
    """What a page prints for an action, before or after."""
    action = action_of(desk, id, key, new=new)
    return "" if action is None else (desk.new if new else desk.old).sentence(action)


def harm_of(action: Action, edition: Edition) -> set[str]:
    """The hazards that an action brings, by what it names and by its verb."""
    if action.verb.kind in ("wait", "verify", "remove"):
        return set()
    found = set(verb_hazards(action.verb.root))
    for thing in things_of(action, edition.guide):
        found |= set(edition.hazards.get(thing.id, ()))
    return found


def items(desk: Desk) -> dict[str, str]:
    """Older item -> newer item, for renamed parts and their copies."""
    found = {}
    for (kind, id), name in desk.forth.items():
        thing = desk.old.guide.things.get(id) if kind == "thing" else None
        if thing is not None:
            found[id] = name
            found |= {f"{id} {copy}": f"{name} {copy}" for copy in range(1, thing.count + 1)}
    return found


def _bases(desk: Desk, put: Put) -> tuple[Fraction, Fraction]:
    old, new = (value.base if value is not None else None for value in desk.values(put.path))
    return old or Fraction(0), new or Fraction(0)


def _sticky(desk: Desk, put: Put) -> bool:
    """Whether another adhesive or paint is taken."""

    def taken(text: str | None, edition: Edition) -> set[str]:
        things = (edition.guide.things.get(id) for id in (text or "").split(", "))
        return {each.name for each in things if each is not None and each.form in ("adhesive", "paint")}

    return put.path[4] == "with" and taken(put.before, desk.old) != taken(put.after, desk.new)


def _names(desk: Desk, put: Put, *, new: bool) -> str:
    """A list of ids as names; any other text as it is written."""
    text = put.after if new else put.before
    if text is None:
        return NOTHING
    things = (desk.new if new else desk.old).guide.things
    ids = text.split(", ")
    return ", ".join(things[id].name for id in ids) if all(id in things for id in ids) else text


def notes(put: Put) -> str:
    """What notes came and went."""
    before = (put.before or "").split(LINES) if put.before else []
    after = (put.after or "").split(LINES) if put.after else []
    new = [line.partition(": ") for line in after if line not in before]
    old = [line.partition(": ") for line in before if line not in after]
    if len(new) == len(old) == 1 and new[0][0] == old[0][0]:
        return f'its {new[0][0]} is "{new[0][2]}", was "{old[0][2]}"'
    come = [f'its {kind} "{text}" is new' for kind, _, text in new]
    gone = [f'its {kind} "{text}" is gone' for kind, _, text in old]
    return "; ".join((*come, *gone)) or "its notes are in another order"
