"""A part is used before it is made.

What: Everything that an action names is on the bench, on every route.

Why: The builder looks for a part that nobody has made yet.

Bad:
    - {slide: ring, over: tube, from: rear, to: seat, fit: tight}
    - {cut: ring, from: board, with: scissors}

Good:
    - {cut: ring, from: board, with: scissors}
    - {slide: ring, over: tube, from: rear, to: seat, fit: tight}
"""

from __future__ import annotations

from builder.checks.base import Check, Look, numbers, see
from builder.dryrun import needs as n
from builder.dryrun.run import Frame
from builder.findings import Finding, Severity


def find(need: n.Exists, frame: Frame, look: Look) -> Finding | None:
    """Everything that an action names is on the bench, on every route."""
    if need.met:
        return None
    name = look.name(need.item)
    fact = {f"item:{need.thing}"}
    route = look.run.route.name if look.run is not None else ""
    if need.state == "copy":
        thing = look.guide.things[need.thing]
        return COUNT.finding(
            need.at,
            f"there is no {name}: only {thing.count} of the {thing.name} are made",
            also=see(thing.count_at, "the count"),
            suspects=fact | numbers(need.reads),
            rests_on=numbers(need.reads),  # a count that could not be read is another fault
        )
    if need.state == "optional":
        return OPTIONAL.finding(
            need.at,
            f"the {name} is there only if an optional step was done",
            suspects=fact | _optional(need.item, frame),
            rests_on=_optional(need.item, frame),
        )
    routes = look.makers.get(need.thing, ())
    if routes and route not in routes:  # so there is another route
        return OTHER_ROUTE.finding(
            need.at, f"the {name} is made only on the route {' and '.join(routes)}", suspects=fact
        )
    later = look.made.get((route, need.item))
    if later is None:
        return CHECK.finding(
            need.at,
            f"the {name} is used, but no step makes it",
            suspects=fact | {"done:cut", f"lines:{frame.step.id}"},
            rests_on={f"preparation:{need.thing}"},
            also=see(look.guide.things[need.thing].at, "where it is listed"),
        )
    return CHECK.finding(
        need.at,
        f"the {name} is used before it is made",
        suspects=fact | {f"lines:{frame.step.id}"},
        also=see(later.action.at, "it is made only here"),
    )


def _optional(item: str, frame: Frame) -> set[str]:
    """The fact that the step is optional which made the item, or put it where it is."""
    bench = frame.before
    causes = [bench.items[item].cause] if item in bench.items else []
    causes += [bench.seats[item].cause] if item in bench.seats else []
    return {f"optional:{cause.step}" for cause in causes if cause.optional}


CHECK = Check(
    "used-before-made", Severity.ERROR, "need",
    why="The builder looks for a part that nobody has made yet.",
    mend="Make it in an earlier step, or mark it `source: bought`.",
    find=find, need=n.Exists, source="common practice",
)  # fmt: skip

COUNT = Check(
    "count", Severity.ERROR, "need",
    why="The step speaks of more copies than there are; a builder would run out of them.",
    mend="Make the count of the part, and the copies that the steps name, agree.",
    find=find, need=n.Exists,
)  # fmt: skip

OPTIONAL = Check(
    "rests-on-optional", Severity.ERROR, "need",
    why="Who leaves the optional step out stands before a part that is not there.",
    mend="Make this step optional too, or the other one not.",
    find=find, need=n.Exists,
)  # fmt: skip

OTHER_ROUTE = Check(
    "other-route", Severity.ERROR, "need",
    why="Whoever builds along this route never had it in hand.",
    mend="Move the action into the option that makes the part, or make the part on both routes.",
    find=find, need=n.Exists,
)  # fmt: skip
