"""A guide in the site with all its revisions: the working guide, what is sealed, what leads between them."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from functools import cached_property
from pathlib import Path

from msgspec.structs import replace

from builder.pages.book import Book
from builder.pages.comparing import Comparing, where_steps_are
from builder.pages.contexts import Link
from builder.pages.guide_pages import Around, guide_pages
from builder.pages.history import Entry, history, signatures_of
from builder.pages.lasting import Shown, lasting_pages
from builder.pages.patterns import pattern_files
from builder.pages.planted import harvested, planted_file, planted_page, planted_summary
from builder.pages.sealed_pages import Kept, laid_out, open_kept, ready, sealed_files
from builder.pages.stamps import Stamps, dated
from builder.pages.store import Store, key_of
from builder.pages.website import CODES, WebFile, WebPage, comparison_path, history_path, plain_frame, way
from builder.plan.settings import SHOWN, Class
from builder.revisions.change import Change
from builder.revisions.edition import Edition, edition
from builder.revisions.manifest import digest
from builder.revisions.seal import own_files
from builder.revisions.standing import standing
from builder.revisions.vault import Sealed, sealed_revisions

DRAFT = "the working draft"


class Shelf:
    """One guide with its revisions. `book` is the working guide as it stands, `shown` the book that its pages
    show: None if it has an error and was never good. `known` are sealed revisions that were read before, by
    their seals: they never change. `group` is the class that all is counted for."""

    def __init__(
        self,
        folder: Path,
        book: Book,
        shown: Book | None,
        known: dict[str, Kept] | None = None,
        group: Class = SHOWN,
    ) -> None:
        self.group = group
        self.folder, self.book, self.shown = folder, book, shown
        self.name = book.name
        self.known = {} if known is None else known
        self.sealed: list[Sealed] = sealed_revisions(folder)

    @property
    def last(self) -> Sealed | None:
        """The newest sealed revision: the current one."""
        return self.sealed[-1] if self.sealed else None

    @property
    def same(self) -> bool:
        """Whether the working guide still is the newest revision; a check holds the number to that."""
        revision = (self.shown or self.book).guide.revision
        return self.last is not None and revision is not None and revision.number == str(self.last.number)

    @cached_property
    def kept(self) -> dict[int, Kept]:
        """The sealed revisions, read. Errors: Unknown, if one was touched."""
        for each in self.sealed:
            if each.manifest.seal not in self.known:
                self.known[each.manifest.seal] = open_kept(each, self.group)
        return {each.number: self.known[each.manifest.seal] for each in self.sealed}

    @cached_property
    def working(self) -> Edition:
        """The working guide as an edition."""
        assert self.shown is not None
        return edition(self.shown.guide, DRAFT)

    @property
    def current(self) -> Book | None:
        """The book that a class builds from: the newest sealed one, else the working guide."""
        return self.kept[self.last.number].book if self.last is not None else self.shown

    # -- pages -------------------------------------------------------------------------------------

    def pages(self, packets: Collection[str], store: Store, planting: bool = False) -> list[WebPage]:
        """The pages of the working guide; taken over ready where nothing that they show has changed.
        `planting` has faults planted, for the reviewer."""
        last = self.last.manifest if self.last is not None else None
        texts = [sorted(each.guide.texts.items()) for each in (self.book, self.shown) if each is not None]
        own = [path.relative_to(self.folder) for path in own_files(self.folder)]
        own_packets = sorted(each for each in packets if each.startswith(f"{self.name}/"))
        printed = [(each, _sum_of(packets, each)) for each in own_packets]
        parts = ("working", self.name, texts, own, last.seal if last else "", self.same, printed, planting,
                 self.group.sign)  # fmt: skip

        def made() -> Iterable[WebFile]:
            around = Around(Stamps(self.name, last, same=self.same), packets=packets)
            more: list[WebPage] = []
            if planting and self.shown is self.book:
                harvest = harvested(self._planted(store))
                around = replace(around, planted=planted_summary(harvest))
                more = [planted_page(self.book, harvest, around)]
            return laid_out([*guide_pages(self.book, self.shown, around), *more])

        return [ready(file) for file in store.files(key_of(*parts), made)]

    def _planted(self, store: Store) -> WebFile:
        key = key_of("planted", self.name, sorted(self.book.guide.texts.items()))
        return store.files(key, lambda: [planted_file(self.book.guide)])[0]

    def files(self, store: Store, planting: bool = False) -> list[WebFile]:
        """Everything that is laid out ready: sealed revisions, comparisons, the history, the steps' lasting
        addresses; and the pattern files of the working guide, and what was planted in it."""
        found: list[WebFile] = []
        if self.shown is not None:
            key = key_of("patterns", self.name, sorted(self.shown.guide.texts.items()))
            found += store.files(key, self._patterns)
        if planting and self.shown is self.book:
            found.append(self._planted(store))
        for each in self.sealed:
            found += self._sealed(each, store)
        found += self._comparisons(store)
        if self.sealed:
            found += laid_out([self._history()])
        if self.shown is not None or self.sealed:
            found += laid_out(lasting_pages(self.name, self._editions()))
        return found

    def _patterns(self) -> Iterable[WebFile]:
        assert self.shown is not None
        return [file for each in self.shown.chapters if each.patterns for file in pattern_files(each)]

    def _sealed(self, each: Sealed, store: Store) -> tuple[WebFile, ...]:
        assert self.last is not None
        newest = self.last
        key = key_of("sealed", self.name, each.manifest.seal, newest.manifest.seal, self.group.sign)
        return store.files(key, lambda: sealed_files(self.kept[each.number], self.kept[newest.number]))

    def _comparisons(self, store: Store) -> Iterable[WebFile]:
        for older, newer in zip(self.sealed, self.sealed[1:], strict=False):
            key = key_of("compare", self.name, older.manifest.seal, newer.manifest.seal)
            yield from store.files(key, lambda o=older, n=newer: self._compared(o, n))  # type: ignore[misc]
        if self._has_draft:
            assert self.last is not None and self.shown is not None
            key = key_of("draft", self.name, self.last.manifest.seal, sorted(self.shown.guide.texts.items()))
            yield from store.files(key, lambda: self._compared(self.sealed[-1], None))

    @property
    def _has_draft(self) -> bool:
        return self.last is not None and self.shown is not None and not self.same

    def _compared(self, older: Sealed, newer: Sealed | None) -> tuple[WebFile, ...]:
        comparing = self.comparing(older.number, newer.number if newer else None)
        path = comparison_path(self.name, older.number, newer.number if newer else None)

        def edition_link(each: Sealed) -> Link:
            there = way(f"{self.name}/r{each.number}/index.html", path)
            return Link(text=f"Revision {each.number} of {each.manifest.dated}", href=there)

        new = Link(text="The working draft", href=way(f"{self.name}/index.html", path), note="not sealed")
        told = DRAFT
        if newer is not None:
            new, told = edition_link(newer), f"revision {newer.number}"
        heading = f"What changed: {told} against revision {older.number}"
        title = self.kept[older.number].book.guide.title
        frame = plain_frame(path, heading, [(title, history_path(self.name))])
        signed = signatures_of(newer.manifest) if newer is not None else ()
        view = comparing.view(path, edition_link(older), new, signed=signed)
        return laid_out([WebPage(path=path, template="comparison.html", frame=frame, view=view)])

    def comparing(self, older: int, newer: int | None) -> Comparing:
        """Two neighbours compared; the working guide if `newer` is None."""
        known = self._compared_before
        if (older, newer) not in known:
            old = self.kept[older]
            if newer is not None:
                new, book = self.kept[newer].edition, self.kept[newer].book
            else:
                assert self.shown is not None
                new, book = self.working, self.shown
            known[older, newer] = Comparing(
                old.edition, new, where_steps_are(old.book), where_steps_are(book)
            )
        return known[older, newer]

    @cached_property
    def _compared_before(self) -> dict[tuple[int, int | None], Comparing]:
        return {}

    def _history(self) -> WebPage:
        entries: list[Entry] = []
        for number, each in enumerate(self.sealed):
            changes: tuple[Change, ...] = ()
            if number:
                changes = self.comparing(self.sealed[number - 1].number, each.number).changes
            entries.append(Entry(each.manifest, changes, self.kept[each.number].book.guide))
        if self._has_draft:
            assert self.shown is not None and self.last is not None
            entries.append(Entry(None, self.comparing(self.last.number, None).changes, self.shown.guide))
        path = history_path(self.name)
        book = self.current
        assert book is not None
        frame = plain_frame(
            path, f"{book.guide.title}: all revisions", [(book.guide.title, f"{book.name}/index.html")]
        )
        view = history(self.name, entries, path, CODES)
        return WebPage(path=path, template="history.html", frame=frame, view=view)

    def _editions(self) -> list[Shown]:
        """The editions in the order in which a reader looks for a step: the current one first."""
        found = []
        newest = self.kept[self.last.number] if self.last is not None else None
        for each in reversed(self.sealed):
            names: dict[str, str] = {}
            if newest is not None and each.number != newest.sealed.number:
                names = dict(standing(self.kept[each.number].edition, newest.edition).names)
            mark = ", the current one" if each is self.last else ""
            found.append(Shown(f"{dated(each.manifest)}{mark}", self.kept[each.number].book, names))
        if self.shown is not None and (self._has_draft or not found):
            found.insert(1, Shown(DRAFT if self.sealed else "the guide", self.shown, {}))
        return found


def _sum_of(packets: Collection[str], path: str) -> str:
    """The SHA-256 of a printed file, if its bytes are at hand: the report shows what was measured in it."""
    return digest(packets[path]) if isinstance(packets, Mapping) else ""
