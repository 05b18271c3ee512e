"""A guide at one moment: its model, its dry runs, the cautions that stood before its steps, its facts."""

from __future__ import annotations

from collections.abc import Mapping

import msgspec

from builder.checks.usage import cautions_by_step
from builder.dryrun.run import DryRun, run_all
from builder.guide.cautions import hazards_of
from builder.guide.model import Action, Caution, Guide, Step
from builder.guide.wording import Book, sentence, title
from builder.revisions.facts import Facts, facts_of


class Edition(msgspec.Struct, frozen=True):
    """One revision of a guide, sealed or not. `label` says which (`revision 3`, `the working guide`).

    `hazards` are the keys of what each thing can do to a person, those that the trade knows among them;
    `numbers` the number of each step on the first route that leads through it (`P2` for preparation),
    `only` the name of the route for a step that is not on all.
    """

    label: str
    guide: Guide
    runs: tuple[DryRun, ...]
    cautions: Mapping[str, tuple[Caution, ...]]
    hazards: Mapping[str, tuple[str, ...]]
    facts: Facts
    steps: Mapping[str, Step]
    numbers: Mapping[str, str]
    only: Mapping[str, str]
    book: Book

    def title(self, step: str) -> str:
        """The title of a step as it is printed."""
        return title(self.steps[step], self.book).text

    def sentence(self, action: Action) -> str:
        """What a page prints for an action."""
        return sentence(action, self.book).text


def edition(guide: Guide, label: str, cautions: Mapping[str, tuple[Caution, ...]] | None = None,
            hazards: Mapping[str, tuple[str, ...]] | None = None) -> Edition:  # fmt: skip
    """Run a guide on paper and write its facts out. `cautions` and `hazards` are given where they were
    recorded, since the trade's own tables may have changed meanwhile."""
    runs = run_all(guide)
    stood = cautions_by_step(guide) if cautions is None else cautions
    known = (
        {thing.id: hazards_of(thing) or () for thing in guide.things.values()} if hazards is None else hazards
    )
    return Edition(
        label, guide, runs, stood, known, facts_of(guide, stood),
        {step.id: step for step in guide.every_step()}, _numbers(guide), _only(guide), Book(guide),
    )  # fmt: skip


def _only(guide: Guide) -> dict[str, str]:
    found: dict[str, list[str]] = {}
    for route in guide.routes:
        for step in route.steps:
            found.setdefault(step.id, []).append(route.name)
    return {id: " or ".join(names) for id, names in found.items() if len(names) < len(guide.routes)}


def _numbers(guide: Guide) -> dict[str, str]:
    found: dict[str, str] = {}
    for route in guide.routes:
        prepared = built = 0
        for step in route.steps:
            if step.stage.per_class:
                prepared += 1
                found.setdefault(step.id, f"P{prepared}")
            else:
                built += 1
                found.setdefault(step.id, str(built))
    return found
