"""A part does not end up in the kit.

What: At the end every part that was made is on the finished kit, used up by it, or left over on purpose.

Why: A part lies on the table when the work is done, and the builder wonders what was missed.

Bad:
    - {cut: ring, from: board, with: scissors}   # and never placed

Good:
    - {slide: ring, over: tube, from: rear, to: seat, fit: tight}
"""

from __future__ import annotations

from collections.abc import Collection, Iterator

from msgspec.structs import replace

from builder.checks.base import Check, Look
from builder.dryrun.bench import Bench, Item, Seat
from builder.dryrun.run import DryRun, Frame
from builder.dryrun.work import thing_id
from builder.findings import Finding, Severity
from builder.guide.model import Guide, Ref


def find(look: Look) -> Iterator[Finding]:
    """At the end every part that was made is on the finished kit, used up by it, or left over on purpose."""
    guide = look.guide
    run = look.run
    assert run is not None
    bench = run.end
    if guide.finished is None:
        if guide.entries:
            yield UNSAID.finding(
                guide.at, "the guide does not say what the finished kit is", suspects={NOT_SAID}
            )
        yield from _of_the_largest(look)
        return
    left = {ref.id for ref in guide.finished.left_over}
    linked = connected(bench, guide.carrier(guide.finished.what.id))
    kept = linked | _put_away(run)
    astray = [item.key for item in bench.items.values() if item.key not in kept and _counts(item, look, left)]
    told: set[str] = set()
    for key in astray:
        if key in told:
            continue
        together = connected(bench, key)  # what hangs together is one thing that was forgotten
        members = [each for each in astray if each in together]
        told.update(members)
        root = bench.root(key)
        yield _astray(look, root if root in members else members[0], members)
    yield from _as_listed(look, kept, {_id(key, guide) for key in astray})
    yield from _tools_on(look, linked, "the finished kit")
    yield from _tools_on(look, {*astray})


def _tools_on(look: Look, kit: Collection[str], called: str = "") -> Iterator[Finding]:
    """The tools that are still on what is built, or on a part that was to go on it."""
    run, guide = look.run, look.guide
    assert run is not None
    removed = {ref.id for frame in run.frames for ref in frame.action.refs("what") if _removes(frame)}
    for seat in run.end.seats.values():
        tool = _id(seat.child, guide)
        if guide.things[tool].sort != "tool" or seat.host not in kit or _only_supposed(seat):
            continue
        check = TOOL_LEFT if tool in removed else NEVER_REMOVED
        yield check.finding(
            seat.cause.at,
            f"the {look.name(seat.child)} is still on {called or 'the ' + look.name(seat.host)}",
            rests_on={f"placed:{seat.child}", f"there:{seat.child}"},
            suspects={f"seat:{seat.child}"},
        )


def _of_the_largest(look: Look) -> Iterator[Finding]:
    """Where nobody says what the finished kit is, it is probably the most that hangs together at the end:
    tools are taken off it all the same, and what is not on it is told with the missing word."""
    run, guide = look.run, look.guide
    assert run is not None
    bench = run.end
    parts = [key for key, item in bench.items.items() if guide.things[item.thing].sort == "part"]
    whole: list[str] = []
    seen: set[str] = set()
    for key in parts:
        if key not in seen:
            together = connected(bench, key)
            seen |= together
            members = [each for each in parts if each in together]
            whole = members if len(members) > len(whole) else whole
    if len(whole) < 2:
        return
    yield from _tools_on(look, whole, "what is built")
    if any(each.check == UNSAID.name for each in guide.accepted):
        return  # with a reason, nobody has to say what is left over
    kept = {*whole, *_put_away(run)}
    for key in parts:
        item = bench.items[key]
        if key not in kept and not item.cause.supposed and not guide.things[item.thing].blank_of:
            told = CHECK.finding(
                item.cause.at if item.cause.action else guide.things[item.thing].at,
                f"the {look.name(key)} is not on what is built; whether it is left over is not said",
                rests_on={
                    NOT_SAID,
                    *(f"{fact}:{key}" for fact in ("placed", "held", "made", "there", "seat")),
                },
            )
            yield replace(told, severity=Severity.WARNING)


NOT_SAID = "finished-kit"  # the fact that nobody says which it is


def _as_listed(look: Look, kept: set[str], astray: set[str]) -> Iterator[Finding]:
    """Where `holds` is a list: what it names is on the kit, and it names every part that is."""
    finished = look.guide.finished
    assert finished is not None and look.run is not None
    if not finished.holds:
        return
    carrier, items = look.guide.carrier, look.run.end.items
    named = {carrier(ref.id): ref for ref in finished.holds}
    kit = f"finished {finished.what.id.replace('_', ' ')}"
    on_it = {items[key].thing for key in kept if key in items}
    for id, ref in named.items():
        thing = look.guide.things.get(id)
        if thing is not None and thing.sort == "part" and id not in on_it and id not in astray:
            facts = {f"{fact}:{id}" for fact in ("item", "made", "placed", "held", "there", "seat", "unused")}
            yield CHECK.finding(
                ref.at, f"the {kit} is said to hold the {thing.name}, which is not on it", rests_on=facts
            )
    whole = {*named, carrier(finished.what.id), *(ref.id for ref in finished.left_over)}
    for id in sorted(on_it - whole):
        thing = look.guide.things[id]
        copies = [key for key in kept if key in items and items[key].thing == id]
        if thing.sort == "part" and not thing.blank_of and not all(items[k].cause.supposed for k in copies):
            yield UNLISTED.finding(
                finished.at,
                f"the {kit} holds the {thing.name} too, which `holds` does not name",
                rests_on={f"{fact}:{key}" for key in (id, *copies) for fact in ("placed", "seat", "item")},
            )


