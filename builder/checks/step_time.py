"""The minutes of a step or a stage do not add up.

What: The time of a step holds what its actions are said to take (`takes`, `hold`), and the time of a stage is
the sum of its steps on every route.

Why: The period ends in the middle of the step.

Bad:
    - {id: fins, time: 10 min, actions: [{repeat: fin, actions: [{attach: fin, hold: 3 min}]}]}  # four fins

Good:
    - {id: fins, time: 16 min, actions: [{repeat: fin, actions: [{attach: fin, ..., hold: 3 min}]}]}
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from builder.checks.base import Check, Look, numbers
from builder.findings import Finding, Severity
from builder.guide.model import Action, Repeat, Step


def find(look: Look) -> Iterator[Finding]:
    """One finding for each step whose actions take longer than it, and each stage that is no sum."""
    for step in look.guide.every_step():
        if step.time is None or step.time.base is None:
            continue
        if not any(action.takes is not None or "hold" in action.fields for action in step.each_action()):
            continue
        taken = sum((_fixed(look, entry) for entry in step.actions), Fraction(0))
        if taken > step.time.base:
            facts = numbers(step.time.reads)
            yield CHECK.finding(
                step.time.at,
                f"the actions of this step take {look.time(taken)}, but the step is given "
                f"{look.time(step.time.base)}",
                suspects=facts,
                rests_on={*facts, f"time:{step.id}"},
            )
    for stage in look.guide.stages:
        stated = stage.time.base if stage.time is not None else None
        if stage.time is None or stated is None:
            continue
        for route in look.guide.routes:
            steps = [step for step in route.steps if step.stage is stage]
            found = sum((_minutes(step) for step in steps), Fraction(0))
            if found != stated:
                on = f" ({route.name})" if len(look.guide.routes) > 1 else ""
                yield CHECK.finding(
                    stage.time.at,
                    f'the steps of "{stage.name}" take {look.time(found)} together{on}, '
                    f"not {look.time(stated)}",
                    mend="Correct it, or leave the time of the stage out: the tool adds it up.",
                    suspects=numbers(stage.time.reads),
                )
                break


def _fixed(look: Look, entry: Action | Repeat) -> Fraction:
    if isinstance(entry, Repeat):
        thing = look.guide.things.get(entry.of.id)
        times = len(entry.of.copies) or (thing.count if thing is not None else 1)
        return times * sum((_fixed(look, action) for action in entry.actions), Fraction(0))
    if entry.verb.kind == "wait":
        return Fraction(0)
    own = entry.takes if entry.takes is not None else entry.value("hold")
    return own.base if own is not None and own.base is not None else Fraction(0)


def _minutes(step: Step) -> Fraction:
    found = Fraction(0)
    for value in (step.time, step.set_up):
        if value is not None and value.base is not None:
            found += value.base
    return found


CHECK = Check(
    "step-time", Severity.ERROR, "guide",
    why="The period ends in the middle of the step.",
    mend="Give the step the time that its actions take.",
    find=find, source="published corrections of cookbooks: minutes that do not add up",
)  # fmt: skip
