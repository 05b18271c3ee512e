"""What a signature signs: everything of an edition that guards against harm, and all that was weakened.

The sign changes when any of it changes again, and the signature is void then.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from builder.guide.model import Signature
from builder.revisions.change import Change
from builder.revisions.edition import Edition
from builder.revisions.facts import Path
from builder.revisions.manifest import sign_of

_LABEL = ("set", "full_cure", "dry", "tack", "recoat", "hazards", "who", "working_time")
_STEP = ("who", "without caution", "own caution")
_ACTION = ("hold", "for", "until", "gently")


def content_sign(edition: Edition) -> str:
    """The sign of all that a guide says."""
    facts = edition.facts
    lines = [f"{' / '.join(path)}: {text}" for path, text in sorted(facts.leaves.items())]
    lines += [f"{' / '.join(path)}: {', '.join(keys)}" for path, keys in sorted(facts.orders.items())]
    return sign_of(lines)


def safety_sign(edition: Edition, changes: Iterable[Change] = ()) -> str:
    """The sign of what guards against harm, with what was weakened to come to it."""
    return sign_of((*safety_lines(edition), *sorted(map(_weakened, weakened(changes)))))


def weakened(changes: Iterable[Change]) -> list[Change]:
    """The changes that guard less."""
    return [change for change in changes if change.weakened]


def _weakened(change: Change) -> str:
    return f"{change.kind.value} {change.about}: {change.before} -> {change.after}"


def safety_lines(edition: Edition) -> list[str]:
    """Everything that guards against harm, line by line: ages, gear, labels, helpers, waits and holds, and
    the cautions before each step, in the order of the work."""
    facts = edition.facts
    lines = [
        f"{' / '.join(path)}: {text}" for path, text in sorted(facts.leaves.items()) if _guards(path, edition)
    ]
    lines += [
        f"{thing}: {', '.join(sorted(keys))}" for thing, keys in sorted(edition.hazards.items()) if keys
    ]
    for step in edition.guide.every_step():
        for caution in edition.cautions.get(step.id, ()):
            words = (caution.level, caution.hazard, caution.consequence, caution.avoidance, *caution.gear)
            lines.append(f"{step.id}: {' '.join(words)}")
        for action in step.each_action():
            if action.verb.kind == "wait":
                lines.append(f"{step.id}: wait")
    return lines


def _guards(path: Path, edition: Edition) -> bool:
    """Whether a fact is one of those that guard."""
    if path == ("guide", "ages"):
        return True
    if path[0] == "thing":
        thing = edition.guide.things.get(path[1])
        return thing is not None and (path[2] in _LABEL or thing.form == "gear")
    if path[0] == "step":
        return path[2] in _STEP or (path[2] == "action" and path[4] in _ACTION)
    return path[0] == "stage" and path[2] == "per"


def valid(signatures: Sequence[Signature], sign: str) -> list[Signature]:
    """The signatures that are for this content."""
    return [each for each in signatures if each.content == sign]
