"""Changes of the cautions: their words, their signal, the steps before which they stand."""

from __future__ import annotations

from collections.abc import Iterator

from builder.guide.cautions import cautions_of, of_trade
from builder.guide.model import Caution, Thing
from builder.revisions import safety
from builder.revisions.change import NOTHING, STRENGTHENED, WEAKENED, Change, Kind, Rank, Spread, made
from builder.revisions.desk import Desk
from builder.revisions.edition import Edition
from builder.revisions.grouping import Group


def called(desk: Desk, id: str) -> str:
    """A caution by the sentence that tells its hazard, as whoever builds reads it; by its id if none does."""
    for edition in (desk.new, desk.old):
        caution = edition.guide.cautions.get(id)
        if caution is not None and caution.hazard:
            return f'"{caution.hazard}"'
    caution = of_trade(id)
    return f'"{caution.hazard}"' if caution is not None else f'"{id.replace("_", " ")}"'


def of_caution(group: Group, desk: Desk) -> Change:
    """The words of a caution of the guide's own."""
    id = group.key[1]
    about = f"caution {id}"
    what = f"The caution {called(desk, id)}"
    places = _stands(desk, desk.name("caution", id))
    if len(group.key) == 2:
        text = f"{what} is {group.how} in the guide's own words"
        return made(Kind.CAUTION, Rank.SAFETY, text, group.edits, about, places=places)
    return _words(group, what, about, places)


def _stands(desk: Desk, caution: str) -> tuple[Spread, ...]:
    """The steps before which a caution stands now."""
    return tuple(
        Spread(f"{desk.at(desk.back.get(('step', step), step))}: it stands before this", step)
        for step, row in desk.new.cautions.items()
        if any(each.id == caution for each in row)
    )


def _words(group: Group, what: str, about: str, places: tuple[Spread, ...]) -> Change:
    """A changed part of a caution."""
    put = next((p for p in group.puts if p.path[-1] in ("level", "gear")), group.puts[0])
    field = put.path[-1]
    before, after = put.before or NOTHING, put.after or NOTHING
    mark, rank = "", Rank.SAFETY
    if field == "level":
        mark = safety.of_level(before, after)
        text = f"{what}: {after.upper()}, was {before.upper()}"
    elif field == "gear":
        mark = safety.of_list(put.before or "", put.after or "")
        text = f"{what} asks for {after}, asked for {before}"
    elif field == "source":
        rank = Rank.WORDING
        text = f"{what}: its source is {after}, was {before}"
    else:
        words = [f'its {p.path[-1]} is "{p.after}", was "{p.before}"' for p in group.puts]
        text = f"{what} is reworded: {'; '.join(words)}"
    return made(
        Kind.CAUTION, rank, text, group.edits, about, mark=mark, before=before, after=after, places=places
    )


def of_step_caution(group: Group, desk: Desk) -> Change:
    """A caution that the guide names before a step comes or goes; one that stands elsewhere now has moved."""
    id, caution = group.key[1], group.key[3]
    put = group.puts[0]
    about = f"step {id}"
    name = f"the caution {called(desk, caution)}"
    twins = [each.path[1] for each in group.puts if each.path[0] == "step" and each.path[1] != id]
    if twins:
        order = {step: number for number, step in enumerate(desk.new.steps)}
        later = order.get(desk.name("step", twins[0]), 0) > order.get(desk.name("step", id), 0)
        how = (
            "after the work that it warns of" if later else "no longer right before the work that it warns of"
        )
        text = f"{desk.at(id)}: {name} now stands before {desk.at(twins[0])}, {how}"
        return made(Kind.CAUTION, Rank.SAFETY, text, group.edits, about, mark=WEAKENED)
    new = put.after is not None
    text = f"{desk.at(id)}: {name} {'now stands' if new else 'no longer stands'} before it"
    return made(Kind.CAUTION, Rank.SAFETY, text, group.edits, about, mark=STRENGTHENED if new else WEAKENED)


