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

from builder.checks.base import Check, Look
from builder.dryrun.bench import Bench
from builder.dryrun.run import DryRun
from builder.dryrun.work import thing_id
from builder.findings import Finding, Severity
from builder.guide.model import Choose, Guide, Step


def find(look: Look) -> Iterator[Finding]:
    """Where routes rejoin, the benches agree in parts, places and joints."""
    guide = look.guide
    for number, entry in enumerate(guide.entries):
        if not isinstance(entry, Choose):
            continue
        passed = guide.entries[: number + 1]
        seen: dict[tuple[str, ...], tuple[str, dict[str, str]]] = {}
        for run in look.runs:
            others = tuple(f"{c}={o}" for c, o in run.route.options.items() if c != entry.choice)
            here = kit_after(run, guide, passed)
            if others not in seen:
                seen[others] = (run.route.name, here)
                continue
            name, there = seen[others]
            differ = sorted(k for k in {*here, *there} if here.get(k) != there.get(k))
            if differ:
                first = differ[0]
                a, b = there.get(first, "is not there"), here.get(first, "is not there")
                yield CHECK.finding(
                    entry.at,
                    f"the routes rejoin with different kits: {name}, the {look.name(first)} {a}; "
                    f"{run.route.name}, it {b}",
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


def kit_after(run: DryRun, guide: Guide, entries: Sequence[Step | Choose]) -> dict[str, str]:
    """Where each part is once the given entries are done, in words that can be compared."""
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


def _where(bench: Bench, item: str, guide: Guide) -> str:
    seat = bench.seats.get(item)
    if seat is None or guide.things[thing_id(seat.host, guide)].sort == "tool":
        return "lies loose"
    stretch = f" from {seat.stretch[0]} to {seat.stretch[1]} mm" if seat.stretch is not None else ""
    angle = f" at {seat.angle} deg" if seat.angle is not None else ""
    held = any(
        j.touches(item) and j.touches(seat.host) and (j.adhesive or j.kind != "fit") for j in bench.joints
    )
    host = guide.things[thing_id(seat.host, guide)].name
    return f"sits on the {host}{stretch}{angle}{', joined' if held else ''}"


CHECK = Check(
    "rejoin", Severity.ERROR, "runs",
    why="The steps after it speak to two builders who hold different things.",
    mend="Do on both routes what the next steps need, or move it out of the choice.",
    find=find, source="common practice",
)  # fmt: skip
