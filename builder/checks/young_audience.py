"""A glue or a paint that is not for young builders.

What: Where the youngest builder is under 12, no builder uses an adhesive or a paint that school guidelines
keep from that age; one to ask about is used with an adult.

Why: Children of that age cannot be expected to follow a label, and some of these harm for life.

Bad:
    audience: {ages: 9-12, reading grade: 4}  # and a builder's step uses five-minute epoxy

Good:
    - {stage: Before the class, who: teacher, per: class}  # the teacher uses it, or another glue is chosen
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from builder.checks.base import Check, Look, numbers
from builder.findings import Finding, Severity
from builder.guide.model import Step, Thing
from builder.trade.adhesives import adhesive
from builder.trade.paints import paint

UNDER = 12


def find(look: Look) -> Iterator[Finding]:
    """One finding for each such material, at the first step in which a builder uses it."""
    youngest = re.match(r"\d+", look.guide.audience.get("ages", ""))
    if youngest is None or int(youngest.group()) >= UNDER:
        return
    seen: set[str] = set()
    for step in look.guide.every_step():
        for action in step.each_action():
            for ref in action.refs("with"):
                thing = look.guide.things.get(ref.id)
                row = _row(thing) if thing is not None and ref.id not in seen else None
                if thing is None or row is None or row[0] == "ok" or _by_adult(step, row[0]):
                    continue
                seen.add(ref.id)
                check, what = (
                    (CHECK, "is kept from") if row[0] == "no" else (ASK, "is for an adult to decide on with")
                )
                yield check.finding(
                    ref.at,
                    f"the {thing.name} {what} builders under {UNDER}, and this guide is for ages "
                    f"{look.guide.audience['ages']}",
                    why=f"{check.why} {row[1]}",
                    suspects=numbers(()) | {f"young:{ref.id}"},
                )


UNKNOWN = ("ask", "No table here knows this kind: its label and its data sheet decide.")


def _row(thing: Thing) -> tuple[str, str] | None:
    if thing.form == "adhesive":
        glue = adhesive(thing.words.get("adhesive", ""))
        return (glue.k6, glue.k6_note) if glue is not None else UNKNOWN
    if thing.form == "paint":
        coat = paint(thing.words.get("paint", ""))
        return (coat.k6, coat.k6_note) if coat is not None else UNKNOWN
    return None


def _by_adult(step: Step, grade: str) -> bool:
    """Whether an adult does it; where one only has to be asked, one who helps is enough."""
    who = step.who.lower()
    does = "teacher" in who or ("adult" in who and "help" not in who)
    return does or (grade == "ask" and "adult" in who)


CHECK = Check(
    "young-audience", Severity.ERROR, "guide",
    why="Children of that age cannot be expected to follow a label.",
    mend="Choose another kind, or let an adult do it in a preparation stage.",
    find=find, safety=True, source="California guidelines for art and craft materials in schools, 2019",
)  # fmt: skip

ASK = Check(
    "young-audience-ask", Severity.WARNING, "guide",
    why="Children of that age cannot be expected to follow a label.",
    mend="Write `who: adult helps` on the step, or choose another kind.",
    find=find, safety=True, source="California guidelines for art and craft materials in schools, 2019",
)  # fmt: skip
