"""A picture is not there.

What: The picture of a step lies beside the guide, in a file that a page can show.

Why: The page has a hole where the grip of the hand should be seen.

Bad:
    - {id: grip, ..., picture: grip.psd, alt: Two fingers hold the ring.}

Good:
    - {id: grip, ..., picture: grip.png, alt: Two fingers hold the ring.}
"""

from __future__ import annotations

import os
from collections.abc import Iterator

from builder.checks.base import Check, Look
from builder.findings import Finding, Severity

SHOWN = (".png", ".jpg", ".jpeg", ".svg", ".webp", ".gif")


def find(look: Look) -> Iterator[Finding]:
    """One finding for each picture that cannot be shown."""
    guide = look.guide
    first: dict[str, str] = {}
    for step in guide.every_step():
        picture = step.picture
        if picture is None or not picture.file:
            continue
        name = picture.file
        if os.path.isabs(name) or ":" in name or ".." in name.replace("\\", "/").split("/"):
            yield CHECK.finding(
                picture.at, f'"{name}" lies outside the folder of the guide',
                mend="Put the file beside the guide, and name it by that.",
            )  # fmt: skip
        elif not name.lower().endswith(SHOWN):
            yield CHECK.finding(
                picture.at, f'"{name}" is no picture that a page shows',
                mend=f"Save it as one of: {', '.join(SHOWN)}.",
            )  # fmt: skip
        elif os.path.isfile(guide.file) and not os.path.isfile(
            os.path.join(os.path.dirname(guide.file), name)
        ):
            yield CHECK.finding(picture.at, f'there is no file "{name}" beside the guide')
        elif first.setdefault(name, picture.alt) != picture.alt:
            yield CHECK.finding(
                picture.at, f'"{name}" is described in two ways',
                mend="One of the two steps names the wrong picture, or one of the texts is wrong.",
            )  # fmt: skip


CHECK = Check(
    "picture-file", Severity.ERROR, "guide",
    why="The page has a hole where something should be seen.",
    mend="Put the file there, or take the line out.",
    find=find,
)  # fmt: skip
