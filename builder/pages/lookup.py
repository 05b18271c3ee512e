"""The page on which the letters of a printed page are looked up, without a network."""

from __future__ import annotations

from collections.abc import Sequence

from builder.pages.contexts import Link, View
from builder.pages.website import CODES, WebPage, plain_frame

WORTH = {
    "current": "Current: work from it.",
    "superseded": "Superseded: the page has been changed since. Take the newer one.",
    "stop": "Stop: do not work from this page.",
}


class Code(View, frozen=True, kw_only=True):
    """A printed page: its letters, what it is worth, where it stood, what stands in its place."""

    mark: str
    worth: str
    told: str
    where: str
    instead: str = ""
    reasons: tuple[str, ...] = ()
    link: Link | None = None


class CodesView(View, frozen=True, kw_only=True):
    """Every printed page of every sealed revision, by its letters."""

    codes: tuple[Code, ...]


def lookup_page(codes: Sequence[Code]) -> WebPage:
    """The page."""
    rows = tuple(sorted(codes, key=lambda each: each.mark))
    return WebPage(path=CODES, template="codes.html", frame=plain_frame(CODES, "Look up a printed page"),
                   view=CodesView(codes=rows))  # fmt: skip
