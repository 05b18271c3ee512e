"""A caution's signal word is weaker than its hazard.

What: A writer's caution for a hazard that the trade knows has at least its level; NOTICE speaks of property
alone.

Why: The word tells at a glance how bad it can be: DANGER kills, WARNING could, CAUTION hurts, NOTICE spoils a
table.

Bad:
    - {level: caution, covers: sun, hazard: ..., consequence: It blinds., avoidance: ...}

Good:
    - {level: danger, covers: sun, hazard: ..., consequence: It blinds., avoidance: ...}
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from builder.checks.base import Check, Look
from builder.findings import Finding, Severity
from builder.guide.model import Caution
from builder.guide.wording.scan import bag
from builder.trade.hazards import hazard
from builder.trade.signals import LEVELS, SIGNAL_WORD

HARMS = frozenset((
    "bleed", "blind", "blinded", "blinding", "blinds", "bruise", "bruises", "burn", "burned", "burning",
    "burns", "choke", "chokes", "choking", "cough", "cuts", "death", "die", "dizzy", "eye", "eyes",
    "finger", "fingers", "hurt", "hurts", "injure", "injured", "injures", "injury", "kill", "killed",
    "kills", "lung", "lungs", "poison", "rash", "shock", "sick", "skin", "sting", "stings", "strangle",
    "suffocate", "swallow", "wound", "wounds",
))  # fmt: skip


_SOMEBODY = "you|someone|somebody|anyone|anybody|a person|people|a child|children|a hand|your hands?"
_TO_SOMEBODY = (
    rf"(?i)\b(?:cut|crush|graze|harm|hit|jab|nip|pinch|prick|scald|scratch|strike|stab|trap|trip)(?:s|es)?"
    rf" (?:{_SOMEBODY})\b"
)


def hurts(text: str) -> bool:
    """Whether a text speaks of what hurts a person, and not only of what spoils a thing."""
    return not HARMS.isdisjoint(bag(text)) or re.search(_TO_SOMEBODY, text) is not None


def find(look: Look) -> Iterator[Finding]:
    """One finding for each caution with too weak a word."""
    own: list[Caution] = [*look.guide.cautions.values()]
    own += [caution for step in look.guide.every_step() for caution in step.cautions]
    for caution in {id(c): c for c in own}.values():
        if caution.at is None or caution.level not in LEVELS:
            continue
        row = hazard(caution.id)
        word = SIGNAL_WORD[caution.level]
        if row is not None and LEVELS.index(caution.level) > LEVELS.index(row.level):
            yield CHECK.finding(
                caution.at,
                f'the caution for "{caution.id}" says {word}; '
                f"what it can do asks for {SIGNAL_WORD[row.level]}",
            )
        elif caution.level == "notice" and hurts(f"{caution.hazard} {caution.consequence}"):
            yield CHECK.finding(
                caution.at, "a NOTICE speaks of what hurts a person; it is for property alone"
            )


CHECK = Check(
    "signal-word", Severity.ERROR, "guide",
    why="The word tells at a glance how bad it can be, and a weak one is passed over.",
    mend="Raise the level to danger, warning or caution, by what could happen to a person.",
    find=find, safety=True, source="ANSI Z535.4-2007, definitions of the signal words",
)  # fmt: skip
