"""The letter of each part: the same on every route, in the parts table and in every exploded view."""

from __future__ import annotations

from string import ascii_uppercase

from builder.guide.model import Guide
from builder.guide.wording import name_of

LETTERS = "".join(c for c in ascii_uppercase if c not in "IO")
"""Without I and O, which are read as one and nought (a habit of drafting, from memory)."""


def letter(number: int) -> str:
    """The letter of the part with this number, from 0: A to Z, then AA, AB and so on."""
    n = len(LETTERS)
    return LETTERS[number] if number < n else letter(number // n - 1) + LETTERS[number % n]


def letters_of(guide: Guide) -> dict[str, str]:
    """The letter of each part by its id, in the order written; a blank becomes its part and has none."""
    parts = [t.id for t in guide.things.values() if t.sort == "part" and not t.blank_of]
    return {id: letter(i) for i, id in enumerate(parts)}


def called(guide: Guide, thing: str, count: int = 1) -> str:
    """What stands at the end of a leader: `body` after the letter A and a tab, `4 fins` after F.

    A thing without a letter has its name alone.
    """
    found = guide.things[thing]
    name = name_of(found) if count == 1 else f"{count} {name_of(found, count)}"
    own = letters_of(guide).get(thing, "")
    return f"{own}\t{name}" if own else name
