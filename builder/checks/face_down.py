"""A step works on the face that lies down.

What: Where a stage says how the work lies (`lying: deck top up`), its steps glue, mark and place on the face
that is up.

Why: The drawing shows one side and the sentence means the other; nobody says when to turn the work over.

Bad:
    - {stage: Rig, lying: deck top up}
    - {id: line, title: Draw a line, actions: [{mark: line, onto: deck, under: 80 mm from front}]}

Good:
    - {stage: Running gear, lying: deck under face up}
    - {id: line, title: Draw a line, actions: [{mark: line, onto: deck, under: 80 mm from front}]}
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.checks.base import Check, Look, see
from builder.findings import Finding, Severity

FACES = {"top": "under", "under": "top"}


def find(look: Look) -> Iterator[Finding]:
    """One finding for each action on the face that the stage has put down."""
    for step in look.guide.every_step():
        words = step.stage.lying.split()
        if len(words) < 3 or words[-1] != "up":
            continue
        up = next((word for word in words if word in FACES), "")
        item = look.guide.things.get(words[0])
        if not up or item is None:
            continue
        for action in step.each_action():
            down = FACES[up]
            host = action.ref("onto") or (
                action.ref("what") if action.verb.kind in ("glue", "mark") else None
            )
            if host is None or host.id != item.id or not action.spots(down):
                continue
            yield CHECK.finding(
                action.field_place(down),
                f"this works on the {down} face of the {item.name}, which lies {up} face up in the stage "
                f'"{step.stage.name}"',
                also=see(step.stage.at, "the stage says how it lies"),
            )


CHECK = Check(
    "face-down", Severity.WARNING, "guide",
    why="The drawing shows one side and the sentence means the other; nobody says when to turn the work "
        "over.",
    mend="Begin a stage with the work the other way up, or name the other face.",
    find=find, source="pictorial assembly instructions: a turn of the object is shown",
)  # fmt: skip
