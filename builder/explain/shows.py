"""Where a number shows: the drawings and pages that print something else when it is a little off.

The guide as it is and the guide with the number changed are drawn and set out alike, and compared. What
differs prints the number, or something that is worked out from it.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from itertools import zip_longest

import msgspec

from builder.drawings.of_pattern import patterns_of
from builder.drawings.of_step import drawing_of
from builder.drawings.patterns import Pattern
from builder.drawings.shapes import Text
from builder.dryrun.run import DryRun, Frame
from builder.guide.model import Guide
from builder.pages.book import Book, Chapter
from builder.pages.class_rows import materials_page
from builder.pages.overview import overview
from builder.pages.stage import stage_view
from builder.pages.teacher import teacher_page
from builder.pages.website import overview_path, route_path

_TAG = re.compile(r"<[^>]*>")


class Shown(msgspec.Struct, frozen=True):
    """A drawing (of a step) or a page, and the texts that differ: as they are, as they would be."""

    where: str
    pairs: tuple[tuple[str, str], ...]


def drawings(guide: Guide, runs: Sequence[DryRun], other: Guide, others: Sequence[DryRun],
             steps: Mapping[str, object]) -> list[Shown]:  # fmt: skip
    """The drawings of some steps whose labels differ between two guides; what all routes draw alike is
    told once."""
    found: dict[str, Shown] = {}
    for run, changed in zip(runs, others, strict=False):
        after = _by_step(changed)
        for step, frames in _by_step(run).items():
            if step not in steps or step not in after:
                continue
            labels = ([text.text for text in drawing_of(one, each).texts()]
                      for one, each in ((guide, frames), (other, after[step])))  # fmt: skip
            pairs = differing(*labels)
            if pairs:
                found.setdefault(step, Shown(step, pairs))
    return list(found.values())


def timed(runs: Sequence[DryRun], others: Sequence[DryRun]) -> list[str]:
    """The steps that take longer or shorter, by id."""
    found: dict[str, None] = {}
    for run, changed in zip(runs, others, strict=False):
        after = _by_step(changed)
        for step, frames in _by_step(run).items():
            if [f.seconds for f in frames] != [f.seconds for f in after.get(step, [])]:
                found[step] = None
    return list(found)


def patterns(guide: Guide, runs: Sequence[DryRun], other: Guide, others: Sequence[DryRun]) -> list[Shown]:
    """The patterns that are drawn otherwise, with the words that are printed on them."""
    after = {pattern.id: pattern for pattern in patterns_of(other, others)}
    return [
        Shown(pattern.name, differing(_labels(pattern), _labels(after[pattern.id])))
        for pattern in patterns_of(guide, runs)
        if pattern.id in after and after[pattern.id].shapes != pattern.shapes
    ]


def _labels(pattern: Pattern) -> list[str]:
    return [shape.text for shape in pattern.shapes if isinstance(shape, Text)]


def _by_step(run: DryRun) -> dict[str, list[Frame]]:
    found: dict[str, list[Frame]] = {}
    for frame in run.frames:
        found.setdefault(frame.step.id, []).append(frame)
    return found


def pages(guide: Guide, runs: Sequence[DryRun], other: Guide, others: Sequence[DryRun]) -> list[Shown]:
    """The pages of the site whose words differ between two guides, drawings left aside."""
    before, after = _set_out(guide, runs), _set_out(other, others)
    found = []
    for path, view in before.items():
        pairs = differing(list(_texts(view)), list(_texts(after.get(path))))
        if pairs:
            found.append(Shown(path, pairs))
    return found


def _set_out(guide: Guide, runs: Sequence[DryRun]) -> dict[str, object]:
    """Path in the site -> what the page holds. The packet prints the same."""
    chapters = tuple(Chapter(guide, run) for run in runs)
    out: dict[str, object] = {}
    if chapters:
        path = overview_path(guide)
        out[path] = overview(Book(guide, tuple(runs), (), chapters), path)
    for chapter in chapters:
        for stage in chapter.stages:
            out[stage.page] = stage_view(chapter, stage)
        path = route_path(guide, chapter.route, "materials")
        out[path] = materials_page(chapter, path)
        path = route_path(guide, chapter.route, "teacher")
        out[path] = teacher_page(chapter, path)
    return out


def _texts(view: object) -> Iterator[str]:
    """Every text of a view, without its marks, in its own order."""
    if isinstance(view, str):
        yield " ".join(_TAG.sub("", str(view)).split())
    elif isinstance(view, msgspec.Struct):
        for name in view.__struct_fields__:
            yield from _texts(getattr(view, name))
    elif isinstance(view, Mapping):
        for value in view.values():
            yield from _texts(value)
    elif isinstance(view, tuple | list):
        for value in view:
            yield from _texts(value)


def differing(before: list[str], after: list[str]) -> tuple[tuple[str, str], ...]:
    """The texts with a number in them that differ, each once; aligned from both ends, so that a text more
    or less tells itself and not all that come after it."""
    head = 0
    while head < min(len(before), len(after)) and before[head] == after[head]:
        head += 1
    tail = 0
    while tail < min(len(before), len(after)) - head and before[-1 - tail] == after[-1 - tail]:
        tail += 1
    middle = zip_longest(before[head : len(before) - tail], after[head : len(after) - tail], fillvalue="")
    pairs = dict.fromkeys((a, b) for a, b in middle if a != b and any(c.isdigit() for c in a + b))
    return tuple(pairs)
