"""The pages of a sealed revision, built from its sealed sources and laid out ready: they never change, as
long as the tool and the newest revision are the same."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path
from typing import Any

import msgspec
from markupsafe import Markup

from builder.dryrun.kinds import VERBS
from builder.dryrun.run import run_all
from builder.findings import Severity
from builder.guide.reader import load, read
from builder.pages.book import Book, Chapter
from builder.pages.checks import named
from builder.pages.contexts import Fact
from builder.pages.guide_pages import Around, content_pages, has_patterns
from builder.pages.onward import Onward
from builder.pages.patterns import pattern_files
from builder.pages.reference import FindingView, ProseView, ReportView
from builder.pages.render import render
from builder.pages.report import UNCOVERED, WORD, check_path, judged, sentence
from builder.pages.stamps import Stamps, dated
from builder.pages.website import (
    WebFile,
    WebPage,
    guide_frame,
    plain_frame,
    report_path,
    sealed_id,
    way,
    words_path,
)
from builder.plan.settings import SHOWN, Class
from builder.revisions.edition import Edition
from builder.revisions.locate import within
from builder.revisions.opening import open_edition
from builder.revisions.seal import REPORT, own_files
from builder.revisions.standing import standing
from builder.revisions.vault import Sealed

SOURCES = (".yml", ".yaml", ".md")
"""What a revision is made of; everything else in its folder is a picture that its pages show."""


class Kept(msgspec.Struct, frozen=True):
    """A sealed revision, read: its book under its own address, and the same as an edition."""

    sealed: Sealed
    book: Book
    edition: Edition

    @property
    def folder(self) -> Path:
        """Where its sealed guide stands."""
        inner = within(self.sealed.folder)
        assert inner is not None
        return inner


def open_kept(sealed: Sealed, group: Class = SHOWN) -> Kept:
    """Read a sealed revision, with the cautions that stood then, counted for a class. Errors: Unknown, if it
    was touched."""
    edition = open_edition(sealed.folder)
    inner = within(sealed.folder)
    assert inner is not None
    texts, main, findings = load(inner)
    guide = read(texts, main, VERBS, sealed_id(sealed.manifest.guide, sealed.number), findings)
    runs = run_all(guide)
    stood = edition.cautions
    return Kept(
        sealed, Book(guide, runs, (), tuple(Chapter(guide, run, group, stood) for run in runs)), edition
    )


def sealed_files(kept: Kept, newest: Kept) -> tuple[WebFile, ...]:
    """Everything of a sealed revision in the site: its pages, its pattern files, its pictures."""
    name, last = kept.sealed.manifest.guide, newest.sealed.manifest
    onward = None
    known: frozenset[str] = frozenset()
    if kept.sealed.number != newest.sealed.number:
        onward = Onward(kept.book, newest.book, last.number, standing(kept.edition, newest.edition))
        known = _places(newest)
    around = Around(Stamps(name, last, kept.sealed.manifest, onward=onward), newest=known)
    pages = [*content_pages(kept.book, around), _report_page(kept, around)]
    sheets = [file for chapter in kept.book.chapters if chapter.patterns for file in pattern_files(chapter)]
    pictures = [
        WebFile(
            path=f"{kept.book.name}/{path.relative_to(kept.folder).as_posix()}", content=path.read_bytes()
        )
        for path in own_files(kept.folder)
        if path.suffix not in SOURCES
    ]
    return (*laid_out(pages), *sheets, *pictures)


def laid_out(pages: Iterable[WebPage]) -> tuple[WebFile, ...]:
    """Pages as files, laid out by their templates."""
    return tuple(
        WebFile(path=page.path, content=render(page.template, frame=page.frame, view=page.view).encode())
        for page in pages
    )


def ready(file: WebFile) -> WebPage:
    """A page that is laid out, as the site's generator takes it."""
    html = Markup(file.content.decode())
    return WebPage(
        path=file.path, template="ready.html", frame=plain_frame(file.path, ""), view=ProseView(html=html)
    )


def _places(kept: Kept) -> frozenset[str]:
    """Where the pages of a revision lie that every revision may have."""
    guide = kept.book.guide
    found = [f"{guide.id}/index.html", report_path(guide), words_path(guide)]
    if guide.prose.get("science"):
        found.append(f"{guide.id}/the-science.html")
    for chapter in kept.book.chapters:
        kinds = ["materials", "teacher", *(["patterns"] if chapter.patterns else [])]
        found += [f"{guide.id}/{chapter.id}/{kind}.html" for kind in kinds]
    return frozenset(found)


def _report_page(kept: Kept, around: Around) -> WebPage:
    """The check report that was sealed with the revision: what was found on that day."""
    guide = kept.book.guide
    path = report_path(guide)
    stamp = around.stamps.stamp(path, around.stamps.same_page(path, around.newest))
    frame = guide_frame(guide, path, "Check report", patterns=has_patterns(kept.book), stamp=stamp)
    found = _findings(kept, path)
    standing_now = [each for each in found if not each.accepted]
    told = "found nothing wrong" if not standing_now else f"found {len(standing_now)} that did not stop it"
    manifest = kept.sealed.manifest
    view = ReportView(
        verdict=f"When {dated(manifest)} was sealed, the dry run and the checks {told}.",
        findings=tuple(standing_now),
        accepted=tuple(each for each in found if each.accepted),
        judged=judged(guide),
        checked=(),
        ran=(
            Fact(label="Routes run", value=str(len(kept.book.runs))),
            Fact(label="Files sealed", value=str(len(manifest.files)), note="each by its SHA-256"),
            Fact(label="Sign of its content", value=manifest.content),
            Fact(label="Sign of what guards against harm", value=manifest.safety),
        ),
        uncovered=UNCOVERED,
    )
    return WebPage(path=path, template="report.html", frame=frame, view=view)


def _findings(kept: Kept, page: str) -> list[FindingView]:
    try:
        told: list[dict[str, Any]] = msgspec.json.decode((kept.sealed.folder / REPORT).read_bytes())
    except (OSError, ValueError):
        return []
    known = {name for name, _, _ in named()}
    return [
        FindingView(
            severity=each["severity"],
            severity_word=WORD[Severity(each["severity"])],
            check=each["check"],
            check_href=way(check_path(each["check"]), page) if each["check"] in known else "",
            place=f"{each['file']}:{each['line']}:{each['column']}",
            message=sentence(each["message"]),
            reason=each["why"],
            mend=each["mend"],
            accepted=each["accepted"] or "",
        )
        for each in told
    ]
