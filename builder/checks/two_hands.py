"""A step asks for three hands.

What: While a part is held by hand, no tool is used that takes both hands, unless somebody helps.

Why: The builder lets go of one of the two.

Bad:
    - {attach: fin, onto: tube, at: root, hold: 3 min, with: clamp_saw}

Good:
    - {attach: fin, onto: tube, at: root, held by: jig}
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.checks.base import Check, Look
from builder.findings import Finding, Severity
from builder.trade.tools import tool_kind


def find(look: Look) -> Iterator[Finding]:
    """One finding for each action that holds a part and takes a tool for two hands."""
    for step in look.guide.every_step():
        for action in step.each_action():
            if "hold" not in action.fields or "held_by" in action.fields or "help" in step.who:
                continue
            for ref in action.refs("with"):
                thing = look.guide.things.get(ref.id)
                kind = tool_kind(thing.name) if thing is not None and thing.sort == "tool" else None
                if thing is not None and kind is not None and kind.two_hands:
                    yield CHECK.finding(
                        ref.at,
                        f"the {thing.name} takes both hands, and this action holds a part by hand as well",
                    )


CHECK = Check(
    "two-hands", Severity.WARNING, "guide",
    why="The builder lets go of one of the two.",
    mend="Let a jig or a clamp hold the part (`held by`), let somebody help (`who: adult helps`), or make "
         "two actions.",
    find=find,
)  # fmt: skip
