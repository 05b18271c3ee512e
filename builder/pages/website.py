"""What a site consists of: pages with their places, and the ways between them."""

from __future__ import annotations

import posixpath
from collections.abc import Sequence

from builder.guide.model import Guide, Route
from builder.pages.contexts import Frame, Link, Stamp, TitleCell, View

SITE_NAME = "Tannerfield Workshop"
HOME, FIND, MANUAL, CHECKS_INDEX = "index.html", "find.html", "manual.html", "checks/index.html"
CODES = "codes.html"


class WebPage(View, frozen=True, kw_only=True):
    """One page: where it lies in the site (`rolled-rocket/index.html`), the template that lays it out,
    and what it shows. `source` is the file that a writer would edit to change it."""

    path: str
    template: str
    frame: Frame
    view: View
    source: str = ""


class WebFile(View, frozen=True, kw_only=True):
    """A file of the site that is no page: where it lies, and its bytes."""

    path: str
    content: bytes


def way(target: str, page: str) -> str:
    """The relative address of `target` (a path in the site, perhaps with a #place) from `page`."""
    path, hash_, place = target.partition("#")
    if path == page and hash_:
        return f"#{place}"
    return posixpath.relpath(path, posixpath.dirname(page) or ".") + hash_ + place


def route_id(route: Route) -> str:
    """The folder of a route's pages: the ids of its options, `build` if there is nothing to choose."""
    return "-".join(route.options.values()).replace("_", "-") or "build"


def route_name(route: Route, guide: Guide) -> str:
    """The route as a reader knows it ("with the jig"); empty if there is nothing to choose."""
    names = (guide.choices[choice].options.get(option, option) for choice, option in route.options.items())
    return ", ".join(names)


def overview_path(guide: Guide) -> str:
    """Where the first page of a guide lies."""
    return f"{guide.id}/index.html"


def report_path(guide: Guide) -> str:
    """Where the check report of a guide lies."""
    return f"{guide.id}/report.html"


def science_path(guide: Guide) -> str:
    """Where the science page of a guide lies."""
    return f"{guide.id}/the-science.html"  # science.md is the writer's own text


def words_path(guide: Guide) -> str:
    """Where the glossary of a guide lies."""
    return f"{guide.id}/words.html"


def route_path(guide: Guide, route: Route, page: str) -> str:
    """Where a page of a route lies: `materials`, `patterns`, `teacher`, `stage-3` ..."""
    return f"{guide.id}/{route_id(route)}/{page}.html"


def sealed_id(name: str, number: int) -> str:
    """The id under which a sealed revision of a guide is published: its folder in the site."""
    return f"{name}/r{number}"


def guide_name(guide: Guide) -> str:
    """The folder of a guide, whichever revision it is."""
    return guide.id.partition("/")[0]


def is_sealed(guide: Guide) -> bool:
    """Whether it is published as a sealed revision."""
    return "/" in guide.id


def history_path(name: str) -> str:
    """Where the history of a guide lies: all its revisions."""
    return f"{name}/revisions.html"


def comparison_path(name: str, old: int, new: int | None) -> str:
    """Where the comparison of two revisions lies; with the working guide if `new` is None."""
    return f"{name}/compare/r{old}-{'draft' if new is None else f'r{new}'}.html"


def lasting_path(name: str, step: str) -> str:
    """The address of a step that does not change with its title, its number or its stage."""
    return f"{name}/step/{step.replace('_', '-')}.html"


def packet_path(guide: Guide, route: Route, paper: str, part: str) -> str:
    """Where a part of a printed packet lies, if there is one: `builder` or `teacher`, on letter or a4."""
    return f"{guide.id}/packet/{guide.id}-{route_id(route)}-{paper}-{part}.pdf"


def revision_of(guide: Guide) -> str:
    """`1 of 2026-11-02`, or the words for none."""
    revision = guide.revision
    if revision is None:
        return "not numbered"
    return f"{revision.number} of {revision.dated}" if revision.dated else revision.number


