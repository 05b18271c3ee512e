"""A guide, its runs and a class -> two tagged PDFs for a route: the builder's part and the teacher's part."""

from __future__ import annotations

from pathlib import Path

import msgspec

from builder.dryrun.run import DryRun
from builder.guide.model import Guide
from builder.packet.files import write_whole
from builder.packet.parts import builder_part, teacher_part
from builder.packet.pdf import to_pdf
from builder.packet.pictures import Drawn
from builder.packet.proofs import prove
from builder.packet.proofs.base import Known
from builder.packet.proving import as_json, known_of, table_of
from builder.pages.book import Chapter
from builder.pages.render import render
from builder.pages.website import route_id
from builder.plan.settings import Class


class Sheaf(msgspec.Struct, frozen=True):
    """One part of a packet: its file's name, its bytes, the mark of each page."""

    name: str
    data: bytes
    marks: tuple[str, ...]


def sheaves(
    guide: Guide, run: DryRun, group: Class, *, site: str = "", folder: str = ""
) -> tuple[Sheaf, Sheaf]:
    """The two parts of a route, as bytes. `site` is the address of the built site, `folder` that of the
    guide's own pictures (a file URL that ends in `/`). Errors: LayoutTrouble."""
    return laid_out(guide, run, group, site=site, folder=folder)[0]


def laid_out(
    guide: Guide, run: DryRun, group: Class, *, site: str = "", folder: str = ""
) -> tuple[tuple[Sheaf, Sheaf], tuple[Known, Known]]:
    """The two parts of a route, and what ought to be in each. Arguments and errors as of `sheaves`."""
    chapter = Chapter(guide, run, group)
    drawn = Drawn(chapter, folder)
    stem = stem_of(guide, run, group)
    made: list[Sheaf] = []
    known: list[Known] = []
    for part, template, view in (
        ("builder", "print/builder.html", builder_part(chapter, drawn, site)),
        ("teacher", "print/teacher.html", teacher_part(chapter, drawn, site)),
    ):
        html = render(template, view=view)
        data, marks = to_pdf(html)
        made.append(Sheaf(f"{stem}-{part}.pdf", data, marks))
        known.append(known_of(chapter, drawn, view.packet, part, made[-1].name, marks, html))
    return (made[0], made[1]), (known[0], known[1])


def stem_of(guide: Guide, run: DryRun, group: Class) -> str:
    """What the names of a packet's files begin with."""
    return f"{guide.id}-{route_id(run.route)}-{group.paper}"


def build_packet(guide: Guide, run: DryRun, group: Class, folder: Path, *, site: str = "",
                 pictures: str = "") -> list[Path]:  # fmt: skip
    """Write the two parts of a route and the table of their proof into a folder -> their paths.

    All are made, and the parts opened again and measured, before any is written. Errors: LayoutTrouble,
    Unproved.
    """
    made, known = laid_out(guide, run, group, site=site, folder=pictures)
    proven = [prove(each, sheaf.data) for each, sheaf in zip(known, made, strict=True)]
    stem = stem_of(guide, run, group)
    table = table_of(stem, group.paper, proven)
    files = [(sheaf.name, sheaf.data) for sheaf in made] + [(f"{stem}-proof.json", as_json(table))]
    for name, data in files:
        write_whole(folder / name, data)
    return [folder / name for name, _ in files]
