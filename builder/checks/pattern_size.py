"""A pattern that nobody can print.

What: What is cut along a printed pattern has a known size, so that there is a pattern.

Why: The step says to cut along the pattern, and no sheet has it.

Bad:
    tools: {jig: {name: post jig, form: slab, of: hardboard, pattern: jig}}

Good:
    tools: {jig: {name: post jig, form: slab, of: hardboard, pattern: jig, length: 200 mm, width: 140 mm}}
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.checks.base import Check, Look, see
from builder.findings import Finding, Severity
from builder.guide.model import Thing

FLAT = ("slab", "sheet", "strip")
"""Forms of a tool that may do without a size. Of all else that has none the reader tells."""



def find(look: Look) -> Iterator[Finding]:
    """One finding for each thing that is cut along a pattern of no size."""
    for step in look.guide.every_step():
        for action in step.each_action():
            if action.verb.kind != "cut" or action.word("along") != "pattern":
                continue
            for ref in action.refs("what"):
                thing = look.guide.things.get(ref.id)
                if thing is not None and thing.sort == "tool" and thing.form in FLAT and not _sized(thing):
                    yield CHECK.finding(
                        ref.at,
                        f"the {thing.name} is cut along a pattern, but nothing says how large it is",
                        also=see(thing.at, "it is listed here"),
                        suspects={f"size:{thing.id}"},
                    )


def _sized(thing: Thing) -> bool:
    return thing.outline is not None or {"length", "width"} <= thing.values.keys()


CHECK = Check(
    "pattern-size", Severity.ERROR, "guide",
    why="The builder looks for a pattern that no sheet has.",
    mend="Give it its length and its width.",
    find=find,
)  # fmt: skip
