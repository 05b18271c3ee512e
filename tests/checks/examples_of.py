"""The examples of the checks: small whole guides, each a failing and a mended one.

An example says in its first line what it takes from `kit.yml` (`# takes: tube, ring, pva`), and writes only
what is its own; `unfinished` leaves out the finished kit, which is the tube by default. Before the line at
which a failing example is told stands the comment `# here`; without one it is the first.
"""

from __future__ import annotations

import re
from functools import cache
from pathlib import Path
from typing import NamedTuple

from builder.checks.judge import check
from builder.dryrun.kinds import VERBS
from builder.findings import Finding
from builder.guide.reader import read

FOLDER = Path(__file__).parent / "examples"
SECTIONS = ("materials", "tools", "parts")
HEAD = (
    "title: An example",
    "units: {first: mm, second: in, finest: 1 mm}",
    "finished: {is: tube, holds: all}",
)
_SECTION = re.compile(r"(?m)^(?=[a-z][a-z ]*:)")
_ENTRY = re.compile(r"(?m)^(?=  [a-z_]+:)")


class Example(NamedTuple):
    """A whole guide, and the number of the line at which it is told (the first if none is marked)."""

    text: str
    line: int

    def findings(self) -> list[Finding]:
        """What the checks say of it."""
        return check(read({"guide.yml": self.text}, "guide.yml", VERBS, "example"))


def _sections(text: str) -> dict[str, str]:
    return {part.partition(":")[0]: part for part in _SECTION.split(text) if ":" in part.partition("\n")[0]}


@cache
def kit() -> dict[str, dict[str, str]]:
    """Section -> id -> the lines of the entry."""
    sections = _sections((FOLDER.parent / "kit.yml").read_text("utf-8"))
    return {
        name: {entry.partition(":")[0].strip(): entry for entry in _ENTRY.split(sections[name])[1:]}
        for name in SECTIONS
    }


def whole(text: str) -> Example:
    """An example with what it takes."""
    first, _, rest = text.partition("\n")
    words = first.removeprefix("# takes:").replace(",", " ").split()
    taken = [word for word in words if word not in ("nothing", "unfinished")]
    own = _sections(rest)
    head = HEAD[:-1] if "unfinished" in words else HEAD
    out = [line for line in head if line.partition(":")[0] not in own]
    for section in SECTIONS:
        entries = [kit()[section][name] for name in taken if name in kit()[section]]
        mine = own.pop(section, f"{section}:\n")
        if entries or mine.count("\n") > 1:
            name, _, more = mine.partition("\n")
            out.append("".join([name, "\n", *entries, more]).rstrip("\n"))
    assert all(any(name in kit()[section] for section in SECTIONS) for name in taken), taken
    full = "\n".join([*out, *(part.rstrip("\n") for part in own.values())]) + "\n"
    marks = [number for number, line in enumerate(full.splitlines(), 1) if line.strip() == "# here"]
    return Example(full, marks[0] + 1 if marks else 1)


def example(check: str, kind: str) -> Example:
    """The failing (`bad`) or the mended (`good`) example of a check."""
    return whole((FOLDER / check / f"{kind}.yml").read_text("utf-8"))
