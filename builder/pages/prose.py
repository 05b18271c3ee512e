"""Prose: a writer's Markdown (overview, notes, science texts) as cleaned HTML.

Markdown lets raw HTML through, so what comes out is cleaned against a short list of tags. A
picture may only be a file beside the guide: a built page never reaches for the network.
"""

from __future__ import annotations

import re
from functools import lru_cache

import markdown
import nh3
from markupsafe import Markup

from builder.pages.spaces import together_in

TAGS = {
    "a", "blockquote", "br", "code", "em", "h2", "h3", "h4", "hr", "img", "kbd", "li", "ol", "p",
    "pre", "strong", "sub", "sup", "table", "tbody", "td", "th", "thead", "tr", "ul",
}  # fmt: skip
ATTRIBUTES = {"a": {"href", "title"}, "img": {"src", "alt"}, "th": {"scope", "align"}, "td": {"align"}}
DROPPED_WHOLE = {"script", "style", "iframe", "object", "svg", "template", "form"}
HEADING = re.compile(r"<h([2-6])[ >]")
HEADING_TAG = re.compile(r"(</?h)([2-6])(?=[ >])")
PARAGRAPH = re.compile(r"<p>(.*)</p>", re.DOTALL)


def _kept(tag: str, attribute: str, value: str) -> str | None:
    """The attribute as it may stand, or None. Pictures are local; links may lead anywhere by https."""
    local = not re.match(r"[a-zA-Z][a-zA-Z0-9+.-]*:|//", value)
    if (tag, attribute) == ("img", "src"):
        return value if local else None
    if (tag, attribute) == ("a", "href"):
        return value if local or value.startswith(("https://", "http://", "mailto:")) else None
    return value


@lru_cache(maxsize=1)
def _converter() -> markdown.Markdown:
    """One converter for all texts: to make one takes longer than most texts."""
    settings = {"toc": {"baselevel": 2, "toc_depth": "2-4", "marker": ""}}
    extensions = ["fenced_code", "tables", "sane_lists", "toc"]
    return markdown.Markdown(extensions=extensions, extension_configs=settings)


@lru_cache(maxsize=4096)
def prose(text: str) -> Markup:
    """Markdown as block HTML. Its headings begin at the second level, under the page's own."""
    html = _converter().reset().convert(text)
    clean = nh3.clean(
        html,
        tags=TAGS,
        clean_content_tags=DROPPED_WHOLE,
        attributes=ATTRIBUTES,
        attribute_filter=_kept,
        link_rel=None,
    )
    return together_in(Markup(clean))


def page_text(text: str) -> Markup:
    """Markdown that fills a page: however deep its headings begin, they are shown from the second level."""
    html = prose(text)
    levels = [int(level) for level in HEADING.findall(html)]
    up = min(levels, default=2) - 2
    return Markup(HEADING_TAG.sub(lambda tag: f"{tag[1]}{int(tag[2]) - up}", html)) if up > 0 else html


def line(text: str) -> Markup:
    """Markdown of one paragraph, without its paragraph: for a note or a table's cell."""
    html = prose(text).strip()
    whole = PARAGRAPH.fullmatch(html)
    return Markup(whole[1]) if whole and "<p>" not in whole[1] else Markup(html)
