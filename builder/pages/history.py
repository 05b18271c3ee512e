"""The history of a guide: all its revisions, the newest first, with what changed and who answers for it."""

from __future__ import annotations

from collections.abc import Sequence

import msgspec

from builder.guide.model import Guide
from builder.pages.comparing import under_way
from builder.pages.contexts import Fact, Link, View
from builder.pages.website import capital, comparison_path, overview_path, report_path, way
from builder.revisions.change import Change, counts
from builder.revisions.manifest import Manifest
from builder.revisions.printers import MEANING


class RevisionView(View, frozen=True, kw_only=True):
    """A revision in the history. `kind` and `word` are those of its stamp; `counts` are (rank, meaning, how
    many), `signatures` who answers for what guards less."""

    anchor: str
    heading: str
    kind: str
    word: str
    facts: tuple[Fact, ...]
    told: str
    counts: tuple[tuple[str, str, int], ...]
    changes: str
    under_way: str
    signatures: tuple[str, ...]
    links: tuple[Link, ...]


class HistoryView(View, frozen=True, kw_only=True):
    """All revisions of a guide."""

    current: Link
    revisions: tuple[RevisionView, ...]
    lookup: Link


class Entry(msgspec.Struct, frozen=True):
    """A revision with the changes that led to it; `manifest` is None for the working guide."""

    manifest: Manifest | None
    changes: tuple[Change, ...]
    guide: Guide


def history(name: str, entries: Sequence[Entry], page: str, lookup: str) -> HistoryView:
    """The view of the history. `entries` are in the order in which they were written."""
    sealed = [each for each in entries if each.manifest is not None]
    last = sealed[-1].manifest
    assert last is not None
    return HistoryView(
        current=Link(text=f"Revision {last.number}", href=way(f"{name}/r{last.number}/index.html", page),
                     note=last.dated),
        revisions=tuple(_revision(name, each, last, page) for each in reversed(entries)),
        lookup=Link(text="Look up a printed page", href=way(lookup, page)),
    )  # fmt: skip


def signatures_of(manifest: Manifest) -> tuple[str, ...]:
    """Who signed for what guards less in a sealed revision, as what, why, and for which content."""
    return tuple(f"{each.name}, {each.role}: {each.reason} (for {each.content})" for each in manifest.signed)


def _what_changed(changes: Sequence[Change]) -> str:
    """`6 changes, 1 of them guards less`."""
    weak = sum(1 for each in changes if each.weakened)
    if not changes:
        return "No change"
    told = f"{len(changes)} change{'s' if len(changes) > 1 else ''}"
    return f"{told}, {weak} of them guard{'s' if weak == 1 else ''} less" if weak else told


def _revision(name: str, entry: Entry, last: Manifest, page: str) -> RevisionView:
    manifest = entry.manifest
    guide = entry.guide
    told = guide.revision
    signatures: tuple[str, ...] = ()
    links = [
        Link(text="Read it", href=way(overview_path(guide), page)),
        Link(text="Check report", href=way(report_path(guide), page)),
    ]
    if manifest is None:
        links.insert(1, Link(text=f"Compare with revision {last.number}",
                             href=way(comparison_path(name, last.number, None), page)))  # fmt: skip
        facts = [
            Fact(label="Date", value=told.dated if told else ""),
            Fact(label="By", value=told.by if told else ""),
        ]
        heading, kind, word = f"Working draft after revision {last.number}", "draft", "Working draft"
        summed = told.summary if told else ""
        anchor = "draft"
    else:
        if manifest.number > 1:
            before = manifest.number - 1
            there = way(comparison_path(name, before, manifest.number), page)
            links.insert(1, Link(text=f"Compare with revision {before}", href=there))
        current = manifest.number == last.number
        heading = f"Revision {manifest.number}"
        kind, word = ("current", "Current") if current else ("superseded", "Superseded")
        facts = [
            Fact(label="Date", value=manifest.dated),
            Fact(label="By", value=manifest.by),
            Fact(label="Sign of its content", value=manifest.content),
        ]
        summed = manifest.summary
        anchor = f"r{manifest.number}"
        signatures = signatures_of(manifest)
    first = manifest is not None and manifest.number == 1
    return RevisionView(
        anchor=anchor,
        heading=heading,
        kind=kind,
        word=word,
        facts=tuple(each for each in facts if each.value),
        told=summed,
        counts=()
        if first
        else tuple(
            (capital(rank.value), MEANING[rank], count) for rank, count in counts(entry.changes).items()
        ),
        changes="" if first else _what_changed(entry.changes),
        under_way="" if first else under_way(entry.changes),
        signatures=signatures,
        links=tuple(links),
    )
