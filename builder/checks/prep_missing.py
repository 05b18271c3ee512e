"""What the teacher makes has no preparation.

What: A part or a tool that the teacher makes is made in a preparation stage.

Why: Nobody knows how many to make, nor when.

Bad:
    parts: {ring: {form: ring, made by: teacher, ...}}   # and no stage makes it

Good:
    - {stage: Before the class, who: teacher, per: class}
    - {id: rings, title: Cut the rings, actions: [{cut: ring, from: board, with: cutter}]}
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.checks.base import Check, Look
from builder.findings import Finding, Severity
from builder.guide.model import Stage


def find(look: Look) -> Iterator[Finding]:
    """A part or a tool that the teacher makes is made in a preparation stage."""
    made: dict[str, bool] = {}
    stages: dict[str, Stage] = {}
    for step in look.guide.every_step():
        for action in step.each_action():
            for ref in (*action.refs("makes"), *(action.refs("what") if action.verb.kind == "cut" else ())):
                made[ref.id] = made.get(ref.id, False) or step.stage.per_class
                stages.setdefault(ref.id, step.stage)
    told: list[Stage] = []
    for thing in look.guide.things.values():
        if thing.words.get("made_by") and not made.get(thing.id, False) and not thing.words.get("source"):
            stage = stages.get(thing.id)
            if stage is not None and stage.who == thing.words["made_by"]:
                if stage not in told:  # one word is missing, however much is made there
                    told.append(stage)
                    yield CHECK.finding(
                        stage.at,
                        f'the {stage.who} makes the {thing.name} in the stage "{stage.name}", which is no '
                        "preparation",
                        mend="Write `per: class` in the stage.",
                        suspects={f"preparation:{thing.id}", f"item:{thing.id}"},
                    )
                continue
            yield CHECK.finding(
                thing.place("made_by"),
                f"the {thing.name} is made by the {thing.words['made_by']}, but no "
                "preparation stage makes it",
                suspects={f"preparation:{thing.id}", f"item:{thing.id}"},
            )


CHECK = Check(
    "preparation", Severity.ERROR, "guide",
    why="Nobody knows how many to make, nor when.",
    mend="Add a stage with `who: teacher, per: class` that makes it, or write `source: bought`.",
    find=find, source="common practice",
)  # fmt: skip