def plain_frame(
    page: str,
    heading: str,
    crumbs: Sequence[tuple[str, str]] = (),
    cells: tuple[TitleCell, ...] = (),
    *,
    tabs: Sequence[tuple[str, str]] = (),
    stages: Sequence[tuple[str, str, str]] = (),
    previous: tuple[str, str] | None = None,
    following: tuple[str, str] | None = None,
    keep: str = "",
    banner: str = "",
    stamp: Stamp | None = None,
) -> Frame:
    """A page's frame. Ways in are given as (text, path in the site) and come out relative to the page;
    `stages` as (number, name, path)."""

    def link(text: str, path: str, note: str = "") -> Link:
        return Link(text=text, href=way(path, page), current=path == page, note=note)

    def tab(text: str, path: str) -> Link:
        return Link(text=text, href=way(path, page), current=_folder_and_kind(path) == _folder_and_kind(page))

    above = [(SITE_NAME, HOME), *crumbs]
    names = [heading, *(text for text, _ in reversed(above))] if page != HOME else [SITE_NAME]
    return Frame(
        title=" · ".join(dict.fromkeys(names)),
        heading=heading,
        root="../" * page.count("/"),
        site_name=SITE_NAME,
        crumbs=tuple(link(text, path) for text, path in above),
        tabs=tuple(tab(text, path) for text, path in tabs),
        stages=tuple(link(name, path, number) for number, name, path in stages),
        previous=link(*previous) if previous else None,
        next=link(*following) if following else None,
        cells=cells,
        keep=keep,
        find=way(FIND, page),
        banner=banner,
        stamp=stamp,
    )


def _folder_and_kind(page: str) -> str:
    """A page without the number at its name's end: all stages of a route are one tab."""
    return page.removesuffix(".html").rstrip("0123456789")


def guide_tabs(
    guide: Guide, route: Route | None, patterns: bool, history: bool = False
) -> list[tuple[str, str]]:
    """The pages of a guide as its tabs: those of one route, or of the guide above its routes.

    `patterns` says whether the route has a page of patterns, `history` whether revisions are sealed.
    """
    first = [("Overview", overview_path(guide))]
    last = [("The science", science_path(guide))] if guide.prose.get("science") else []
    last.append(("Check report", report_path(guide)))
    if history:
        last.append(("Revisions", history_path(guide_name(guide))))
    if route is None and len(guide.routes) > 1:
        ways_in = [(capital(route_name(r, guide)), route_path(guide, r, "stage-1")) for r in guide.routes]
        return first + ways_in + last
    chosen = route or guide.routes[0]
    pages = [("Materials and tools", "materials"), ("Build", "stage-1"), ("For the teacher", "teacher")]
    if patterns:
        pages.insert(2, ("Patterns", "patterns"))
    return first + [(text, route_path(guide, chosen, page)) for text, page in pages] + last


def capital(text: str) -> str:
    """The text with its first letter large."""
    return text[:1].upper() + text[1:]


def guide_frame(
    guide: Guide,
    page: str,
    heading: str,
    route: Route | None = None,
    *,
    cells: tuple[TitleCell, ...] = (),
    stages: Sequence[tuple[str, str, str]] = (),
    previous: tuple[str, str] | None = None,
    following: tuple[str, str] | None = None,
    banner: str = "",
    patterns: bool = False,
    stamp: Stamp | None = None,
) -> Frame:
    """The frame of a page of a guide: its own tabs, its title block, its revision, what it is worth.

    A guide has a history as soon as it has a stamp."""
    name = route_name(route, guide) if route else ""
    head = [TitleCell(label="Guide", value=guide.title)] if heading != guide.title else []
    head += [TitleCell(label="Route", value=name)] if name else []
    crumbs = [(guide.title, overview_path(guide))]
    if is_sealed(guide):
        number = guide.id.rpartition("/r")[2]
        crumbs = [
            (guide.title, history_path(guide_name(guide))),
            (f"Revision {number}", overview_path(guide)),
        ]
    if route and name:
        crumbs.append((capital(name), route_path(guide, route, "stage-1")))
    number = guide.revision.number if guide.revision else "0"
    revision = revision_of(guide)
    if stamp is not None and stamp.kind == "draft":
        revision += ", not sealed"
    return plain_frame(
        page,
        heading,
        crumbs,
        (*head, *cells, TitleCell(label="Revision", value=revision)),
        tabs=guide_tabs(guide, route, patterns, stamp is not None),
        stages=stages,
        previous=previous,
        following=following,
        keep=f"{guide_name(guide)}:{number}:{route_id(route)}" if route else "",
        banner=banner,
        stamp=stamp,
    )
