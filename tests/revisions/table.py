"""Reads the table of `changes.txt`: what must be told of each revision of the card rack."""

from __future__ import annotations

from itertools import groupby
from pathlib import Path
from typing import NamedTuple

from tests.revisions.rack import Edits


class Case(NamedTuple):
    """One case: its name, the part of the table that it stands in, its edits, what must be told."""

    name: str
    part: str
    edits: Edits
    expected: tuple[str, ...]


def cases(text: str) -> tuple[Case, ...]:
    """All cases of a table."""
    found = []
    for part in text.split("\n# ")[1:]:
        name, _, body = part.partition("\n")
        for each in body.split("\n## ")[1:]:
            found.append(_case(name, each.splitlines()))
    return tuple(found)


def _case(part: str, lines: list[str]) -> Case:
    blocks = [(sign, [line[2:] for line in some]) for sign, some in groupby(lines[1:], lambda line: line[:1])]
    edits = []
    for number, (sign, words) in enumerate(blocks):
        if sign == "-":
            edits.append(("\n".join(words), "\n".join(blocks[number + 1][1])))
        elif sign == "x":
            edits.append(("\n".join(words) + "\n", ""))
    told = [line for sign, words in blocks if sign == "=" for line in words]
    return Case(lines[0], part, tuple(edits), tuple(told))


TABLE = cases(Path(__file__).with_name("changes.txt").read_text(encoding="utf-8"))
