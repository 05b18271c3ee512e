"""Contexts of the packet: what both its parts share, the builder's part, the teacher's part."""

from __future__ import annotations

from markupsafe import Markup

from builder.pages.contexts import (
    NONE,
    CautionGroup,
    Fact,
    MaterialsView,
    Paper,
    PatternsView,
    Picture,
    StageView,
    TeacherView,
    View,
)


class PageMark(View, frozen=True, kw_only=True):
    """The fingerprint of one printed page, known once the page has been laid out."""

    page: int
    mark: str


class PacketView(View, frozen=True, kw_only=True):
    """What both parts of a packet share: the cover, the paper and the footers."""

    title: str
    part: str
    route: str
    revision: str
    paper: Paper
    lang: str = "en"
    facts: tuple[Fact, ...] = ()
    address: str = ""
    qr: Markup = NONE
    cover: Picture | None = None
    authority: tuple[str, ...] = ()
    marks: tuple[PageMark, ...] = ()


class BuilderPacket(View, frozen=True, kw_only=True):
    """The builder's part: cautions summary, steps by stage, patterns at true size."""

    packet: PacketView
    summary: Markup
    cautions: tuple[CautionGroup, ...]
    materials: MaterialsView
    stages: tuple[StageView, ...]
    patterns: PatternsView


class TeacherPacket(View, frozen=True, kw_only=True):
    """The teacher's part: shopping, tools by sharing, preparation, times, help and key."""

    packet: PacketView
    teacher: TeacherView
    materials: MaterialsView
    patterns: PatternsView
