"""Two editions of a guide -> the page of what changed: ranked sentences, filters, drawings side by side."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping, Sequence

import msgspec
from markupsafe import Markup

from builder.drawings.of_step import drawing_of
from builder.drawings.shapes import Drawing
from builder.pages.book import Book
from builder.pages.contexts import Link, Picture, TitleCell, View
from builder.pages.differing import pair
from builder.pages.render import THEME, render
from builder.pages.website import capital, plain_frame, way
from builder.revisions.change import FIELDS, KINDS, RANKS, Change, Field
from builder.revisions.compare import compare
from builder.revisions.desk import Desk
from builder.revisions.edition import Edition
from builder.revisions.match import matched
from builder.revisions.printers import MEANING, UNDER_WAY, summary

Where = Mapping[str, str]
"""The page and place of each step in the site, by its id."""


class ChangeView(View, frozen=True, kw_only=True):
    """A change as a sentence, with where else it shows. `classes` are the filters that let it through."""

    text: str
    mark: str
    under_way: str
    classes: str
    kind: str
    before: str = ""
    after: str = ""
    places: tuple[Link, ...] = ()
    steps: tuple[Link, ...] = ()


class RankedView(View, frozen=True, kw_only=True):
    """The changes of one rank."""

    rank: str
    heading: str
    meaning: str
    changes: tuple[ChangeView, ...]


class Choice(View, frozen=True, kw_only=True):
    """One way through a filter: how many changes it lets through."""

    id: str
    text: str
    count: int


class FilterView(View, frozen=True, kw_only=True):
    """A filter. Its choices after the first part the list: every change passes exactly one of them."""

    name: str
    legend: str
    choices: tuple[Choice, ...]


class PairView(View, frozen=True, kw_only=True):
    """A step drawn before and after."""

    anchor: str
    heading: str
    before: Picture | None
    after: Picture | None
    note: str = ""


class ComparisonView(View, frozen=True, kw_only=True):
    """The page of a comparison. `weaker` says that changes guard less against harm; `signed` are those who
    answer for it, with their reasons."""

    old: Link
    new: Link
    summary: str
    under_way: str
    ranked: tuple[RankedView, ...]
    filters: tuple[FilterView, ...]
    pairs: tuple[PairView, ...]
    weaker: str = ""
    signed: tuple[str, ...] = ()


def where_steps_are(book: Book) -> dict[str, str]:
    """The page and place of each step of a book, on the first route that leads through it."""
    found: dict[str, str] = {}
    for chapter in book.chapters:
        for numbered in chapter.steps:
            found.setdefault(numbered.step.id, numbered.path)
    return found


class Comparing:
    """Two editions compared. `before` and `after` say where their steps lie in the site, if they do."""

    def __init__(
        self, old: Edition, new: Edition, before: Where | None = None, after: Where | None = None
    ) -> None:
        self.old, self.new = old, new
        self.before, self.after = before or {}, after or {}
        self.changes = compare(old, new)
        self.desk = Desk(old, new, matched(old.facts, new.facts))

    def view(
        self,
        page: str,
        old: Link,
        new: Link,
        changes: Sequence[Change] | None = None,
        signed: Sequence[str] | None = None,
    ) -> ComparisonView:
        """The page that lies at `page`; `changes` are those to show, by default all. `signed` tells who
        signed for what guards less; nobody yet if it is empty, and None where that is not known."""
        shown = self.changes if changes is None else tuple(changes)
        pairs = self._pairs(shown)
        drawn = {each.anchor for each in pairs}
        return ComparisonView(
            old=old,
            new=new,
            summary=capital(summary(shown)) + ".",
            under_way=under_way(shown),
            ranked=tuple(
                RankedView(rank=rank.value, heading=capital(rank.value), meaning=MEANING[rank],
                           changes=tuple(self._change(each, page, drawn) for each in mine))
                for rank in RANKS
                if (mine := [each for each in shown if each.rank is rank])
            ),
            filters=filters(shown),
            pairs=pairs,
            weaker=_weaker(shown, asked=signed is not None and not signed),
            signed=tuple(signed or ()),
        )  # fmt: skip

    def _change(self, change: Change, page: str, drawn: set[str]) -> ChangeView:
        links = []
        if change.step:
            old, new = self._sides(change.step)
            if old in self.before:
                links.append(Link(text=f"in {self.old.label}", href=way(self.before[old], page)))
            if new in self.after:
                links.append(Link(text=f"in {self.new.label}", href=way(self.after[new], page)))
            if _anchor(new) in drawn:
                links.append(Link(text="its drawings", href=f"#{_anchor(new)}"))
        return ChangeView(
            text=change.text,
            mark=change.mark,
            under_way=UNDER_WAY[change.field],
            classes=" ".join(
                (
                    _css("rank", change.rank.value),
                    _css("kind", change.kind.value),
                    _css("field", change.field.name),
                )
            ),
            kind=change.kind.value,
            before=change.before,
            after=change.after,
            places=tuple(Link(text=p.text, href=self._place(p.step, page, drawn)) for p in change.places),
            steps=tuple(links),
        )  # fmt: skip

    def _place(self, step: str, page: str, drawn: set[str]) -> str:
        if not step:
            return ""
        if _anchor(step) in drawn:
            return f"#{_anchor(step)}"
        return way(self.after[step], page) if step in self.after else ""

    def _sides(self, step: str) -> tuple[str, str]:
        """The older and the newer id of a step that a change names by either."""
        if step in self.old.steps:
            return step, self.desk.name("step", step)
        return self.desk.back.get(("step", step), step), step

    def _pairs(self, changes: Iterable[Change]) -> tuple[PairView, ...]:
        """The drawings of the steps that the changes touch, as far as a reader sees a difference."""
        touched: dict[tuple[str, str], None] = {}
        for change in changes:
            for step in (change.step, *(place.step for place in change.places)):
                if step:
                    touched[self._sides(step)] = None
        found = []
        for old, new in touched:
            made = pair(drawn_in(self.old, old), drawn_in(self.new, new), self.old.guide, self.new.guide,
                        _anchor(new))  # fmt: skip
            if made is None:
                continue
            note = "The drawing as a whole is another one; only words are marked." if made.anew else ""
            if made.before is None:
                note = "The step is new."
            elif made.after is None:
                note = "The step is gone."
            heading = self.desk.at(old if old in self.old.steps else new)
            found.append(PairView(anchor=_anchor(new), heading=heading, before=made.before, after=made.after,
                                  note=note))  # fmt: skip
        return tuple(found)


def _weaker(changes: Sequence[Change], *, asked: bool) -> str:
    """`1 change guards less against harm than before.`, and what that asks for; empty if none does."""
    weak = sum(1 for each in changes if each.weakened)
    if not weak:
        return ""
    told = "1 change guards" if weak == 1 else f"{weak} changes guard"
    more = " It is sealed only when somebody has signed for that, with a reason." if asked else ""
    return f"{told} less against harm than before.{more}"


def as_page(changes: Sequence[Change], old: Edition, new: Edition) -> str:
    """A comparison as one file: the page with its style sheet in it, without script and without links that
    lead out of it."""
    heading = f"What changed: {new.label} against {old.label}"
    frame = plain_frame("comparison.html", heading)
    frame = msgspec.structs.replace(frame, title=f"{new.guide.title}: {heading}", crumbs=(), find="", cells=(
        TitleCell(label="Guide", value=new.guide.title),))  # fmt: skip
    view = Comparing(old, new).view(
        "comparison.html",
        Link(text=capital(old.label), href=""),
        Link(text=capital(new.label), href=""),
        changes,
    )
    return render("comparison-file.html", frame=frame, view=view, style=style_sheet())


def style_sheet() -> Markup:
    """The theme's style sheet as it may stand in a page: without the fonts, which lie beside it in a site."""
    text = (THEME / "css" / "kitwright.css").read_text(encoding="utf-8")
    return Markup(re.sub(r"@font-face \{[^}]*\}\n?", "", text))


