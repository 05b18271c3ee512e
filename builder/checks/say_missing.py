"""A writer's sentence leaves out what the builder must be told.

What: A `say` refers to every field of its action that has to be told: what, where, with what, how long.

Why: The builder does only what the sentence says, and the dry run has counted on the rest.

Bad:
    - {attach: fin, onto: body, at: root, hold: 3 min, say: "Press the {fin} on the {body} {at}."}

Good:
    - {attach: fin, onto: body, at: root, hold: 3 min, say: "Press the {fin} on the {body} {at} for {hold}."}
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.checks.base import Check, Look
from builder.findings import Finding, Severity
from builder.guide.fields import Field, Holds
from builder.guide.model import Action
from builder.guide.wording import Book
from builder.guide.wording.directions import turned
from builder.guide.wording.saying import Say, left_out, numbers_in, says_of, strangers

_NUMBERS = (Holds.NUMBER, Holds.COUNT, Holds.ANGLE, Holds.PLACE, Holds.PLACES)
_ENDS = (Holds.TEXT, Holds.PLACE, Holds.PLACES, Holds.WORD)


def find(look: Look) -> Iterator[Finding]:
    """One finding for each `say` that leaves something out."""
    book = look.book
    for say in says_of(book):
        fields = _missing(book, say)
        if fields:
            missing = [a.verb.word if f.name == "*" else f.name for a, f in fields]
            keys = ((a, "what" if f.name in ("*", a.verb.word) else f.key) for a, f in fields)
            told = " and ".join(f'"{name}"' for name in missing)
            refs = " and ".join(f"{{{name}}}" for name in missing)
            yield CHECK.finding(
                say.prose.at,
                f"the sentence leaves out {told}",
                mend=f"Put {refs} into the sentence.",
                rests_on={f"said:{ref.id}" for action, key in keys for ref in action.refs(key)}
                | {f"said:{name}" for name in missing},
            )


def _missing(book: Book, say: Say) -> list[tuple[Action, Field]]:
    """The fields left out, without those that another fault of the same sentence explains."""
    fields = left_out(book, say)
    if not fields:
        return []
    if numbers_in(book, say.prose):  # the number was typed instead of being referred to
        fields = [(a, f) for a, f in fields if f.holds not in _NUMBERS]
    if fields and turned(book, say):  # the wrong end stands where the right one belongs
        fields = [(a, f) for a, f in fields if f.holds not in _ENDS]
    wrong = strangers(book, say.prose, say.actions, strict=True) if fields else []
    if len(wrong) >= len(fields):  # each wrong reference stands for a right one
        return []
    return fields


CHECK = Check(
    "say-missing", Severity.ERROR, "guide",
    why="The builder does only what the sentence says, and the dry run has counted on the rest.",
    mend="Refer to the field in braces, or leave the `say` out: the tool words the action.",
    find=find, source="guide format",
)  # fmt: skip
