"""A guide as the pages read it: its model, the dry runs of its routes, and what was found."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import msgspec

from builder.checks.judge import check
from builder.dryrun.kinds import VERBS
from builder.dryrun.run import DryRun, Frame, run_all
from builder.findings import Finding, Severity, Sources
from builder.guide.model import Guide, Route, Step
from builder.guide.reader import load, read
from builder.pages.numbering import Numbered, NumberedStage, all_steps, preparation, stages
from builder.pages.steps import StepWriter
from builder.pages.telling import Telling
from builder.pages.website import route_id, route_name


class Book(msgspec.Struct, frozen=True):
    """One guide, run on paper. `findings` are in the order in which they are shown."""

    guide: Guide
    runs: tuple[DryRun, ...]
    findings: tuple[Finding, ...]

    @property
    def name(self) -> str:
        """The guide's folder."""
        return self.guide.id

    @property
    def has_error(self) -> bool:
        """Whether the kit cannot be built as written."""
        return any(finding.severity is Severity.ERROR for finding in self.findings)

    @property
    def sources(self) -> Sources:
        """The texts that the findings point into."""
        return Sources(self.guide.texts)

    @property
    def chapters(self) -> tuple[Chapter, ...]:
        """One chapter for each route."""
        return tuple(Chapter(self.guide, run) for run in self.runs)


def open_book(folder: Path, before: Book | None = None) -> Book:
    """Read, run and check the guide of a folder. `before` is given back if its texts are still the same."""
    texts, main, findings = load(folder)
    if before is not None and before.guide.texts == texts and not findings:
        return before
    guide = read(texts, main, VERBS, folder.name, findings)
    runs = run_all(guide)
    return Book(guide, runs, tuple(check(guide, runs)))


class Chapter:
    """One route of a guide: its steps with their numbers, its dry run, its sentences."""

    def __init__(self, guide: Guide, run: DryRun) -> None:
        self.guide = guide
        self.run = run
        self.route: Route = run.route
        self.id = route_id(self.route)
        self.name = route_name(self.route, guide)
        self.stages: tuple[NumberedStage, ...] = stages(guide, self.route)
        self.preparation: tuple[Numbered, ...] = preparation(guide, self.route)
        self.steps: tuple[Numbered, ...] = all_steps(guide, self.route)
        self.frames: dict[str, tuple[Frame, ...]] = {
            each.step.id: tuple(run.of_step(each.step.id)) for each in self.steps
        }
        first = {frame.action.path: frame for frame in reversed(run.frames)}
        self.telling = Telling(guide, first)
        self.writer = StepWriter(guide, self.frames, self.telling)

    def active(self, step: Step) -> Fraction:
        """Seconds of work in a step."""
        frames = self.frames[step.id]
        return frames[-1].after.active - frames[0].before.active if frames else Fraction(0)

    def passed(self, step: Step) -> Fraction:
        """Seconds by the clock from the beginning of a step to its end."""
        return sum((frame.seconds for frame in self.frames[step.id]), Fraction(0))

    def hands_on(self, steps: tuple[Numbered, ...]) -> Fraction:
        """Seconds of work in some steps."""
        return sum((self.active(each.step) for each in steps), Fraction(0))

    def waiting(self, steps: tuple[Numbered, ...]) -> Fraction:
        """Seconds of waiting in some steps, when each wait is as long as its label says."""
        return sum((self.passed(each.step) for each in steps), Fraction(0)) - self.hands_on(steps)

    @property
    def builder_steps(self) -> tuple[Numbered, ...]:
        """The steps without the preparation."""
        return tuple(step for stage in self.stages for step in stage.steps)
