"""What the pages of a guide say of their own worth: the current revision, a superseded one, a draft.

Everything is in the page itself: no script decides which revision is current.
"""

from __future__ import annotations

from collections.abc import Sequence

import msgspec
from markupsafe import Markup

from builder.pages.book import Chapter
from builder.pages.contexts import Link, Stamp, StepView
from builder.pages.onward import Onward
from builder.pages.website import comparison_path, history_path, lasting_path, overview_path, way
from builder.revisions.manifest import Manifest

CURRENT, SUPERSEDED, DRAFT = "current", "superseded", "draft"
Way = tuple[str, str]
"""A text and a path in the site."""


def dated(manifest: Manifest) -> str:
    """`revision 2 of 2026-10-05`."""
    return f"revision {manifest.number} of {manifest.dated}"


def _whole(manifest: Manifest) -> Markup:
    """The same, with a date that no line breaks."""
    return Markup('revision {} of <span class="whole">{}</span>').format(manifest.number, manifest.dated)


class Stamps:
    """The stamps of one guide in one edition. `last` is the manifest of its newest sealed revision, None if
    nothing is sealed; `own` that of this edition, None for the working guide. `onward` leads from an older
    revision to the newest; `same` says that the working guide is the newest revision word for word."""

    def __init__(self, name: str, last: Manifest | None = None, own: Manifest | None = None, *,
                 onward: Onward | None = None, same: bool = False) -> None:  # fmt: skip
        self.name, self.last, self.own, self.onward, self.same = name, last, own, onward, same

    def stamp(self, page: str, there: Way | None = None) -> Stamp | None:
        """The stamp at the top of a page. `there` is the same page in the newest revision."""
        last, own = self.last, self.own
        if last is None:
            return None
        every = Link(text="All revisions", href=way(history_path(self.name), page))
        if own is None:
            return self._working(last, page, every)
        if own.number == last.number:
            text = Markup("This is {}, the one to build from.").format(_whole(own))
            return Stamp(kind=CURRENT, word="Current", text=text, links=(every,))
        stops = self.onward.stands.stops.get("", ()) if self.onward is not None else ()
        there = there or (f"The overview of revision {last.number}", f"{self.name}/r{last.number}/index.html")
        links = [Link(text=there[0], href=way(there[1], page))]
        if own.number == last.number - 1:
            changes = comparison_path(self.name, own.number, last.number)
            links.append(Link(text="What changed", href=way(changes, page)))
        return Stamp(
            kind=SUPERSEDED,
            word="Superseded",
            text=Markup("This is {}. Build from {}, which has taken its place.").format(
                _whole(own), _whole(last)
            ),
            links=(*links, every),
            reasons=tuple(change.line for change in stops),
        )

    def _working(self, last: Manifest, page: str, every: Link) -> Stamp:
        number = last.number
        sealed = Link(text=f"Revision {number}", href=way(f"{self.name}/r{number}/index.html", page))
        if self.same:
            told = "This is the working guide, as it was sealed: {}, the one to build from."
            text = Markup(told).format(_whole(last))
            return Stamp(kind=CURRENT, word="Current", text=text, links=(sealed, every))
        changes = Link(text="What changed", href=way(comparison_path(self.name, number, None), page))
        told = "after revision {}. It is not sealed and may still change; build from {}."
        text = Markup(told).format(number, _whole(last))
        return Stamp(kind=DRAFT, word="Working draft", text=text, links=(sealed, changes, every))

    def steps(self, chapter: Chapter, views: Sequence[StepView], page: str) -> tuple[StepView, ...]:
        """The steps with their lasting addresses and, in an older revision, with where they are now."""
        steps = {each.step.id: each.step for each in chapter.steps}
        return tuple(
            msgspec.structs.replace(
                view,
                lasting=way(lasting_path(self.name, view.id), page),
                now=self.onward.now(chapter, steps[view.id], page) if self.onward is not None else None,
            )
            for view in views
        )

    def same_page(self, page: str, known: frozenset[str]) -> Way | None:
        """The page of the newest revision at the same place, if it is among those that are known."""
        if self.onward is None:
            return None
        old, new = (
            overview_path(each.guide).removesuffix("index.html")
            for each in (self.onward.old, self.onward.new)
        )
        path = new + page.removeprefix(old)
        return (f"This page in revision {self.onward.number}", path) if path in known else None
