"""The read-back proof of a packet: what ought to be there, worked out from the guide; the table beside the
packet."""

from __future__ import annotations

from collections.abc import Iterable

import msgspec

from builder.findings import Finding
from builder.packet.parts import paper_of
from builder.packet.pictures import Drawn, gauge_drawings, pattern_drawings
from builder.packet.proofs import Proven
from builder.packet.proofs.base import Known
from builder.pages.book import Chapter
from builder.pages.printing import PacketView, ProofTable
from builder.pages.render import render
from builder.pages.stage import stage_view


class Unproved(Exception):
    """A packet that is not what it ought to be: what is off, in people's words. Nothing of it is written."""

    def __init__(self, findings: tuple[Finding, ...]) -> None:
        super().__init__(f"{len(findings)} findings")
        self.findings = findings


def known_of(
    chapter: Chapter,
    drawn: Drawn,
    packet: PacketView,
    part: str,
    name: str,
    marks: tuple[str, ...],
    html: str,
) -> Known:
    """What ought to be in a part that was laid out from `html`. `part` is builder or teacher."""
    teacher = part == "teacher"
    if teacher:
        numbered = list(chapter.preparation)
        plain = [chapter.writer.view(each) for each in numbered]
    else:
        numbered = [each for stage in chapter.stages for each in stage.steps]
        plain = [view for stage in chapter.stages for view in stage_view(chapter, stage).steps]
    route = f", {packet.route}" if packet.route else ""
    return Known(
        name=name,
        part=part,
        paper=packet.paper,
        title=packet.title,
        identity=f"{packet.title}{route}, {packet.revision}",
        marks=marks,
        html=html,
        told=render("print/told.html", steps=plain),
        steps=tuple(
            msgspec.structs.replace(
                view, pictures=(*drawn.of(each.step), *(() if teacher else drawn.table(each.step)))
            )
            for view, each in zip(plain, numbered, strict=True)
        ),
        sheets=tuple(
            drawing
            for drawings in (gauge_drawings, pattern_drawings)
            for drawing in drawings(chapter, paper_of(chapter.plan), prepared=teacher)
        ),
    )


def table_of(packet: str, paper: str, proven: Iterable[Proven]) -> ProofTable:
    """The table of a packet's parts. Errors: Unproved, if anything is off."""
    parts = tuple(proven)
    findings = tuple(finding for part in parts for finding in part.findings)
    if findings:
        raise Unproved(findings)
    measures = tuple(measure for part in parts for measure in part.measures)
    return ProofTable(packet=packet, paper=paper, measures=measures)


def as_json(table: ProofTable) -> bytes:
    """The table as it is written, with a line for each measure."""
    return msgspec.json.format(msgspec.json.encode(table), indent=1) + b"\n"
