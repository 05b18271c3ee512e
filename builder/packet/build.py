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
    chapter = Chapter(guide, run, group)
    drawn = Drawn(chapter, folder)
    stem = f"{guide.id}-{route_id(run.route)}-{group.paper}"
    made = []
    for part, template, view in (
        ("builder", "print/builder.html", builder_part(chapter, drawn, site)),
        ("teacher", "print/teacher.html", teacher_part(chapter, drawn, site)),
    ):
        data, marks = to_pdf(render(template, view=view))
        made.append(Sheaf(f"{stem}-{part}.pdf", data, marks))
    return made[0], made[1]


def build_packet(guide: Guide, run: DryRun, group: Class, folder: Path, *, site: str = "",
                 pictures: str = "") -> list[Path]:  # fmt: skip
    """Write the two parts of a route into a folder -> their paths. Both are made before either is written."""
    made = sheaves(guide, run, group, site=site, folder=pictures)
    paths = []
    for sheaf in made:
        write_whole(folder / sheaf.name, sheaf.data)
        paths.append(folder / sheaf.name)
    return paths