def _only_supposed(seat: Seat) -> bool:
    """Whether a tool was only supposed to be where it is needed; that it was not put there is told."""
    return seat.fit == "loose" and seat.cause.supposed


def _removes(frame: Frame) -> bool:
    return frame.action.verb.kind == "remove"


def _counts(item: Item, look: Look, left: set[str]) -> bool:
    """Whether an item has to end up on the finished kit."""
    thing, finished = look.guide.things[item.thing], look.guide.finished
    assert finished is not None
    if thing.sort != "part" or thing.blank_of or item.thing in left or item.cause.supposed:
        return False
    return thing.id != look.guide.carrier(finished.what.id)


def _astray(look: Look, key: str, members: list[str]) -> Finding:
    run, finished = look.run, look.guide.finished
    assert run is not None and finished is not None
    item = run.end.items[key]
    thing = look.guide.things[item.thing]
    more = [each for each in members if each != key]
    also = ", nor what sits on it" if more else ""
    return CHECK.finding(
        item.cause.at if item.cause.action else thing.at,
        f"the {look.name(key)} is not on the finished {finished.what.id.replace('_', ' ')}{also}",
        rests_on={
            f"{fact}:{each}" for each in members for fact in ("placed", "held", "made", "there", "seat")
        }
        | {f"{fact}:{thing_id(each, look.guide)}" for each in members for fact in ("item", "unused", "kit")}
        | {f"number:{of}.count" for of in _uncounted(run, thing.id, look.guide)},
        suspects={f"left:{each}" for each in members},
    )


def _uncounted(run: DryRun, thing: str, guide: Guide) -> set[str]:
    """What a thing is done something with once for each of, where nobody knows how many there are."""
    found = set()
    for frame in run.frames:
        of = guide.things.get(frame.repeat.of.id) if frame.repeat is not None else None
        if (
            of is not None
            and not of.counted
            and any(ref.id == thing for field in frame.action.fields for ref in frame.action.refs(field))
        ):
            found.add(of.id)
    return found


def _id(item: str, guide: Guide) -> str:
    return thing_id(item, guide)


def connected(bench: Bench, start: str) -> set[str]:
    """Everything that hangs together with an item, over seats and joints."""
    links: dict[str, set[str]] = {}
    for a, b in [*((s.child, s.host) for s in bench.seats.values()), *((j.a, j.b) for j in bench.joints)]:
        links.setdefault(a, set()).add(b)
        links.setdefault(b, set()).add(a)
    found = {start}
    stack = [start]
    while stack:
        for other in links.get(stack.pop(), ()):
            if other not in found:
                found.add(other)
                stack.append(other)
    return found


def _put_away(run: DryRun) -> set[str]:
    """The items that an action uses as stock: put into the kit and taken along."""
    puts = (frame.action.fields.get("puts") for frame in run.frames)
    return {ref.id for refs in puts if isinstance(refs, tuple) for ref in refs if isinstance(ref, Ref)}


UNSAID = Check(
    "finished-unsaid", Severity.WARNING, "run",
    why="Without it nobody can tell a part left over from a part forgotten.",
    mend="Write `finished: {is: PART, holds: all}`.",
    find=find,
)  # fmt: skip

UNLISTED = Check(
    "kit-unlisted", Severity.WARNING, "run",
    why="Who packs or checks the kit by this list takes the part for one that was put on by mistake.",
    mend="Name it under `finished: {holds: [...]}`, or write `holds: all`.",
    find=find,
)  # fmt: skip

TOOL_LEFT = Check(
    "tool-left", Severity.ERROR, "run",
    why="The next builder has no tool, and the kit carries something that it should not.",
    mend="Take it off after it was put on for the last time.",
    find=find,
)  # fmt: skip

NEVER_REMOVED = Check(
    "never-removed", Severity.ERROR, "run",
    why="The next builder has no tool, and what it covers or closes stays covered.",
    mend="Add a `remove` in the step after which it is not needed any more.",
    find=find,
)  # fmt: skip


CHECK = Check(
    "not-in-kit", Severity.ERROR, "run",
    why="A part lies on the table when the work is done, and the builder wonders what was missed.",
    mend="Join it to the kit, or name it under `finished: {left over: [...]}`.",
    find=find, source="common practice",
)  # fmt: skip
