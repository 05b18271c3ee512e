"""Faults planted in copies of a guide, and whether the checks tell them: a table for the reviewer.

What was found is kept in the site as JSON, and the page is laid out from it.
"""

from __future__ import annotations

import msgspec

from builder.guide.model import Guide
from builder.pages.bench_words import listed
from builder.pages.book import Book
from builder.pages.checks import named
from builder.pages.contexts import Link, View
from builder.pages.guide_pages import Around, page_of
from builder.pages.website import WebFile, WebPage, guide_name, way
from builder.planting import KINDS
from builder.planting.report import VERDICTS, as_json
from builder.planting.run import plant


class Told(msgspec.Struct, frozen=True):
    """A leading finding, as the JSON has it."""

    check: str
    place: str
    message: str


class Row(msgspec.Struct, frozen=True):
    """What became of one planted fault, as the JSON has it."""

    kinds: tuple[str, ...]
    at: str
    verdict: str
    findings: tuple[Told, ...]


class Harvested(msgspec.Struct, frozen=True):
    """Everything that was planted in a guide."""

    planted: int
    caught: int
    no_place: tuple[str, ...]
    rows: tuple[Row, ...]


class PlantedRow(View, frozen=True, kw_only=True):
    """A planted fault: what was done, where, which checks told it, and whether as they should."""

    kind: str
    at: str
    checks: tuple[Link, ...]
    verdict: str
    caught: bool


class PlantedView(View, frozen=True, kw_only=True):
    """The table of a guide."""

    summary: str
    rows: tuple[PlantedRow, ...]
    no_place: str
    data: Link


def planted_path(guide: Guide) -> str:
    """Where the table of a guide lies."""
    return f"{guide_name(guide)}/planted.html"


def planted_file(guide: Guide) -> WebFile:
    """Plant one fault of each kind in copies of a guide (seconds, for some hundred dry runs)."""
    return WebFile(
        path=f"{guide_name(guide)}/planted.json", content=f"{as_json([plant(guide, KINDS)])}\n".encode()
    )


def harvested(file: WebFile) -> Harvested:
    """What was planted, from the file."""
    return msgspec.json.decode(file.content, type=tuple[Harvested, ...])[0]


def planted_summary(harvest: Harvested) -> str:
    """What the table comes to, in a sentence."""
    told = "each was told by one leading finding"
    if harvest.caught != harvest.planted:
        told = (
            f"{harvest.caught} were told by one leading finding, {harvest.planted - harvest.caught} were not"
        )
    planted = (
        f"{harvest.planted} faults were planted in copies of this guide, one of each kind that has a place"
    )
    return f"{planted} in it: {told}."


def planted_view(harvest: Harvested, page: str, known: frozenset[str]) -> PlantedView:
    """The table; `known` are the checks that have a page."""
    rows = sorted(harvest.rows, key=lambda each: each.verdict == "caught")  # what was missed comes first
    return PlantedView(
        summary=planted_summary(harvest),
        rows=tuple(
            PlantedRow(
                kind=" and ".join(row.kinds),
                at=row.at,
                checks=tuple(
                    Link(text=check, href=way(f"checks/{check}.html", page) if check in known else "")
                    for check in dict.fromkeys(told.check for told in row.findings)
                ),
                verdict=VERDICTS.get(row.verdict, row.verdict),
                caught=row.verdict == "caught",
            )
            for row in rows
        ),
        no_place=listed(list(harvest.no_place)),
        data=Link(text="planted.json", href="planted.json"),
    )


def planted_page(book: Book, harvest: Harvested, around: Around) -> WebPage:
    """The page of the table."""
    path = planted_path(book.guide)
    view = planted_view(harvest, path, frozenset(name for name, _, _ in named()))
    return page_of(book, path, "planted.html", "Planted faults", view, around)
