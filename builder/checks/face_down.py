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
from builder.guide.model import Action, Step

FACES = {"top": "under", "under": "top"}


def find(look: Look) -> Iterator[Finding]:
    """One finding for each action on the face that the stage has put down; one for a stage whose every action
    is on that face, since then it is the stage that says it wrong."""
    worked: dict[int, list[tuple[Step, Action, str]]] = {}
    for step in look.guide.every_step():
        item = look.guide.things.get(step.stage.lying.partition(" ")[0])
        for action in step.each_action() if item is not None and _up(step) else ():
            host = action.ref("onto") or (
                action.ref("what") if action.verb.kind in ("glue", "mark") else None
            )
            face = next((f for f in FACES if action.spots(f)), "")
            if item is not None and host is not None and host.id == item.id and face:
                worked.setdefault(id(step.stage), []).append((step, action, face))
    for rows in worked.values():
        wrong = [row for row in rows if row[2] != _up(row[0])]
        for step, action, down in wrong[:1] if len(wrong) == len(rows) else wrong:
            name = look.name(step.stage.lying.partition(" ")[0])
            yield CHECK.finding(
                action.field_place(down),
                f"this works on the {down} face of the {name}, which lies {FACES[down]} face up in the stage "
                f'"{step.stage.name}"',
                also=see(step.stage.at, "the stage says how it lies"),
            )


def _up(step: Step) -> str:
    """The face that lies up in the stage of a step; empty if it does not say so."""
    words = step.stage.lying.split()
    return next((word for word in words if word in FACES), "") if words[-1:] == ["up"] else ""


CHECK = Check(
    "face-down", Severity.WARNING, "guide",
    why="The drawing shows one side and the sentence means the other; nobody says when to turn the work "
        "over.",
    mend="Begin a stage with the work the other way up, or name the other face.",
    find=find, source="pictorial assembly instructions: a turn of the object is shown",
)  # fmt: skip
