"""A guide as the pages read it: its model, the dry runs of its routes, and what was found."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from functools import cached_property
from pathlib import Path

import msgspec

from builder.checks.judge import check
from builder.drawings.of_pattern import pattern_sheets
from builder.drawings.of_step import drawings_of
from builder.drawings.shapes import Drawing
from builder.dryrun.kinds import VERBS
from builder.dryrun.run import DryRun, Frame, run_all
from builder.findings import Finding, Severity, Sources, in_order
from builder.guide.model import Guide, Route, Step
from builder.guide.reader import load, read
from builder.pages.cautions import Stood
from builder.pages.known import known_places
from builder.pages.numbering import Numbered, NumberedStage, all_steps, preparation, stages
from builder.pages.steps import StepWriter
from builder.pages.telling import Telling
from builder.pages.waits import told_seconds
from builder.pages.website import route_id, route_name
from builder.plan.class_plan import plan_for
from builder.plan.settings import SHOWN, Class
from builder.plan.times import Wait
from builder.revisions.checks import sealed_findings


class Book(msgspec.Struct, frozen=True):
    """One guide, run on paper: what was found, in the order in which it is shown, and its routes."""

    guide: Guide
    runs: tuple[DryRun, ...]
    findings: tuple[Finding, ...]
    chapters: tuple[Chapter, ...]

    @property
    def name(self) -> str:
        """The guide's folder."""
        return self.guide.id

    @property
    def has_error(self) -> bool:
        """Whether the kit cannot be built as written."""
        return bool(self.errors)

    @property
    def errors(self) -> tuple[Finding, ...]:
        """The findings that stop a build; one that the guide accepts never does."""
        return tuple(f for f in self.findings if f.severity is Severity.ERROR and f.accepted is None)

    @property
    def sources(self) -> Sources:
        """The texts that the findings point into."""
        return Sources(self.guide.texts)


def open_book(folder: Path, before: Book | None = None, group: Class = SHOWN) -> Book:
    """Read, run and check the guide of a folder, counted for a class. `before` is given back if its texts are
    still the same."""
    texts, main, findings = load(folder)
    if before is not None and before.guide.texts == texts and not findings:
        return before
    guide = read(texts, main, VERBS, folder.name, findings)
    runs = run_all(guide)
    found = check(guide, runs)
    if more := sealed_findings(guide, folder):
        found = in_order([*found, *more])
    return Book(guide, runs, tuple(found), tuple(Chapter(guide, run, group) for run in runs))


class Chapter:
    """One route of a guide: its steps with their numbers, its dry run, its plan for a class, its sentences.

    `waits` are the waits that last, by the path of their action, and `told` their seconds by the labels.
    `stood` are the cautions that a sealed revision printed, by step.
    """

    def __init__(self, guide: Guide, run: DryRun, group: Class = SHOWN, stood: Stood | None = None) -> None:
        self.guide = guide
        self.stood = stood
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
        self.plan = plan_for(guide, run, group)
        self.waits: dict[str, Wait] = {wait.action: wait for wait in self.plan.times.waits}
        self.told: dict[str, Fraction] = {
            action.path: told_seconds(self.waits[action.path], action, guide)
            for each in self.steps
            for action in each.step.each_action()
            if action.path in self.waits
        }
        self.telling = Telling(guide, known_places(guide, run.frames))
        before = {id: frames[0].before for id, frames in self.frames.items() if frames}
        help = {each.step: each for each in self.plan.times.help}
        self.writer = StepWriter(guide, self.telling, before, help, self.waits, self.told, stood)

    @cached_property
    def drawings(self) -> Mapping[str, Drawing]:
        """The drawing of each step, by its id; drawn when it is first asked for, and kept."""
        return drawings_of(self.guide, self.run)

    @cached_property
    def patterns(self) -> tuple[Drawing, ...]:
        """The pattern sheets of the route, for what letter and A4 paper can both print."""
        return tuple(pattern_sheets(self.guide, (self.run,), things=self.plan.used))

    def active(self, step: Step) -> Fraction:
        """Seconds of work in a step."""
        frames = self.frames[step.id]
        return frames[-1].after.active - frames[0].before.active if frames else Fraction(0)

    def hands_on(self, steps: tuple[Numbered, ...]) -> Fraction:
        """Seconds of work in some steps."""
        return sum((self.active(each.step) for each in steps), Fraction(0))

    def waits_in(self, steps: tuple[Numbered, ...]) -> list[Fraction]:
        """Every wait of some steps, in seconds by the labels."""
        paths = (action.path for each in steps for action in each.step.each_action())
        return [self.told[path] for path in paths if path in self.told]

    @property
    def builder_steps(self) -> tuple[Numbered, ...]:
        """The steps without the preparation."""
        return tuple(step for stage in self.stages for step in stage.steps)
