"""Changes of what a guide is made of: materials, tools, parts."""

from __future__ import annotations

from msgspec.structs import replace

from builder.guide.model import Thing
from builder.quantities.show import show_time
from builder.revisions import safety
from builder.revisions.change import NOTHING, STRENGTHENED, WEAKENED, Change, Field, Kind, Rank, Spread, made
from builder.revisions.consequences import Consequences
from builder.revisions.desk import Desk, capital
from builder.revisions.edits import Put
from builder.revisions.grouping import Group
from builder.revisions.of_guide import of_number
from builder.revisions.texts import LINES
from builder.trade.gear import gear_kind

_LABEL_WAITS = ("set", "full cure", "dry", "tack")
_BOUGHT = ("amount", "count", "size.along", "size.across", "length", "width")
_SHARED = ("per", "made by", "source")


def of_thing(group: Group, desk: Desk, follow: Consequences) -> Change:
    """A material, a tool or a part: new, gone, or one of its facts changed."""
    id = group.key[1]
    before, after = desk.thing(id)
    thing = after or before
    assert thing is not None
    if len(group.key) == 2:
        return _whole(group, thing)
    name = group.key[2].replace("_", " ")
    if name == "identity":
        return _identity(group, desk, follow)
    if name == "shape":
        return _shape(group, desk, follow, thing)
    if name == "zone":
        return _zone(group, desk, follow, thing)
    put = group.puts[0]
    what = f"{capital(thing.name)}, {' '.join(put.path[2:]).replace('_', ' ').replace('.', ' ')}"
    about = f"thing {id}"
    if name == "recoat":
        return _window(group, desk, what, about)
    if name == "taper":
        what = f"{capital(thing.name)}, diameter of the {group.key[3].replace('_', ' ')}"
    if any(desk.values(put.path)):
        return _number(group, put, thing, what, about, desk, follow)
    old, new = put.before or NOTHING, put.after or NOTHING
    text = f"{what}: {new.replace('_', ' ')}, was {old.replace('_', ' ')}"
    if name == "who":
        mark = safety.of_who(put.before or "", put.after or "")
        return made(Kind.TOOL, Rank.WORDING, text, group.edits, about, mark=mark, before=old, after=new)
    if name in _SHARED:
        kind = Kind.STOCK if name == "per" else kind_of(thing)
        return made(kind, Rank.SHOPPING, text, group.edits, about, before=old, after=new)
    if name == "grain" and thing.sort == "material" and old == NOTHING:  # its parts say how they lie on it
        return made(Kind.STOCK, Rank.SHOPPING, text, group.edits, about, before=old, after=new)
    return made(kind_of(thing), Rank.FIT, text, group.edits, about, field=Field.SWAP, before=old, after=new)


def kind_of(thing: Thing) -> Kind:
    """What kind of change a change of this thing is."""
    if thing.sort == "tool":
        return Kind.TOOL
    if thing.sort == "part":
        return Kind.PART
    return Kind.ADHESIVE if thing.form in ("adhesive", "paint") else Kind.MATERIAL


def _whole(group: Group, thing: Thing) -> Change:
    new = group.how == "new"
    are = ("are" if thing.count > 1 else "is") + (" new" if new else " gone")
    count = f" ({thing.count})" if thing.count > 1 else ""
    mark = ""
    if thing.sort == "tool" and thing.form == "gear":
        mark = STRENGTHENED if new else WEAKENED
    part = thing.sort == "part"
    return made(
        kind_of(thing), Rank.FIT if part else Rank.SHOPPING, f"The {thing.sort} {thing.name}{count} {are}",
        group.edits, f"thing {group.key[1]}", mark=mark, field=Field.SWAP if part else Field.NOTHING,
        before=None if new else thing.name, after=thing.name if new else None,
    )  # fmt: skip


# -- another thing under the same id --------------------------------------------------------------


