"""Reading an edition from disk: the working guide, or a sealed revision with what the trade said then."""

from __future__ import annotations

from pathlib import Path

from builder.dryrun.kinds import VERBS
from builder.guide.reader import read_guide
from builder.revisions.edition import Edition, edition
from builder.revisions.locate import folder_of

WORKING = "the working guide"


def open_edition(name: str | Path, label: str = "") -> Edition:
    """The edition that a name means. Errors: Unknown."""
    folder = folder_of(str(name))
    guide = read_guide(folder, VERBS)
    return edition(guide, label or WORKING)
