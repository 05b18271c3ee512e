"""The command `plant`: read the guides, plant, print."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from builder.dryrun.kinds import VERBS
from builder.guide.reader import read_guide
from builder.planting import KINDS
from builder.planting.report import as_json, as_text
from builder.planting.run import Harvest, pairs, plant


def harvests(
    guides: Sequence[str | Path], words: Sequence[str] = (), *, every: bool = False, in_pairs: bool = False
) -> list[Harvest]:
    """Plant the kinds whose name holds one of `words` (all without any) in copies of each guide."""
    kinds = [k for k in KINDS if not words or any(word in k.name for word in words)]
    every_guide = (read_guide(path, VERBS) for path in guides)
    read = [guide for guide in every_guide if guide.texts]  # nothing can be planted in what cannot be read
    if in_pairs:
        return [pairs(guide, kinds) for guide in read]
    return [plant(guide, kinds, every=every) for guide in read]


def printed(found: Sequence[Harvest], form: str) -> str:
    """The harvests as `text` or `json`."""
    return as_json(found) if form == "json" else "\n\n".join(as_text(h) for h in found)