def _identity(group: Group, desk: Desk, follow: Consequences) -> Change:
    """Another name, or another thing under the same id."""
    id = group.key[1]
    before, after = desk.thing(id)
    assert before is not None and after is not None
    about = f"thing {id}"
    harm = desk.hazards(id)
    mark = _gear(before, after) or safety.of_hazards(*harm)
    kind = kind_of(after)
    names = {put.path[2] for put in group.puts}
    if names == {"hazards"}:  # the thing is the same: saying less of what it can do warns of less
        mark = {WEAKENED: STRENGTHENED, STRENGTHENED: WEAKENED}.get(mark, "")
        was, now = (", ".join(keys) or NOTHING for keys in harm)
        if was == now:
            text = f"{capital(after.name)}: what it can do to a person is written otherwise, and is the same"
            return made(kind, Rank.WORDING, text, group.edits, about, before=was, after=now)
        text = f"{capital(after.name)}, what it can do to a person: {now}, was {was}"
        return made(kind, Rank.WORDING, text, group.edits, about, mark=mark, before=was, after=now,
                    places=_cautions(desk, id))  # fmt: skip
    sticks = kind is Kind.ADHESIVE and bool(names & {"adhesive", "paint", "form"})
    if mark or sticks or "form" in names:
        text = f"{capital(after.name)} takes the place of the {before.name}"
        if before.name == after.name:
            text = f"{capital(after.name)} is of another kind: {_kinds(after)}, was {_kinds(before)}"
        rank = Rank.SAFETY if sticks else Rank.FIT if before.sort == "part" else Rank.SHOPPING
        return made(kind, rank, text, group.edits, about, mark=mark, field=Field.SWAP, before=before.name,
                    after=after.name, places=_cautions(desk, id) or follow.of_name(after.id))  # fmt: skip
    text = f"The {after.sort} {after.name} was called {before.name}"
    return made(Kind.WORDING, Rank.WORDING, text, group.edits, about, before=before.name, after=after.name,
                places=follow.of_name(after.id))  # fmt: skip


def _gear(before: Thing, after: Thing) -> str:
    """The mark for protective gear that is no longer, or now, what it was."""
    worn = [thing.form == "gear" and gear_kind(thing.name) for thing in (before, after)]
    if worn[0] == worn[1]:
        return ""
    return WEAKENED if worn[0] else STRENGTHENED


def _kinds(thing: Thing) -> str:
    return ", ".join(filter(None, (thing.words.get("adhesive"), thing.words.get("paint"), thing.form)))


def _cautions(desk: Desk, id: str) -> tuple[Spread, ...]:
    """The steps that name the thing and before which other cautions stand now."""
    name = desk.name("thing", id)
    found = []
    for step in desk.new.guide.every_step():
        named = {
            ref.id for action in step.each_action() for field in action.fields for ref in action.refs(field)
        }
        if name not in named:
            continue
        older = desk.back.get(("step", step.id), step.id)
        before = {caution.id: caution.level for caution in desk.old.cautions.get(older, ())}
        after = {caution.id: caution.level for caution in desk.new.cautions.get(step.id, ())}
        if before != after:
            told = ", ".join(f"{level.upper()} ({key})" for key, level in after.items()) or "no caution"
            stand = "stand" if len(after) > 1 else "stands"
            found.append(Spread(f"{desk.at(older)}: {told} {stand} before it", step.id))
    return tuple(found)


# -- numbers --------------------------------------------------------------------------------------


def _number(group: Group, put: Put, thing: Thing, what: str, about: str, desk: Desk,
            follow: Consequences) -> Change:  # fmt: skip
    field = put.path[2].replace("_", " ")
    material = thing.sort == "material"
    if material and field in _LABEL_WAITS:
        bases = [value.base if value is not None else None for value in desk.values(put.path)]
        mark = (
            safety.of_amount(*bases) if None not in bases else WEAKENED if bases[1] is None else STRENGTHENED
        )
        told = f"{what} (from its label)"
        change = of_number(put, told, Kind.WAIT, Rank.SAFETY, Field.NOTHING, about, group, desk, follow, mark)
        return _with_waits(change, desk, group.key[1], put.path[2])
    if material and field == "working time":
        told = f"{what} (from its label)"
        return of_number(put, told, Kind.ADHESIVE, Rank.TIMING, Field.NOTHING, about, group, desk, follow)
    if field in ("pack", "price") or (material and field in _BOUGHT):
        return of_number(put, what, Kind.STOCK, Rank.SHOPPING, Field.NOTHING, about, group, desk, follow)
    if thing.sort == "tool" and field == "count":
        return of_number(put, what, Kind.TOOL, Rank.SHOPPING, Field.NOTHING, about, group, desk, follow)
    kind = Kind.PART if field == "count" else Kind.DIMENSION
    return of_number(put, what, kind, Rank.FIT, Field.SWAP, about, group, desk, follow)


