"""A writer's sentence does something else than its action.

What: A clause of a `say` begins with one of the words of its action's verb (glue: glue, run, put, brush).

Why: A sentence that cuts where the action glues tells the builder to do what the dry run has not seen.

Bad:
    - {glue: fin, edge: root, with: pva, for: body, say: "Rub {with} off the root of the {fin}."}

Good:
    - {glue: fin, edge: root, with: pva, for: body, say: "Brush {with} on the root of the {fin}."}
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.checks.base import Check, Look
from builder.findings import Finding, Severity
from builder.guide.wording.saying import has_verb, says_of


def find(look: Look) -> Iterator[Finding]:
    """One finding for each `say` without a verb of its action."""
    book = look.book
    for say in says_of(book):
        if not has_verb(say):
            words = ", ".join(dict.fromkeys(w for action in say.actions for w in action.verb.says))
            verb = say.actions[0].verb.word
            yield CHECK.finding(
                say.prose.at,
                f'no clause of the sentence begins with a word for "{verb}"',
                mend=f"Begin it with one of: {words}.",
            )


CHECK = Check(
    "say-verb", Severity.ERROR, "guide",
    why="A sentence that cuts where the action glues tells the builder to do what the dry run has not seen.",
    mend="Begin the sentence with a word of the verb.",
    find=find, source="guide format",
)  # fmt: skip
