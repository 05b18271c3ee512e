"""What a site consists of: pages with their places, and the ways between them."""

from __future__ import annotations

import posixpath

from builder.pages.contexts import Frame, View

SITE_NAME = "Tannerfield Workshop"


class WebPage(View, frozen=True, kw_only=True):
    """One page: where it lies in the site (`rolled-rocket/index.html`), the template that lays it out,
    and what it shows. `source` is the file that a writer would edit to change it."""

    path: str
    template: str
    frame: Frame
    view: View
    source: str = ""


def way(target: str, page: str) -> str:
    """The relative address of `target` (a path in the site, perhaps with a #place) from `page`."""
    path, hash_, place = target.partition("#")
    if path == page and hash_:
        return f"#{place}"
    return posixpath.relpath(path, posixpath.dirname(page) or ".") + hash_ + place


def root_of(page: str) -> str:
    """What leads from a page to the site's top: "" or "../../"."""
    return "../" * page.count("/")