def _with_waits(change: Change, desk: Desk, id: str, field: str) -> Change:
    """The change with the waits that take their time from this label."""
    found: dict[str, Spread] = {}
    before, after = desk.waits
    name = desk.name("thing", id)
    for path, waiting in after.items():
        if (name, field) not in waiting.labels:
            continue
        step = desk.back.get(("step", waiting.step), waiting.step)
        earlier = before.get(path)
        was = f", was {show_time(earlier.seconds)}" if earlier is not None and earlier.step == step else ""
        text = f"{desk.at(step)}: wait until {waiting.until}, {show_time(waiting.seconds)}{was}"
        found.setdefault(waiting.step, Spread(text, waiting.step))
    rest = (place for place in change.places if place.step not in found)
    return replace(change, places=(*found.values(), *rest))


def _window(group: Group, desk: Desk, what: str, about: str) -> Change:
    """When the next coat may go on."""
    before, after = desk.thing(group.key[1])
    assert before is not None and after is not None
    mark = safety.of_window(before.window, after.window)
    if before.window is None or after.window is None:
        mark = WEAKENED if after.window is None else STRENGTHENED
    was, now = (_told_window(thing.window) for thing in (before, after))
    text = f"{what} (from its label): {now}, was {was}"
    return made(Kind.WAIT, Rank.SAFETY, text, group.edits, about, mark=mark, before=was, after=now)


def _told_window(window: object) -> str:
    parts = []
    for low, high in getattr(window, "allowed", ()):
        if not low:
            parts.append(f"up to {show_time(high)}")
        else:
            parts.append(
                f"from {show_time(low)}" if high is None else f"{show_time(low)} to {show_time(high)}"
            )
    return " or ".join(parts) or NOTHING


def _shape(group: Group, desk: Desk, follow: Consequences, thing: Thing) -> Change:
    """Another outline, or the same outline told by other measures."""
    was: list[str] = []
    now: list[str] = []
    places: dict[Spread, None] = {}
    for put in group.puts:
        for text, told in zip(desk.shown(put.path, put.before, put.after), (was, now), strict=True):
            told += _told_shape(put.path[2], text) if text != NOTHING else []
        places |= dict.fromkeys(follow.of_number(*desk.values(put.path)))
    before, after = (", ".join(told) or NOTHING for told in (was, now))
    text = f"{capital(thing.name)}, outline: {after}, was {before}"
    return made(Kind.DIMENSION, Rank.FIT, text, group.edits, f"thing {group.key[1]}", field=Field.SWAP,
                before=before, after=after, places=tuple(places))  # fmt: skip


def _told_shape(name: str, text: str) -> list[str]:
    """`sweep 1 in`, `rectangle`, `points (0 mm, 0 mm) (4 mm, 0 mm) (2 mm, 3 mm)`."""
    if name == "outline":
        return [text] if text != "points" else []
    if name == "points":
        text = " ".join(f"({point})" for point in text.split(LINES))
    return [f"{name.rpartition('.')[2].replace('_', ' ')} {text}"]


def _zone(group: Group, desk: Desk, follow: Consequences, thing: Thing) -> Change:
    """A zone of a chain: its length, its place."""
    chain, zone = group.key[3:5]
    about = f"thing {group.key[1]}"
    what = f"{capital(thing.name)}, {zone.replace('_', ' ')} ({chain})"
    if not group.puts:
        text = f"{what}: stands at another place of its chain"
        return made(Kind.DIMENSION, Rank.FIT, text, group.edits, about, field=Field.SWAP)
    put = group.puts[0]
    if put.before is not None and put.after is not None:
        return of_number(put, what, Kind.DIMENSION, Rank.FIT, Field.SWAP, about, group, desk, follow)
    before, after = desk.shown(put.path, put.before, put.after)
    verb = f"is new, {after}" if put.before is None else f"is gone; it was {before}"
    return made(
        Kind.DIMENSION,
        Rank.FIT,
        f"{what} {verb}",
        group.edits,
        about,
        field=Field.SWAP,
        before=before,
        after=after,
    )
