"""Too much is told in free words.

What: At most one action in eight is a `do`, and none begins with a verb that the tool knows.

Why: What is told in free words cannot be carried out on paper, so nobody checks it.

Bad:
    - {do: Glue the fin to the body}

Good:
    - {glue: fin, edge: root, with: pva, for: body}
    - {attach: fin, onto: body, at: fin_root}
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.checks.base import Check, Look
from builder.dryrun.kinds import VERBS
from builder.findings import Finding, Severity

KNOWN = frozenset(word for word in VERBS if " " not in word)


def find(look: Look) -> Iterator[Finding]:
    """At most one action in eight is a `do`, and none begins with a verb that the tool knows."""
    actions = [a for step in look.guide.every_step() for a in step.each_action()]
    free = [a for a in actions if a.verb.kind == "do"]
    for action in free:
        first = action.word("what").split(" ")[0].lower()
        if first in KNOWN or first in look.guide.own_verbs:
            yield CHECK.finding(action.at, f'this says "{first}" in free words, but there is a verb for it')
    if len(free) * 8 > len(actions) and len(actions) >= 8:
        yield CHECK.finding(
            free[0].at,
            f"{len(free)} of {len(actions)} actions are told in free words; at most one in eight may be",
        )


CHECK = Check(
    "do-share", Severity.WARNING, "guide",
    why="What is told in free words cannot be carried out on paper, so nobody checks it.",
    mend="Use the verb that says what happens.",
    find=find, source="common practice",
)  # fmt: skip
