"""Contexts of the packet: what both its parts share, the builder's part, the teacher's part."""

from __future__ import annotations

from collections.abc import Collection, Mapping

import msgspec
from markupsafe import Markup

from builder.pages.contexts import (
    NONE,
    CautionGroup,
    Fact,
    MaterialsView,
    Paper,
    PatternSheet,
    PatternsView,
    Picture,
    StageView,
    TeacherView,
    View,
)


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


class BuilderPacket(View, frozen=True, kw_only=True):
    """The builder's part: cautions summary, steps by stage, gauges and patterns at true size. What is cut
    stands among the patterns. `gauged` has the ids of the sheets with the gauges of a step, by its anchor."""

    packet: PacketView
    summary: Markup
    cautions: tuple[CautionGroup, ...]
    materials: MaterialsView
    stages: tuple[StageView, ...]
    gauges: tuple[PatternSheet, ...] = ()
    gauged: Mapping[str, tuple[str, ...]] = {}
    patterns: PatternsView


class TeacherPacket(View, frozen=True, kw_only=True):
    """The teacher's part: shopping, tools by sharing, preparation, times, help and key, gauges, patterns."""

    packet: PacketView
    teacher: TeacherView
    materials: MaterialsView
    gauges: tuple[PatternSheet, ...] = ()
    gauged: Mapping[str, tuple[str, ...]] = {}
    patterns: PatternsView


class Measure(View, frozen=True, kw_only=True):
    """One measure of the read-back proof: in which part, what, what it ought to be, what was found."""

    proof: str
    part: str
    what: str
    wanted: str
    found: str
    holds: bool


class ProofTable(View, frozen=True, kw_only=True):
    """The proof of a printed packet, as it is written beside it."""

    packet: str
    paper: str
    measures: tuple[Measure, ...]


def proofs_among(printed: Collection[str], guide: str) -> tuple[ProofTable, ...]:
    """The proofs of a guide's packets, from the files that a site has printed, by their paths; none if only
    the paths are known."""
    if not isinstance(printed, Mapping):
        return ()
    paths = sorted(path for path in printed if path.startswith(f"{guide}/") and path.endswith("-proof.json"))
    return tuple(msgspec.json.decode(printed[path], type=ProofTable) for path in paths)
