"""Reading an edition from disk: the working guide, or a sealed revision with what the trade said then."""

from __future__ import annotations

from pathlib import Path

from msgspec.structs import replace

from builder.dryrun.kinds import VERBS
from builder.guide.reader import read_guide
from builder.revisions import record as records
from builder.revisions.checks import touched
from builder.revisions.edition import Edition, edition
from builder.revisions.facts import facts_of
from builder.revisions.locate import Unknown, folder_of
from builder.revisions.manifest import NAME, decode

WORKING = "the working guide"
TRADE = "trade.json"


def open_edition(name: str | Path, label: str = "") -> Edition:
    """The edition that a name means. Errors: Unknown, also if a sealed revision of that guide is not as it
    was sealed."""
    folder = folder_of(str(name))
    sealed = (folder.parent / NAME).is_file()
    for message in touched(folder.parent.parent.parent if sealed else folder):
        raise Unknown(message)
    guide = read_guide(folder, VERBS)
    if not guide.texts or not list(guide.every_step()):
        raise Unknown(f"{folder.as_posix()} has no steps that could be read: `kitwright check` says why")
    made = edition(guide, label or _label(folder))
    try:
        then = records.decode((folder.parent / TRADE).read_bytes())
    except (OSError, ValueError):
        return made
    cautions = records.cautions_then(then, made)
    return replace(made, cautions=cautions, hazards=dict(then.hazards), facts=facts_of(made.guide, cautions))


def title_of(folder: Path) -> str:
    """The title of the guide in a folder."""
    return read_guide(folder, VERBS).title


def _label(folder: Path) -> str:
    """`revision 2` for a sealed one."""
    try:
        return f"revision {decode((folder.parent / NAME).read_bytes()).number}"
    except (OSError, ValueError):
        return WORKING
