"""Every drawing of the demonstration guides that a page or a packet shows, in both units, each once."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator
from functools import partial
from typing import NamedTuple

from builder.drawings.class_sheets import class_sheets
from builder.drawings.gauges import gauge_sheets
from builder.drawings.of_pattern import origin_of, pattern_sheets
from builder.drawings.of_step import drawing_of
from builder.drawings.shapes import Drawing
from builder.drawings.svg import write
from builder.dryrun.kinds import VERBS
from builder.dryrun.run import run_all
from builder.guide.model import Guide
from builder.guide.reader import read
from builder.packet.pictures import HELD, OPENED
from builder.packet.sizing import PLACES, WAITING
from builder.pages.book import Chapter
from builder.pages.contexts import Picture
from builder.pages.pattern_files import copies, own_patterns
from builder.pages.pictures import Album
from tests.drawings import guides

METRIC, INCH = "{first: mm, second: in, finest: 1 mm}", "{first: in, second: mm, finest: 1/16 in}"

PAGE = "page"
"""A drawing of a page of the site: it fits its column."""

PACKET = "packet"
"""A drawing that a packet prints at its own scale."""

SHEET = "sheet"
"""A drawing at true size."""

_NAMES = re.compile(r' (?:id|aria-labelledby)="[^"]*"')


class Shown(NamedTuple):
    """A drawing by a name, as SVG, how it is shown (PAGE, PACKET or SHEET), and its width, mm."""

    name: str
    svg: str
    how: str
    width: float


class Job(NamedTuple):
    """Drawings that are made at one go; nothing is drawn before `draw` is called."""

    name: str
    how: str
    draw: Callable[[], Iterable[Drawing | Picture | None]]


def in_units(name: str, *, swapped: bool) -> Guide:
    """A demonstration guide as it is written, or with its two units exchanged."""
    source = guides.guide(name)
    if not swapped:
        return source
    texts = dict(source.texts)
    own = METRIC if METRIC in texts[source.file] else INCH
    assert own in texts[source.file]
    texts[source.file] = texts[source.file].replace(own, INCH if own == METRIC else METRIC)
    return read(texts, source.file, VERBS, name)


def jobs(name: str) -> Iterator[Job]:
    """Everything that is drawn of a guide, in both units, route by route."""
    for swapped in (False, True):
        guide = in_units(name, swapped=swapped)
        for run in run_all(guide):
            chapter = Chapter(guide, run)
            title = f"{name}, {'other' if swapped else 'own'} units, {chapter.id}"
            for job in (*_pictures(chapter), *_sheets(chapter)):
                yield job._replace(name=f"{title}: {job.name}")


def shown(some: Iterable[Job]) -> list[Shown]:
    """The drawings of some jobs, each that differs once."""
    found: list[Shown] = []
    seen: set[str] = set()
    for job in some:
        for number, made in enumerate(job.draw(), 1):
            if made is None:
                continue
            svg, width = (
                (str(made.svg), float(made.width)) if isinstance(made, Picture) else (write(made), made.width)
            )
            plain = job.how + _NAMES.sub("", svg)
            if plain not in seen:
                seen.add(plain)
                found.append(Shown(f"{job.name} {number}", svg, job.how, width))
    return found


def _pictures(chapter: Chapter) -> Iterator[Job]:
    """What is drawn at the scale that fits: of the kit, the stages, the steps, the table."""
    album, guide = Album(chapter), chapter.guide
    yield Job("kit", PAGE, lambda: (album.finished(), album.exploded()))
    for stage in chapter.stages:
        told = f"stage {stage.number}"
        yield Job(f"{told} opened", PAGE, partial(album.opened, stage))
        yield Job(f"{told} opened in print", PACKET, partial(album.opened, stage, OPENED))
        yield Job(f"{told} held", PAGE, partial(album.held, stage))
        yield Job(f"{told} held in print", PACKET, partial(album.held, stage, HELD))
    for each in chapter.steps:
        id, frames = each.step.id, chapter.frames[each.step.id]
        if not frames:
            continue
        yield Job(f"step {id}", PAGE, partial(_of_step, chapter, id))
        yield Job(f"table at {id}", PAGE, partial(album.table, each.step))
        for place in (WAITING, *PLACES):
            draw = partial(_to_size, guide, frames, place, chapter.plan.used)
            row = f" in rows of {place.row:.0f} mm" if place.row else ""
            yield Job(f"step {id} for {place.width:.0f} by {place.height:.0f} mm{row}", PACKET, draw)


def _of_step(chapter: Chapter, id: str) -> tuple[Drawing, ...]:
    return (chapter.drawings[id],)


def _to_size(guide: Guide, frames, place, things) -> tuple[Drawing, ...]:  # type: ignore[no-untyped-def]
    return (drawing_of(guide, frames, (place.width, place.height), things, place.row),)


def _sheets(chapter: Chapter) -> Iterator[Job]:
    """What is drawn at true size: patterns and gauges for each paper, copies for a class."""
    guide, run, used = chapter.guide, chapter.run, chapter.plan.used
    for paper in ("", "letter", "a4"):
        on = f" for {paper}" if paper else ""
        yield Job(f"patterns{on}", SHEET, partial(pattern_sheets, guide, (run,), paper=paper, things=used))
        yield Job(f"gauges{on}", SHEET, partial(gauge_sheets, guide, (run,), paper=paper, things=used))
    for pattern in own_patterns(chapter):
        many = copies(chapter, pattern)
        yield Job(
            f"class sheets of {pattern.name}", SHEET, partial(class_sheets, pattern, many, origin_of(guide))
        )
