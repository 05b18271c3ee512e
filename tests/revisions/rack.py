"""A small guide of the tests, a card rack with a wooden peg, and revisions of it made by edits of its text.

It is built without a finding.
"""

from __future__ import annotations

from functools import cache
from pathlib import Path

from builder.dryrun.kinds import VERBS
from builder.guide.model import Guide
from builder.guide.reader import read
from builder.revisions.edition import Edition, edition

RACK = Path(__file__).with_name("rack.yml").read_text(encoding="utf-8")

SHARED = """\
shared: leave
takes: {work: part}
steps:
  - id: cure
    title: Leave the {work} to cure
    actions:
      - {wait for: work, until: cured, if missed: No harm.}
"""

Edits = tuple[tuple[str, str], ...]


@cache
def guide(text: str = RACK, shared: str = SHARED) -> Guide:
    """The guide of a text, with what `guides/common/` would hold."""
    texts = {"guides/rack/guide.yml": text, "guides/common/leave.yml": shared}
    return read(texts, "guides/rack/guide.yml", VERBS, "rack")


def edited(*edits: tuple[str, str], text: str = RACK) -> str:
    """The text after edits, each of words that stand in it once."""
    for old, new in edits:
        assert text.count(old) == 1, f"{old!r} stands {text.count(old)} times"
        text = text.replace(old, new)
    return text


@cache
def revision(text: str = RACK, label: str = "revision 2") -> Edition:
    """The edition of a text."""
    return edition(guide(text), label)


def revised(*edits: tuple[str, str]) -> Edition:
    """The rack after edits, as the working guide."""
    return revision(edited(*edits), "the working guide")
