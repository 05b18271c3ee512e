"""A surface is out of reach.

What: Glue and marks go on a surface that is bare, and that a hand or a tool reaches.

Why: Nobody can lay glue or a line there any more.

Bad:
    - {insert: mount, into: tube, from: rear, to: flush with rear, fit: tight}
    - {mark: line, onto: mount, at: 1 in from rear}

Good:
    - {mark: line, onto: mount, at: 1 in from rear}
    - {insert: mount, into: tube, from: rear, to: flush with rear, fit: tight}
"""

from __future__ import annotations

from builder.checks.base import Check, Look, numbers, see
from builder.dryrun import needs as n
from builder.dryrun.run import Frame
from builder.findings import Finding, Severity


def find(need: n.Bare, frame: Frame, look: Look) -> Finding | None:
    """Glue and marks go on a surface that is bare, and that a hand or a tool reaches."""
    if need.met:
        return None
    host, other = look.name(need.host), look.name(need.other) if need.other else ""
    doing = {"glue": "glue", "mark": "a mark", "paint": "paint", "place": "a part"}[need.what]
    facts = {f"bare:{need.host}", *numbers(need.reads)}
    if need.state == "far":
        return REACH.finding(
            need.at,
            f"{doing} goes {look.mm(need.depth)} deep into the {host}, but hand and tool reach "
            f"only {look.mm(need.reach)}"
            if need.depth is not None and need.reach is not None
            else f"{doing} is out of reach",
            suspects=facts,
            rests_on=numbers(need.reads),
        )
    where = {"inside": f"is inside the {other}", "blocked": f"lies behind the {other}"}.get(
        need.state, f"is covered by the {other}"
    )
    if need.state == "inside":
        facts |= {f"off:{need.host}"}
    meant = {ref.id for ref in frame.action.refs("for")}
    facts |= {f"stops:{need.other}:{i.key}" for i in frame.before.items.values() if i.thing in meant}
    return CHECK.finding(
        need.at,
        f"{doing} cannot go on the {host} there: the place {where}",
        also=see(need.other_at, f"the {other} was placed here"),
        suspects=facts,
        rests_on={
            f"item:{need.host}",
            f"placed:{need.host}",
            f"seat:{need.other}",
            f"mark-order:{frame.action.word('what')}",
        },
    )


CHECK = Check(
    "surface", Severity.ERROR, "need",
    why="Nobody can lay glue or a line there any more.",
    mend="Do it in an earlier step, before the part goes in or another covers the place.",
    find=find, need=n.Bare, source="common practice",
)  # fmt: skip

REACH = Check(
    "out-of-reach", Severity.ERROR, "need",
    why="Nothing at the bench gets that far in.",
    mend="List a tool with the reach (`reach: 7 in`), or do it from the other end.",
    find=find, need=n.Bare,
)  # fmt: skip