def of_own_caution(group: Group, desk: Desk) -> Change:
    """A caution that is written whole in one step."""
    about = f"step {group.key[1]}"
    at = desk.at(group.key[1])
    if group.how in ("new", "gone"):
        put = group.put("hazard")
        words = f' ("{put.after or put.before}")' if put is not None else ""
        mark = STRENGTHENED if group.how == "new" else WEAKENED
        text = f"{at}: a caution of its own{words} is {group.how}"
        return made(Kind.CAUTION, Rank.SAFETY, text, group.edits, about, mark=mark)
    return _words(group, f"{at}: its own caution", about, ())


def of_dropped(group: Group, desk: Desk) -> Change:
    """A computed caution that a writer leaves out of a step, with a reason."""
    put = group.puts[0]
    about = f"step {group.key[1]}"
    head = f"{desk.at(group.key[1])}: the caution {called(desk, put.path[3])}"
    mark = WEAKENED if put.before is None else STRENGTHENED if put.after is None else ""
    text = f'{head} is left out, because "{put.after}"'
    if put.after is None:
        text = f"{head} stands before it again"
    elif put.before is not None:
        text += f', was because "{put.before}"'
    return made(
        Kind.CAUTION, Rank.SAFETY, text, group.edits, about, mark=mark, before=put.before, after=put.after
    )


# -- what the trade's own tables changed -----------------------------------------------------------


def inherited(desk: Desk) -> Iterator[Change]:
    """Cautions that no guide writes and that are told otherwise, since the tool's own words are others now;
    and what the tool now says that a thing can do, or no longer says."""
    before, after = (_of_trade(edition) for edition in (desk.old, desk.new))
    for id, caution in after.items():
        earlier = before.get(id)
        if earlier is None or _content(earlier) == _content(caution):
            continue
        mark = safety.of_level(earlier.level, caution.level)
        mark = mark or safety.of_list(", ".join(earlier.gear), ", ".join(caution.gear))
        was, now = (
            f"{c.level.upper()}: {c.hazard} {c.consequence} {c.avoidance}" for c in (earlier, caution)
        )
        text = f'The caution "{id.replace("_", " ")}", which comes from the tool: "{now}", was "{was}"'
        yield made(Kind.CAUTION, Rank.SAFETY, text, (), f"caution {id}", mark=mark, before=was, after=now,
                   places=_stands(desk, id))  # fmt: skip
    for id, thing in desk.old.guide.things.items():
        other = desk.thing(id)[1]
        harm = desk.hazards(id)
        if other is None or set(harm[0]) == set(harm[1]) or _written(thing) != _written(other):
            continue
        mark = {WEAKENED: STRENGTHENED, STRENGTHENED: WEAKENED}.get(safety.of_hazards(*harm), "")
        was, now = (", ".join(keys) or NOTHING for keys in harm)
        text = f"The {thing.name}, what the tool says it can do to a person: {now}, was {was}"
        yield made(Kind.CAUTION, Rank.SAFETY, text, (), f"thing {id}", mark=mark, before=was, after=now)
    yield from _found_in_steps(desk)


def _found_in_steps(desk: Desk) -> Iterator[Change]:
    """Cautions that the tool now finds in what a step has bidden all along, and did not at its sealing."""
    harm = [desk.hazards(id) for id in desk.old.guide.things]
    told = {key for before, after in harm for key in {*before} ^ {*after}}
    for id, step in desk.old.steps.items():
        stood = {caution.id for caution in desk.old.cautions.get(id, ())}
        today = {caution.id for caution in cautions_of(step, desk.old.guide)} - stood - told
        for caution in desk.new.cautions.get(desk.name("step", id), ()) if today else ():
            if caution.id in today:
                name = called(desk, caution.id)
                text = f"{desk.at(id)}: the caution {name}, which the tool now finds in it, stands before it"
                yield made(Kind.CAUTION, Rank.SAFETY, text, (), f"step {id}", mark=STRENGTHENED)


def _written(thing: Thing) -> tuple[object, ...]:
    """What a guide says of a thing that its hazards follow from."""
    return (thing.name, thing.form, thing.hazards, thing.words.get("adhesive"), thing.words.get("paint"))


def _of_trade(edition: Edition) -> dict[str, Caution]:
    own = edition.guide.cautions
    return {c.id: c for row in edition.cautions.values() for c in row if c.at is None and c.id not in own}


def _content(caution: Caution) -> tuple[object, ...]:
    return (caution.level, caution.hazard, caution.consequence, caution.avoidance, caution.gear)
