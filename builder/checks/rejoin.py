"""Routes that rejoin with different kits.

What: Where routes rejoin, the benches agree in parts, places and joints.

Why: The steps after it speak to two builders who hold different things.

Bad:
    - choose: way
      a:
        - {id: glue_tag, title: Glue the tag on, actions: [...]}
      b: []

Good:
    - {id: glue_tag, title: Glue the tag on, actions: [...]}
    - choose: way
      a: [...]
      b: [...]
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

import msgspec

from builder.checks.base import Check, Look
from builder.dryrun.bench import Bench, Stretch
from builder.dryrun.run import DryRun
from builder.dryrun.work import thing_id
from builder.findings import Finding, Severity
from builder.guide.model import Choose, Guide, Step
from builder.quantities.show import show_number
from builder.quantities.values import number

LAST = "A guide has one end product: end both routes with the same parts, or write a guide for each."


def find(look: Look) -> Iterator[Finding]:
    """Where routes rejoin, the benches agree in parts, places and joints."""
    guide = look.guide
    for index, entry in enumerate(guide.entries):
        if not isinstance(entry, Choose):
            continue
        passed = guide.entries[: index + 1]
        seen: dict[tuple[str, ...], tuple[str, dict[str, Where]]] = {}
        for run in look.runs:
            others = tuple(f"{c}={o}" for c, o in run.route.options.items() if c != entry.choice)
            here = kit_after(run, guide, passed)
            if others not in seen:
                seen[others] = (run.route.name, here)
                continue
            name, there = seen[others]
            differ = sorted(k for k in {*here, *there} if not _agree(here.get(k), there.get(k)))
            if differ:
                first = differ[0]
                a, b = (_told(kit.get(first), look) for kit in (there, here))
                last = index == len(guide.entries) - 1
                yield CHECK.finding(
                    entry.at,
                    f"the routes {'end' if last else 'rejoin'} with different kits: {name}, the "
                    f"{look.name(first)} {a}; {run.route.name}, it {b}",
                    mend=LAST if last else "",
                    suspects={f"kit:{_thing(first, look)}" for first in differ}
                    | {f"made:{k}" for k in differ}
                    | {f"item:{_thing(k, look)}" for k in differ},
                    rests_on={f"item:{_thing(k, look)}" for k in differ}
                    | {f"seat:{k}" for k in differ}
                    | {f"held:{k}" for k in differ}
                    | {f"placed:{k}" for k in differ}
                    | {f"there:{k}" for k in differ},
                )
                break


def _thing(item: str, look: Look) -> str:
    return thing_id(item, look.guide)


class Where(msgspec.Struct, frozen=True):
    """Where a part is: loose without a host; its stretch in mm and its angle in degrees where known."""

    host: str = ""
    stretch: Stretch | None = None
    angle: Fraction | None = None
    joined: bool = False


def kit_after(run: DryRun, guide: Guide, entries: Sequence[Step | Choose]) -> dict[str, Where]:
    """Where each part is once the given entries are done."""
    ids: set[str] = set()
    for entry in entries:
        ids |= (
            {entry.id}
            if isinstance(entry, Step)
            else {s.id for steps in entry.options.values() for s in steps}
        )
    bench = run.start
    for frame in run.frames:
        if frame.step.id in ids:
            bench = frame.after
    return {
        item: _where(bench, item, guide)
        for item in bench.items
        if guide.things[thing_id(item, guide)].sort == "part"
    }


def _agree(here: Where | None, there: Where | None) -> bool:
    """Whether a part is the same on both routes; what is known of it on one route alone is not compared."""
    if here is None or there is None:
        return here is there
    known = all(
        a == b or a is None or b is None
        for a, b in ((here.stretch, there.stretch), (here.angle, there.angle))
    )
    return known and here.host == there.host and here.joined == there.joined


def _where(bench: Bench, item: str, guide: Guide) -> Where:
    seat = bench.seats.get(item)
    if seat is None or guide.things[thing_id(seat.host, guide)].sort == "tool":
        return Where()
    held = any(
        j.touches(item) and j.touches(seat.host) and (j.adhesive or j.kind != "fit") for j in bench.joints
    )
    return Where(thing_id(seat.host, guide), seat.stretch, seat.angle, held)


def _told(where: Where | None, look: Look) -> str:
    if where is None:
        return "is not there"
    if not where.host:
        return "lies loose"
    words = f"sits on the {look.guide.things[where.host].name}"
    if where.stretch is not None:
        lo, hi = where.stretch
        words += f" from {look.mm(lo)} to {look.mm(hi)}"
    if where.angle is not None:
        words += f" at {show_number(number(where.angle))} deg"
    return words + (", joined" if where.joined else "")


CHECK = Check(
    "rejoin", Severity.ERROR, "runs",
    why="The steps after it speak to two builders who hold different things.",
    mend="Do on both routes what the next steps need, or move it out of the choice.",
    find=find, source="common practice",
)  # fmt: skip