def drawn_in(edition: Edition, step: str) -> Drawing | None:
    """The drawing of a step on the first route that leads through it; None if it is not there."""
    for run in edition.runs:
        frames = run.of_step(step)
        if frames:
            return drawing_of(edition.guide, frames)
    return None


def under_way(changes: Sequence[Change]) -> str:
    """What a class does that works from the older revision, in a sentence."""
    if not changes:
        return ""
    stops = sum(1 for each in changes if each.field is Field.STOP)
    swaps = sum(1 for each in changes if each.field is Field.SWAP)
    if stops:
        told = "it stops, and is told what changed before it goes on"
        return f"{told}; then it swaps what no longer fits." if swaps else f"{told}."
    return "it swaps what no longer fits." if swaps else "it goes on as it is."


def filters(changes: Sequence[Change]) -> tuple[FilterView, ...]:
    """The three filters, each with the choices that let anything through."""
    ranks = [(rank.value, rank.value) for rank in RANKS]
    fields = [(field.name, field.value) for field in FIELDS]
    kinds = [(kind.value, kind.value) for kind in KINDS]
    return (
        _filter("rank", "What it matters for", changes, ranks, lambda each: each.rank.value),
        _filter("field", "What a class under way does", changes, fields, lambda each: each.field.name),
        _filter("kind", "What is changed", changes, kinds, lambda each: each.kind.value),
    )


def _filter(
    name: str,
    legend: str,
    changes: Sequence[Change],
    known: Sequence[tuple[str, str]],
    own: Callable[[Change], str],
) -> FilterView:
    choices = [Choice(id=f"{name}-all", text="all", count=len(changes))]
    for key, text in known:
        count = sum(1 for each in changes if own(each) == key)
        if count:
            choices.append(Choice(id=_css(name, key), text=text, count=count))
    return FilterView(name=name, legend=legend, choices=tuple(choices))


def _css(name: str, value: str) -> str:
    return f"{name}-{value.lower()}"


def _anchor(step: str) -> str:
    return f"drawn-{step.replace('_', '-')}"
