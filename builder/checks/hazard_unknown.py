"""A tool or a material whose hazards nobody knows.

What: A tool or a material that the trade tables do not know states its hazards, or `[]`.

Why: No caution can stand before a step whose hazards nobody has named.

Bad:
    tools: {whirler: {name: whirler}}

Good:
    tools: {whirler: {name: whirler, hazards: [machine]}}
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.checks.base import Check, Look
from builder.findings import Finding, Severity
from builder.guide.cautions import hazards_of
from builder.guide.model import Thing
from builder.guide.reading import nearest
from builder.trade.adhesives import ADHESIVES
from builder.trade.hazards import HAZARDS, hazard
from builder.trade.match import plain
from builder.trade.paints import PAINTS


def find(look: Look) -> Iterator[Finding]:
    """A tool or a material that the trade tables do not know states its hazards, or `[]`."""
    for thing in look.guide.things.values():
        if thing.sort in ("tool", "material") and thing.id in look.used and hazards_of(thing) is None:
            what, mend = _of_kind(thing)
            yield CHECK.finding(
                thing.at,
                f'nobody says what the {thing.sort} "{thing.name}" can do to a person{what}',
                mend=mend,
                suspects={f"hazard:{thing.id}"},
            )
        for key in thing.hazards or ():
            if hazard(key) is None and key not in look.guide.cautions:
                yield CHECK.finding(
                    thing.place("hazards"),
                    f'there is no hazard "{key}"',
                    mend=_of_key(key),
                )


def _of_kind(thing: Thing) -> tuple[str, str]:
    """(the kind that no table knows, a kind that may have been meant), of an adhesive or a paint."""
    if thing.form not in ("adhesive", "paint") or not thing.words.get(thing.form):
        return "", ""
    kind = plain(thing.words[thing.form])
    rows = ADHESIVES if thing.form == "adhesive" else PAINTS
    names = [plain(name) for row in rows for name in (row.key, *row.aka)]
    guess = nearest(kind, names) or next((name for name in names if kind in name.split()), "")
    meant = f"Did you mean `{thing.form}: {guess}`? " if guess else ""
    mend = f"{meant}The manual lists the kinds. Of another kind write `hazards: [...]`, or `[]` for none."
    return f': "{thing.words[thing.form]}" is no kind of {thing.form} that the tables know', mend


def _of_key(key: str) -> str:
    guess = nearest(key, [row.key for row in HAZARDS])
    meant = f"Did you mean `{guess}`? " if guess else ""
    return f"{meant}Use a key that the manual lists, or write the caution under `cautions`."


CHECK = Check(
    "hazard-unknown", Severity.ERROR, "guide",
    why="No caution can stand before a step whose hazards nobody has named.",
    mend="Write `hazards: [...]` with the keys that apply (the manual lists them), or `[]` for none.",
    find=find, safety=True, source="common practice",
)  # fmt: skip
