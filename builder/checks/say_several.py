"""A sentence does more than its action.

What: A `say` tells its one action. It holds no command that is an action of its own (cut, glue, sand, paint,
drill, mark, tape, tie, screw), and at most three commands in all.

Why: What is done beside the action is not carried out on paper, not timed and not listed.

Bad:
    - {insert: ring, into: tube, from: front, say: "Glue the {ring} and push it into the {tube} ..."}

Good:
    - {glue: tube, inside: seat, with: pva, for: ring}
    - {insert: ring, into: tube, from: front, to: seat}
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.checks.base import Check, Look
from builder.findings import Finding, Severity
from builder.guide.wording.saying import literal, place_in, says_of
from builder.guide.wording.tells import commands_in
from builder.guide.wording.written import Written, written

OWN = frozenset(("cut", "drill", "glue", "mark", "paint", "sand", "saw", "screw", "spray", "tape", "tie"))
MOST = 3
JOINTS = (",", ";", ":", ".", " and ", " then ", " but ", " or ", " to ")


def find(look: Look) -> Iterator[Finding]:
    """One finding for each `say` that holds another action, or too many commands."""
    suspicious = {text.prose.at for text in written(look.book).texts if text.kind == "say" and _may(text)}
    for say in says_of(look.book) if suspicious else ():
        found = commands_in(literal(say.prose)) if say.prose.at in suspicious else []
        if len(found) < 2:
            continue
        own = {word for action in say.actions for word in (*action.verb.says, action.verb.word)}
        other = next((word for word in found if word.text in OWN and word.text not in own), None)
        if other is not None:
            place = place_in(say.prose, other.start, other.end - other.start)
            told = f"the sentence also tells to {other.text}, which is an action of its own"
            yield CHECK.finding(place, told)
        elif len(found) > MOST * len(say.actions):
            place = place_in(say.prose, found[MOST].start, found[MOST].end - found[MOST].start)
            told = f"the sentence gives {len(found)} commands; more than {MOST} are not kept in mind"
            yield CHECK.finding(place, told)


def _may(text: Written) -> bool:
    """Whether a sentence can hold so many commands at all: quick, and never wrong when it says no."""
    plain = text.plain
    joints = sum(plain.count(sign) for sign in JOINTS)
    return joints >= MOST or not OWN.isdisjoint(text.words)


CHECK = Check(
    "say-several", Severity.WARNING, "guide",
    why="What is done beside the action is not carried out on paper, not timed and not listed.",
    mend="Make an action of each thing that is done.",
    find=find, source="ASD-STE100, as a summary quotes it: one instruction in a sentence",
)  # fmt: skip
