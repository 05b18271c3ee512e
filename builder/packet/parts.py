"""The contexts of a packet's two parts, from a route, its plan and its drawings."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any, TypeVar

import msgspec
from markupsafe import Markup

from builder.guide.model import Guide
from builder.packet.address import address_of, code_of, qr
from builder.packet.pictures import Drawn, Sheets, sheet_pages
from builder.packet.views import TeacherPart
from builder.pages.book import Chapter
from builder.pages.chapter import AUTHORITY, caution_groups, makers, time_facts
from builder.pages.class_rows import class_materials, class_view, uses_of_plan
from builder.pages.contexts import NONE, Fact, Link, Paper, PatternsView, Picture
from builder.pages.kit import materials_view
from builder.pages.overview import audience_facts
from builder.pages.printing import BuilderPacket, PacketView
from builder.pages.stage import stage_view
from builder.pages.teacher import teacher_view
from builder.pages.website import capital, revision_of
from builder.plan.class_plan import ClassPlan

BUILDER, TEACHER = "Builder’s part", "Teacher’s part"
HOW = (
    "Print these pages at actual size (100 %). “Fit to page” makes every part too small.",
    "Lay a ruler along the bars on each sheet before you cut. If a bar is off, print again.",
)
GAUGED = "Lay every piece that you cut on its gauge before you go on."
MARKED = (
    "The letters in the middle of each foot are worked out from what that page shows. A page that changes "
    "gets other letters, so that loose sheets can be told apart."
)

View = TypeVar("View")


def builder_part(chapter: Chapter, drawn: Drawn, site: str = "") -> BuilderPacket:
    """The builder's part of a route."""
    guide, paper = chapter.guide, paper_of(chapter.plan)
    used = uses_of_plan(chapter, chapter.plan)
    facts = (*audience_facts(guide), *time_facts(chapter)[:3])
    packet = _packet(chapter, BUILDER, paper, site, facts, AUTHORITY[:1], drawn.finished())
    sheets = sheet_pages(chapter, paper, prepared=False)
    view = BuilderPacket(
        packet=packet,
        summary=_before(chapter),
        cautions=caution_groups(chapter, ""),
        materials=materials_view(guide, used, "", makers(chapter)),
        stages=tuple(
            msgspec.structs.replace(
                stage_view(chapter, stage, drawn.of, drawn.held, drawn.opened(stage), drawn.table),
                table=drawn.table_before(stage),
            )
            for stage in chapter.stages
        ),
        gauges=sheets.laid,
        gauged=sheets.gauged,
        patterns=PatternsView(how=_how(sheets), sheets=sheets.cut),
    )
    return relinked(view, {each.anchor for each in chapter.builder_steps})


def teacher_part(chapter: Chapter, drawn: Drawn, site: str = "") -> TeacherPart:
    """The teacher's part of a route, counted for the chapter's class."""
    plan = chapter.plan
    group, paper = plan.group, paper_of(plan)
    spares = f"{group.spares.text} spares among them" if group.kits > group.builders else "no spares"
    facts = (
        Fact(label="Builders", value=str(group.builders)),
        Fact(label="Kits", value=str(group.kits), note=spares),
        Fact(label="Marks", value=MARKED),
    )
    sheets = sheet_pages(chapter, paper, prepared=True)
    view = TeacherPart(
        packet=_packet(chapter, TEACHER, paper, site, facts, AUTHORITY),
        teacher=teacher_view(chapter, "", drawn.of),
        materials=class_materials(chapter, plan),
        gauges=sheets.laid,
        gauged=sheets.gauged,
        patterns=PatternsView(how=_how(sheets), sheets=sheets.cut),
        plan=class_view(chapter, plan),
    )
    return relinked(view, {each.anchor for each in chapter.preparation})


def _how(sheets: Sheets) -> tuple[str, ...]:
    return (*HOW, GAUGED) if any(each.id.startswith("gauge") for each in (*sheets.laid, *sheets.cut)) else HOW


def _before(chapter: Chapter) -> Markup:
    """Whose the steps are that a builder's part names and does not have."""
    numbers = [each.number for each in chapter.preparation]
    if not numbers:
        return NONE
    which = f"Steps {numbers[0]} to {numbers[-1]} are" if len(numbers) > 1 else f"Step {numbers[0]} is"
    return Markup(f"{which} done by the teacher before the class.")


def paper_of(plan: ClassPlan) -> Paper:
    """The paper of a class."""
    return "a4" if plan.group.paper == "a4" else "letter"


def revision_text(guide: Guide) -> str:
    """What a footer says of the revision."""
    return f"revision {guide.revision.number}" if guide.revision is not None else "no revision"


def _packet(
    chapter: Chapter,
    part: str,
    paper: Paper,
    site: str,
    facts: Iterable[Fact],
    authority: tuple[str, ...],
    cover: Picture | None = None,
) -> PacketView:
    guide = chapter.guide
    address, code = address_of(guide, chapter.route, site), code_of(guide, chapter.route)
    own = [Fact(label="Revision", value=revision_of(guide))]
    if guide.revision is not None and guide.revision.by:
        own.append(Fact(label="By", value=guide.revision.by))
    if address != code:
        own.append(Fact(label="Code", value=code))
    return PacketView(
        title=guide.title,
        part=part,
        route=capital(chapter.name) if chapter.name else "",
        revision=revision_text(guide),
        paper=paper,
        facts=(*own, *facts),
        address=address,
        qr=qr(address),
        cover=cover,
        authority=authority,
    )


def relinked(view: View, anchors: set[str]) -> View:
    """The same view, its links to steps that stand elsewhere without a way: paper leads nowhere else."""
    made: View = _relinked(view, anchors)
    return made


def gathered(links: tuple[Link, ...]) -> tuple[Link, ...]:
    """Step numbers as a table lists them, three or more in a row as `7 to 9`."""
    found: list[list[Link]] = []
    for link in links:
        follows = found and link.text.isdecimal() and found[-1][-1].text.isdecimal()
        if follows and int(link.text) == int(found[-1][-1].text) + 1:
            found[-1].append(link)
        else:
            found.append([link])
    made: list[Link] = []
    for row in found:
        if len(row) > 2:
            text = f"{row[0].text} to {row[-1].text}"
            made.append(msgspec.structs.replace(row[0], text=text))
        else:
            made += row
    return tuple(made)


def _relinked(value: Any, anchors: set[str]) -> Any:
    if isinstance(value, Link):
        there = value.href.startswith("#") and value.href[1:] in anchors
        return value if there else msgspec.structs.replace(value, href="")
    if isinstance(value, tuple):
        made = tuple(_relinked(each, anchors) for each in value)
        return gathered(made) if made and all(isinstance(each, Link) for each in made) else made
    if isinstance(value, msgspec.Struct):
        fields = {name: getattr(value, name) for name in value.__struct_fields__}
        return type(value)(**{name: _relinked(each, anchors) for name, each in fields.items()})
    return value
