"""Steps and stages of a route with their printed numbers. Ids last; numbers are worked out each time."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import groupby
from typing import NamedTuple

from builder.guide.model import Guide, Repeat, Route, Stage, Step
from builder.pages.website import route_path
from builder.plan.used import named


class Numbered(NamedTuple):
    """A step with its number on a route: 1, 2 ... for the builder, P1, P2 ... for preparation."""

    step: Step
    number: str
    page: str  # where it stands in the site

    @property
    def anchor(self) -> str:
        """Its lasting name on a page; an id with `_` would clash with nothing, a hyphen reads better."""
        return f"step-{self.step.id.replace('_', '-')}"

    @property
    def path(self) -> str:
        """Page and place of the step."""
        return f"{self.page}#{self.anchor}"


class NumberedStage(NamedTuple):
    """A stage with its number and its steps."""

    stage: Stage
    number: str
    page: str
    steps: tuple[Numbered, ...]


def is_preparation(step: Step) -> bool:
    """Whether the teacher does it for the whole class beforehand."""
    return step.stage.per_class


def preparation(guide: Guide, route: Route) -> tuple[Numbered, ...]:
    """The steps of preparation, which stand on the teacher's page."""
    steps = [step for step in route.steps if is_preparation(step)]
    page = route_path(guide, route, "teacher")
    return tuple(Numbered(step, f"P{number}", page) for number, step in enumerate(steps, 1))


def stages(guide: Guide, route: Route) -> tuple[NumberedStage, ...]:
    """The builder's stages and steps, numbered through."""
    found = []
    number = 0
    steps = (step for step in route.steps if not is_preparation(step))
    for order, (_, group) in enumerate(groupby(steps, key=lambda step: (step.stage.name, step.stage.at)), 1):
        page = route_path(guide, route, f"stage-{order}")
        numbered = []
        for step in group:
            number += 1
            numbered.append(Numbered(step, str(number), page))
        found.append(NumberedStage(numbered[0].step.stage, str(order), page, tuple(numbered)))
    return tuple(found)


def all_steps(guide: Guide, route: Route) -> tuple[Numbered, ...]:
    """Preparation first, then the builder's steps."""
    return preparation(guide, route) + tuple(step for stage in stages(guide, route) for step in stage.steps)


def only_cut(step: Step, guide: Guide) -> frozenset[str]:
    """Ids of the things that a step cuts and does nothing else with: what it makes, and not what it takes."""
    cut: set[str] = set()
    taken: set[str] = set()
    for action in step.each_action():
        own = {ref.id for ref in action.refs("what")} if action.verb.kind == "cut" else set()
        cut |= own
        taken |= {name.split(".")[0] for name in named(action, guide)} - own
    return frozenset(cut - taken)


def names_in(step: Step, guide: Guide) -> Iterator[str]:
    """Ids of the things that a step names, in its order, perhaps more than once."""
    for entry in step.actions:
        if isinstance(entry, Repeat):
            yield entry.of.id
        for action in entry.actions if isinstance(entry, Repeat) else (entry,):
            for name in named(action, guide):
                yield name if name in guide.things else name.split(".")[0]
