"""Changes of a guide's head: title, audience, units, pages, choices, shared numbers, the end product."""

from __future__ import annotations

from builder.checks.every import ALL as CHECKS
from builder.revisions import safety
from builder.revisions.change import NOTHING, STRENGTHENED, WEAKENED, Change, Field, Kind, Rank, made
from builder.revisions.consequences import Consequences
from builder.revisions.desk import Desk, capital
from builder.revisions.edits import Put, Rename
from builder.revisions.grouping import Group

_WORDS = {
    "title": "the title",
    "reading grade": "the reading grade",
    "first": "the unit that is shown first",
    "second": "the unit in brackets",
}
_PAGES = {"overview": "the overview", "science": "the science page"}
_MEASURES = {"finest": "the smallest step of the ruler", "cut tolerance": "the tolerance of a cut"}


def of_guide(group: Group, desk: Desk) -> Change:
    """Title, audience, units, pages, the end product."""
    put = group.puts[0]
    name = put.path[1]
    before, after = desk.shown(put.path, put.before, put.after)
    mark, kind, rank = "", Kind.WORDING, Rank.WORDING
    if name in _PAGES:
        verb = "is new" if put.before is None else "is gone" if put.after is None else "is reworded"
        return made(
            kind, rank, f"{capital(_PAGES[name])} {verb}", group.edits, "guide", before=before, after=after
        )
    if name == "ages":
        what, kind = "the ages", Kind.AUDIENCE
        mark = safety.of_amount(safety.youngest(put.before or ""), safety.youngest(put.after or ""))
    elif name in _WORDS:
        what = _WORDS[name]
        kind = Kind.AUDIENCE if name == "reading grade" else kind
    elif name in _MEASURES:
        what, kind, rank = _MEASURES[name], Kind.DIMENSION, Rank.FIT
        if name == "finest":
            before, after = _finest(desk, old=True), _finest(desk, old=False)
    else:
        what, kind, rank = f"the kit at the end ({name})", Kind.PART, Rank.FIT
    text = f"{capital(what)}: {after}, was {before}"
    return made(kind, rank, text, group.edits, "guide", mark=mark, before=before, after=after)


def _finest(desk: Desk, *, old: bool) -> str:
    units = (desk.old if old else desk.new).guide.units
    finest = getattr(units, "finest", None)
    return str(getattr(finest, "written", "") or getattr(finest, "base", ""))


def of_renamed_choice(group: Group) -> Change:
    """A choice or an option has another id, which addresses and printed codes name."""
    rename = next(edit for edit in group.edits if isinstance(edit, Rename) and edit.path == group.key)
    before, after = (id.replace("_", " ") for id in (rename.path[-1], rename.name))
    choice = rename.path[1].replace("_", " ")
    what = f'The choice "{before}"'
    if len(rename.path) > 2:
        what = f'The option "{before}" of the choice "{choice}"'
    text = f'{what} is now called "{after}" in commands and codes'
    return made(Kind.WORDING, Rank.WORDING, text, group.edits, f"choice {rename.path[1]}", before=before,
                after=after)  # fmt: skip


def of_choice(group: Group, desk: Desk) -> Change:
    """An option of a choice comes, goes or gets another name."""
    put = group.puts[0]
    name = desk.name("choice", put.path[1]).replace("_", " ")
    about = f"choice {put.path[1]}"
    before, after = put.before, put.after
    if before is None:
        text = f'The choice "{name}" can be made "{after}" too'
        return made(Kind.ROUTE, Rank.FIT, text, group.edits, about, before=before, after=after)
    if after is None:
        text = f'The choice "{name}" can no longer be made "{before}"'
        return made(
            Kind.ROUTE, Rank.FIT, text, group.edits, about, field=Field.STOP, before=before, after=after
        )
    text = f'The route "{after}" of the choice "{name}" was called "{before}"'
    return made(Kind.WORDING, Rank.WORDING, text, group.edits, about, before=before, after=after)


def of_term(group: Group) -> Change:
    """A word of the glossary."""
    word = group.key[1]
    what = f"is {group.how}" if group.how in ("new", "gone") else "is explained otherwise"
    put = group.puts[0]
    return made(Kind.WORDING, Rank.WORDING, f'The word "{word}" of the glossary {what}', group.edits,
                f"term {word}", before=put.before, after=put.after)  # fmt: skip


def of_accepted(group: Group) -> Change:
    """A finding that the guide lets stay. One that is of safety is a guard less."""
    name, _, spot = group.key[1].partition(" at ")
    guards = any(check.name == name and check.safety for check in CHECKS)
    put = group.put("why") or group.puts[0]
    about = f"finding {group.key[1]}"
    if group.how == "new":
        mark, text = WEAKENED, f'The finding "{name}" at {spot} may stay now, because "{put.after}"'
    elif group.how == "gone":
        mark, text = STRENGTHENED, f'The finding "{name}" at {spot} may no longer stay'
    else:
        mark, text = WEAKENED, f'The finding "{name}" at {spot} may stay for another reason: "{put.after}"'
    return made(Kind.FINDING, Rank.WORDING, text, group.edits, about, mark=mark if guards else "",
                before=put.before, after=put.after)  # fmt: skip


def of_dimension(group: Group, desk: Desk, follow: Consequences) -> Change:
    """A number that several things share."""
    id = group.key[1]
    name = f'The number "{desk.name("dimension", id).replace("_", " ")}"'
    about = f"dimension {id}"
    put = group.put("is")
    if put is None:
        put = group.puts[0]
        return made(Kind.WORDING, Rank.WORDING, f"{name}: its reason is reworded", group.edits, about,
                    before=put.before, after=put.after)  # fmt: skip
    before, after = desk.shown(put.path, put.before, put.after)
    if put.before is None or put.after is None:
        verb = f"is new: {after}" if put.before is None else f"is gone; it was {before}"
        return made(
            Kind.DIMENSION, Rank.WORDING, f"{name} {verb}", group.edits, about, before=before, after=after
        )
    return of_number(put, name, Kind.DIMENSION, Rank.FIT, Field.SWAP, about, group, desk, follow)


def of_number(put: Put, what: str, kind: Kind, rank: Rank, field: Field, about: str, group: Group, desk: Desk,
              follow: Consequences, mark: str = "") -> Change:  # fmt: skip
    """A changed number with all its places; one that is only typed in another way is wording."""
    old, new = desk.values(put.path)
    before, after = desk.shown(put.path, put.before, put.after)
    if old is not None and new is not None and old.base == new.base and old.plus_minus == new.plus_minus:
        text = f"{what}: written {put.after}, was {put.before}; it comes to the same"
        return made(kind, Rank.WORDING, text, group.edits, about, before=put.before, after=put.after)
    if before == after:  # they differ by less than is shown
        before, after = put.before or NOTHING, put.after or NOTHING
    step = desk.name("step", about.removeprefix("step ")) if about.startswith("step ") else ""
    places = tuple(place for place in follow.of_number(old, new) if not step or place.step != step)
    return made(kind, rank, f"{what}: {after}, was {before}", group.edits, about, mark=mark, field=field,
                before=before, after=after, places=places)  # fmt: skip
