"""Every drawing of a route with what it is asked for by: steps, stages, the kit, patterns, gauges."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from builder.drawings.class_sheets import single
from builder.drawings.gauges import gauge_sheets
from builder.drawings.of_exploded import exploded, of_stage
from builder.drawings.of_pattern import pattern_sheets, patterns_of
from builder.drawings.of_stage import assembled, held, whole
from builder.drawings.of_step import drawing_of
from builder.drawings.shapes import Drawing
from builder.dryrun.run import DryRun, Frame
from builder.guide.model import Guide, Thing
from builder.guide.wording import title as wording_title


class Entry(NamedTuple):
    """Drawings that are asked for by one name; `title` is what a reader calls them."""

    kind: str
    name: str
    title: str
    drawings: tuple[Drawing, ...]


def step_names(run: DryRun) -> dict[str, list[Frame]]:
    """The frames of each step of a route, by its id, in order."""
    found: dict[str, list[Frame]] = {}
    for frame in run.frames:
        found.setdefault(frame.step.id, []).append(frame)
    return found


def stage_names(run: DryRun) -> dict[str, list[Frame]]:
    """The frames of each stage of a route, by its name, in order."""
    found: dict[str, list[Frame]] = {}
    for frame in run.frames:
        found.setdefault(frame.step.stage.name, []).append(frame)
    return found


def step_entry(guide: Guide, id: str, frames: Sequence[Frame]) -> Entry:
    """The drawing of a step."""
    return Entry("step", id, wording_title(frames[0].step, guide).text, (drawing_of(guide, frames),))


def stage_entry(guide: Guide, name: str, frames: Sequence[Frame]) -> Entry:
    """What goes where in a stage, then what is held at its end."""
    before, bench, stage = frames[0].before, frames[-1].after, frames[0].step.stage
    every = assembled(guide, bench)
    roots = [root for root in every if bench.below(root) != before.below(root)]
    opened = of_stage(guide, before, bench, roots, f"{name}: what goes where", stage.lying)
    ends = held(guide, bench, roots or every, f"{name}: at its end", stage.lying, before)
    return Entry("stage", name, "what goes where, what is held", (*opened, *ends))


def kit_entry(guide: Guide, run: DryRun) -> Entry | None:
    """The finished kit, together and pulled apart; None if the guide does not say what is finished."""
    if guide.finished is None:
        return None
    root = carrier(guide.things[guide.finished.what.id])
    if root not in run.end.items:
        return None
    root = run.end.root(root)
    both = (whole(guide, run.end, root, guide.title), exploded(guide, run.end, root, guide.title))
    return Entry("kit", "kit", guide.title, tuple(d for d in both if d is not None))


def carrier(thing: Thing) -> str:
    """The id of the part that a thing is built on: its own, or that of a sub-assembly's base."""
    base = thing.refs.get("base") if thing.form == "assembly" else None
    return base.id if base is not None else thing.id


def pattern_names(guide: Guide, runs: Sequence[DryRun]) -> dict[str, Drawing]:
    """The lines of each pattern alone, by the id of each thing that is cut along it."""
    return {id: single(p) for p in patterns_of(guide, runs) for id in p.id.split(", ")}


def everything(guide: Guide, run: DryRun) -> Iterator[Entry]:
    """Every drawing of a route, in the order in which a builder meets them."""
    kit = kit_entry(guide, run)
    if kit is not None:
        yield kit
    steps, stages = step_names(run), stage_names(run)
    done = ""
    for id, frames in steps.items():
        stage = frames[0].step.stage.name
        if stage != done:
            yield stage_entry(guide, stage, stages[stage])
            done = stage
        yield step_entry(guide, id, frames)
    used = {item.thing for frame in run.frames for item in frame.after.items.values()}
    yield Entry("patterns", "patterns", "Patterns", tuple(pattern_sheets(guide, (run,), things=used)))
    yield Entry("gauges", "gauges", "Gauges", tuple(gauge_sheets(guide, (run,))))
