"""A stage of a route -> its build page: what it starts from and makes, its steps, what is held at its end."""

from __future__ import annotations

from collections.abc import Callable, Iterable

import msgspec

from builder.guide.model import Step
from builder.pages.bench_words import assemblies, carrier, holds, in_hand
from builder.pages.book import Chapter
from builder.pages.contexts import Picture, StageView, Used
from builder.pages.numbering import NumberedStage, names_in
from builder.pages.waits import lengths, rounded

Pictures = Callable[[Step], tuple[Picture, ...]]
"""The drawings of a step."""

StagePictures = Callable[[NumberedStage], tuple[Picture, ...]]
"""What the builder holds at the end of a stage."""


def no_pictures(step: Step) -> tuple[Picture, ...]:
    """For pages without drawings."""
    return ()


def nothing_held(stage: NumberedStage) -> tuple[Picture, ...]:
    """For pages that do not show what is held."""
    return ()


def stage_view(
    chapter: Chapter,
    stage: NumberedStage,
    pictures: Pictures = no_pictures,
    held: StagePictures = nothing_held,
    opener: tuple[Picture, ...] = (),
    table: Pictures = no_pictures,
) -> StageView:
    """A build page. `opener` shows what goes where in the stage, `table` what lies there round each step."""
    steps = tuple(chapter.writer.view(each, pictures(each.step)) for each in stage.steps)
    steps = tuple(
        msgspec.structs.replace(view, table=table(each.step))
        for view, each in zip(steps, stage.steps, strict=True)
    )
    if steps and (turn := turned(chapter, stage)):
        steps = (msgspec.structs.replace(steps[0], turn=turn), *steps[1:])
    earlier = [each.stage for each in chapter.stages if int(each.number) < int(stage.number)]
    first = chapter.frames[stage.steps[0].step.id]
    last = chapter.frames[stage.steps[-1].step.id]
    guide = chapter.guide
    made = guide.things.get(stage.stage.makes)
    held_words = holds(guide, last[-1].after, [*earlier, stage.stage]) if last else ()
    touched = dict.fromkeys(name for each in stage.steps for name in _parts_named(chapter, each.step))
    return StageView(
        number=stage.number,
        name=stage.stage.name,
        heading=f"Stage {stage.number}: {stage.stage.name}",
        route=chapter.name,
        time=rounded(chapter.hands_on(stage.steps)),
        waits=lengths(chapter.waits_in(stage.steps)),
        makes=f"This stage makes the {made.name}." if made is not None else "",
        opener=opener,
        parts=in_hand(guide, first[0].before, touched, assemblies(guide, earlier)) if first else (),
        materials=_once(each for step in steps for each in step.materials),
        tools=_once(each for step in steps for each in step.tools),
        steps=steps,
        holds=held_words,
        holds_pictures=held(stage),
    )


def _parts_named(chapter: Chapter, step: Step) -> Iterable[str]:
    """Ids of the parts that a step names; for a sub-assembly also the part that it is built on."""
    for name in names_in(step, chapter.guide):
        thing = chapter.guide.things.get(name)
        if thing is not None:
            yield carrier(thing)


def turned(chapter: Chapter, stage: NumberedStage) -> str:
    """How the work lies, where that is another way than in the stage before."""
    number = int(stage.number)
    before = next((each.stage.lying for each in chapter.stages if int(each.number) == number - 1), "")
    lying = stage.stage.lying
    return f"Lay the work like this: {lying}." if lying and lying != before else ""


def _once(items: Iterable[Used]) -> tuple[Used, ...]:
    return tuple({item.name: item for item in items}.values())

