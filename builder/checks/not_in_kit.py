"""A part does not end up in the kit.

What: At the end every part that was made is on the finished kit, used up by it, or left over on purpose.

Why: A part lies on the table when the work is done, and the builder wonders what was missed.

Bad:
    - {cut: ring, from: board, with: scissors}   # and never placed

Good:
    - {slide: ring, over: tube, from: rear, to: seat, fit: tight}
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.checks.base import Check, Look
from builder.dryrun.bench import Bench
from builder.dryrun.run import DryRun
from builder.dryrun.work import thing_id
from builder.findings import Finding, Severity
from builder.guide.model import Guide


def find(look: Look) -> Iterator[Finding]:
    """At the end every part that was made is on the finished kit, used up by it, or left over on purpose."""
    guide = look.guide
    if guide.finished is None:
        if guide.entries:
            yield UNSAID.finding(guide.at, "the guide does not say what the finished kit is")
        return
    run = look.run
    assert run is not None
    bench = run.end
    left = {ref.id for ref in guide.finished.left_over}
    linked = connected(bench, guide.finished.what.id)
    for item in bench.items.values():
        thing = guide.things[item.thing]
        if (
            thing.sort != "part"
            or item.key in linked
            or thing.blank_of
            or item.thing in left
            or item.cause.supposed
        ):
            continue
        if thing.id == guide.finished.what.id or _is_used_up(run, item.key):
            continue
        at = item.cause.at if item.cause.action else thing.at
        yield CHECK.finding(
            at,
            f"the {look.name(item.key)} is not on the finished {guide.finished.what.id.replace('_', ' ')}",
            rests_on={
                f"item:{item.thing}",
                f"placed:{item.key}",
                f"held:{item.key}",
                f"unused:{thing.id}",
                f"kit:{thing.id}",
                f"made:{item.key}",
            },
            suspects={f"left:{item.key}"},
        )
    for seat in bench.seats.values():
        if (
            guide.things[_id(seat.child, guide)].sort == "tool"
            and seat.host in linked
            and seat.fit != "loose"
        ):
            yield TOOL_LEFT.finding(
                seat.cause.at,
                f"the {look.name(seat.child)} is still on the finished kit",
                rests_on={f"placed:{seat.child}", f"there:{seat.child}", f"seat:{seat.child}"},
            )


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


def _is_used_up(run: DryRun, item: str) -> bool:
    """Whether an action used it as stock: a part rolled into another, or put into the kit and taken along."""
    return any(item in (getattr(r, "id", "") for r in f.action.refs("puts")) for f in run.frames)


UNSAID = Check(
    "finished-unsaid", Severity.WARNING, "run",
    why="Without it nobody can tell a part left over from a part forgotten.",
    mend="Write `finished: {is: PART, holds: all}`.",
    find=find,
)  # fmt: skip

TOOL_LEFT = Check(
    "tool-left", Severity.ERROR, "run",
    why="The next builder has no tool, and the kit carries something that it should not.",
    mend="Add a `remove` before the end.",
    find=find,
)  # fmt: skip


CHECK = Check(
    "not-in-kit", Severity.ERROR, "run",
    why="A part lies on the table when the work is done, and the builder wonders what was missed.",
    mend="Join it to the kit, or name it under `finished: {left over: [...]}`.",
    find=find, source="common practice",
)  # fmt: skip
