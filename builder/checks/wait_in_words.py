"""A wait is told in words alone.

What: Waiting for something to dry, set or cure is an action (`wait for`), not the end of a sentence.

Why: Nobody announces the wait, plans a period round it or counts it, and the builder goes on too soon.

Bad:
    - {attach: fin, onto: tube, at: root, say: "Press the {fin} onto the {tube} {at}, then let it dry."}

Good:
    - {attach: fin, onto: tube, at: root}
    - {wait for: fin, until: set}
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.checks.base import Check, Look, typed_at
from builder.findings import Finding, Severity
from builder.guide.wording.saying import place_in
from builder.guide.wording.tells import WAIT_SIGNS, waits
from builder.guide.wording.written import TOLD, written


def find(look: Look) -> Iterator[Finding]:
    """One finding for each text that tells a wait in a step that has none."""
    for text in written(look.book).with_any(WAIT_SIGNS):
        if text.kind not in TOLD or any(a.verb.kind == "wait" for a in text.step.each_action()):
            continue
        if text.action is not None and "hold" in text.action.fields:
            continue
        for typed in waits(text.plain, commands=text.kind == "do"):
            place = place_in(text.prose, typed.start, len(typed.text))
            yield CHECK.finding(
                place,
                f'a wait is told in words alone: "{typed.text}"',
                rests_on={typed_at(place, i) for i in range(len(typed.text))},
            )
            break


CHECK = Check(
    "wait-in-words", Severity.WARNING, "guide",
    why="Nobody announces the wait, plans a period round it or counts it, and the builder goes on too soon.",
    mend="Write it as an action: `wait for: PART, until: set`.",
    find=find, source="US Department of Energy, DOE-STD-1029-92: time-dependent steps",
)  # fmt: skip
