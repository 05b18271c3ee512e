"""The marks of printed pages, kept with each sealed revision, and what a page with a mark is worth now."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from fractions import Fraction
from pathlib import Path

import msgspec

from builder.dryrun.run import DryRun
from builder.guide.model import Guide
from builder.packet.blocks import Laid, lay_out
from builder.packet.parts import builder_part, teacher_part
from builder.packet.pictures import Drawn
from builder.pages.book import Chapter
from builder.pages.render import render
from builder.pages.website import route_id
from builder.plan.settings import PAPERS, Class, Spares
from builder.revisions.opening import open_edition
from builder.revisions.standing import Standing, standing
from builder.revisions.vault import FOLDER, numbers

PAGES = "pages.json"
CLASS = 24
"""The teacher's part depends on the class. Its marks are kept for a class of this size, with 10 % spares."""

CURRENT, SUPERSEDED, STOP = "current", "superseded", "stop"


class Page(msgspec.Struct, frozen=True):
    """A printed page: its mark, and the steps on it."""

    mark: str
    steps: tuple[str, ...] = ()


Pages = dict[str, tuple[Page, ...]]
"""The pages of a revision by part: `jig-letter-builder`."""


class Found(msgspec.Struct, frozen=True):
    """What a mark stands for: the newest revision that prints that page, its part and number there, what it
    is worth now, the reasons of that, and `instead` the pages that show its steps now."""

    mark: str
    revision: int
    part: str
    page: int
    worth: str
    reasons: tuple[str, ...] = ()
    instead: str = ""


def laid_parts(
    guide: Guide, run: DryRun, group: Class, pictures: str = "", site: str = ""
) -> dict[str, Laid]:
    """Both parts of a route, laid out, by the name of the part. Errors: LayoutTrouble."""
    chapter = Chapter(guide, run, group)
    drawn = Drawn(chapter, pictures)
    stem = f"{route_id(run.route)}-{group.paper}"
    return {
        f"{stem}-builder": lay_out(render("print/builder.html", view=builder_part(chapter, drawn, site))),
        f"{stem}-teacher": lay_out(render("print/teacher.html", view=teacher_part(chapter, drawn, site))),
    }


def kept_class(paper: str) -> Class:
    """The class for which the marks of a sealed revision are kept."""
    return Class(CLASS, Spares(share=Fraction(1, 10)), paper)


def pages_of(guide: Guide, runs: Iterable[DryRun], pictures: str = "", site: str = "") -> Pages:
    """The pages of every part, on both papers, for a class of the size above. Errors: LayoutTrouble."""
    found: Pages = {}
    ids = {f"step-{step.id.replace('_', '-')}": step.id for step in guide.every_step()}
    for run in runs:
        for paper in PAPERS:
            for name, laid in laid_parts(guide, run, kept_class(paper), pictures, site).items():
                found[name] = tuple(
                    Page(mark, tuple(ids.get(block.step, block.step) for block in laid.on(number)))
                    for number, mark in enumerate(laid.marks, 1)
                )
    return found


def encode(pages: Mapping[str, Sequence[Page]]) -> bytes:
    """The pages as JSON."""
    return msgspec.json.format(msgspec.json.encode(pages), indent=1) + b"\n"


def kept(folder: Path) -> dict[int, Pages]:
    """The pages of every sealed revision of a guide's folder that has kept them, by its number."""
    found = {}
    for number in numbers(folder):
        try:
            found[number] = msgspec.json.decode(
                (folder / FOLDER / str(number) / PAGES).read_bytes(), type=Pages
            )
        except (OSError, ValueError):
            continue
    return found


def table(folder: Path) -> list[Found]:
    """Every mark of every sealed revision, in the order of the letters. Errors: Unknown."""
    revisions = kept(folder)
    if not revisions:
        return []
    last = max(revisions)
    newest = open_edition(folder / FOLDER / str(last))
    found: dict[str, Found] = {}
    for number in sorted(revisions, reverse=True):
        then = None
        if number != last:
            then = standing(open_edition(folder / FOLDER / str(number)), newest)
        for part, pages in revisions[number].items():
            for place, page in enumerate(pages, 1):
                if page.mark not in found:
                    one = Found(page.mark, number, part, place, CURRENT)
                    now = revisions[last].get(part, ())
                    found[page.mark] = one if then is None else _aged(one, pages, then, last, now)
    return sorted(found.values(), key=lambda each: each.mark)


def _aged(found: Found, pages: Sequence[Page], then: Standing, last: int, now: Sequence[Page]) -> Found:
    """What a page of an older revision is worth."""
    page = pages[found.page - 1]
    place = [str(number) for number in in_its_place(found.page, pages, now, then.names)]
    instead = f"page{'s' if len(place) > 1 else ''} {' and '.join(place)} of revision {last}" if place else ""
    stops = then.of(page.steps)
    return msgspec.structs.replace(
        found,
        worth=STOP if stops else SUPERSEDED,
        reasons=tuple(change.line for change in stops),
        instead=instead,
    )


def in_its_place(
    page: int, old: Sequence[Page], new: Sequence[Page], names: Mapping[str, str]
) -> list[int]:
    """The pages of the newer part that show what an older page shows: those with one of its steps. Of a page
    without a step, before the first step or behind the last, the page that stands as far from there."""
    steps = {names.get(step, step) for step in old[page - 1].steps}
    if steps:
        return [number for number, each in enumerate(new, 1) if steps & set(each.steps)]
    (first, last), (first_now, last_now) = _span(old), _span(new)
    if page < first:
        return [page] if page < first_now else []
    number = len(new) - (len(old) - page)
    return [number] if page > last and number > last_now else []


def _span(pages: Sequence[Page]) -> tuple[int, int]:
    """The first and the last page with a step; past the end if there is none."""
    found = [number for number, page in enumerate(pages, 1) if page.steps]
    return (found[0], found[-1]) if found else (len(pages) + 1, len(pages) + 1)


def told(found: Found, title: str) -> list[str]:
    """What a found page is worth, line by line."""
    part = found.part.replace("-", ", ")
    where = f"{title}, revision {found.revision}, {part}, page {found.page}"
    if found.worth == CURRENT:
        return [f"{found.mark}: current. {where}."]
    instead = f"; {found.instead} stands in its place" if found.instead else "; no page stands in its place"
    lines = [f"{found.mark}: {found.worth}. {where}{instead}."]
    return lines + [f"  {reason}" for reason in found.reasons]
