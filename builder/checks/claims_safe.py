"""A text claims that something is without risk.

What: No text of a guide says that anything is safe, harmless or without risk, in its steps or its pages.

Why: No guide can know that; who reads it stops looking.

Bad:
    - note: The glue is perfectly safe.

Good:
    - note: The glue's label says for whom it is made.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from builder.checks.base import Check, Look
from builder.findings import Finding, Place, Severity
from builder.guide.wording.saying import place_in
from builder.guide.wording.scan import bag
from builder.guide.wording.written import written

SIGNS = frozenset(("safe", "safely", "safer", "safest", "harmless", "danger", "risk", "hurt", "foolproof"))
_CLAIM = (
    r"\b(?:safe|safely|safer|safest|harmless|foolproof|risk[- ]free|no (?:danger|risk)(?! of)"
    r"|without (?:any )?(?:danger|risk)|(?:cannot|can't|will not|won't) hurt)\b"
)


def find(look: Look) -> Iterator[Finding]:
    """One finding for each claim."""
    for text in written(look.book).with_any(SIGNS):
        for match in re.finditer(_CLAIM, text.plain, re.IGNORECASE):
            yield _finding(place_in(text.prose, match.start(), len(match.group())), match.group())
    for caution in look.guide.cautions.values():
        words = f"{caution.hazard} {caution.consequence} {caution.avoidance}"
        found = None if SIGNS.isdisjoint(bag(words)) else re.search(_CLAIM, words, re.IGNORECASE)
        if found is not None and caution.at is not None:
            yield _finding(caution.at, found.group())
    for name, page in look.guide.prose.items():
        if SIGNS.isdisjoint(bag(page)):
            continue
        for match in re.finditer(_CLAIM, page, re.IGNORECASE):
            line = page.count("\n", 0, match.start()) + 1
            column = match.start() - page.rfind("\n", 0, match.start())
            file = next((f for f, text in look.guide.texts.items() if text == page), name)
            yield _finding(Place(file, line, column, len(match.group())), match.group())


def _finding(place: Place, words: str) -> Finding:
    return CHECK.finding(place, f'"{words}" claims what no guide can know')


CHECK = Check(
    "claims-safe", Severity.ERROR, "guide",
    why="No guide can know that; who reads it stops looking.",
    mend="Say what can happen and how to keep out of its way, and leave the last word to the label and an "
         "adult.",
    find=find, safety=True,
)  # fmt: skip
