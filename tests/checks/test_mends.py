"""A mend can be written as it stands: what a finding tells to write is then read without a finding."""

from __future__ import annotations

import re

import pytest

from builder.checks.judge import check
from builder.dryrun.kinds import VERBS
from builder.dryrun.run import run_all
from builder.findings import Finding
from builder.guide.reader import read

BOARD = """\
title: Boards
units: {{first: {unit}, second: {other}, finest: {finest}}}
materials: {{ply: {{name: plywood, form: sheet, size: {sheet}, thickness: {thick}}}}}
tools: {{saw: {{name: tenon saw, cuts away: {kerf}}}, goggles: {{name: eye protection, form: gear}}}}
parts:
  floor: {{form: slab, of: ply, outline: {{rectangle: {floor}}}}}
steps:
  - id: work
    title: Saw the floor
    time: 5 min
    who: adult helps
    actions:
      - {{cut: floor, from: ply, with: saw, leaves: {leaves}}}
"""
MM = {"unit": "mm", "other": "in", "finest": "1 mm", "thick": "9 mm", "kerf": "1 mm"}
WRITE = re.compile(r"Write `(leaves: [^`]+)`")


def findings(text: str, name: str) -> list[Finding]:
    guide = read({"guide.yml": text}, "guide.yml", VERBS, "boards")
    return [f for f in check(guide, run_all(guide)) if f.check == name]


@pytest.mark.parametrize(
    ("sheet", "floor", "leaves"),
    [
        # 600 - 240 - 1 = 359 beside it, and nothing above: one piece
        ("600 mm x 200 mm", "240 mm x 200 mm", "359 mm x 200 mm"),
        # 200 - 180 - 1 = 19 above it: two pieces, which are a list
        ("600 mm x 200 mm", "240 mm x 180 mm", "[359 mm x 200 mm, 240 mm x 19 mm]"),
        ("240 mm x 180 mm", "240 mm x 180 mm", "nothing"),
    ],
)
def test_the_remainder_is_told_as_a_guide_has_it(sheet: str, floor: str, leaves: str) -> None:
    text = BOARD.format(sheet=sheet, floor=floor, leaves="7 mm x 7 mm", **MM)
    (finding,) = findings(text, "remainder")
    (told,) = WRITE.findall(finding.mend)
    assert told == f"leaves: {leaves}"
    assert findings(text.replace("leaves: 7 mm x 7 mm", told), "remainder") == []


def test_several_sizes_in_words_are_told_to_be_a_list() -> None:
    text = BOARD.format(
        sheet="600 mm x 200 mm", floor="240 mm x 180 mm", leaves="359 mm x 200 mm and 240 mm x 19 mm", **MM
    )
    (finding,) = findings(text, "number")
    assert "Several sizes are a list" in finding.mend


GLUE = """\
title: Glued
units: {{first: mm, second: in, finest: 1 mm}}
materials:
  stuff: {{name: brown stuff, form: {form}, {form}: {kind}, amount: 5 mL, hazards: {hazards},
          label: {{working time: 5 min, tack: 2 min, set: 30 min, full cure: 24 h, dry: 1 h}}}}
tools: {{brush: {{name: glue brush}}}}
parts:
  floor: {{form: slab, source: bought, thickness: 9 mm, outline: {{rectangle: 200 mm x 100 mm}}}}
steps:
  - id: work
    title: Work
    time: 5 min
    actions:
      - {action}
"""
SPREAD = "{glue: floor, top: middle of floor, with: [stuff, brush], for: floor}"
PAINT = "{paint: floor, with: [stuff, brush]}"


@pytest.mark.parametrize(
    ("form", "kind", "action", "meant"),
    [
        ("adhesive", "contact", SPREAD, "adhesive: contact cement"),
        ("adhesive", "wood glu", SPREAD, "adhesive: wood glue"),
        ("paint", "tempra", PAINT, "paint: tempera"),
        ("paint", "quicksilver", PAINT, ""),
    ],
)
def test_a_kind_that_no_table_knows_is_told_with_the_nearest(
    form: str, kind: str, action: str, meant: str
) -> None:
    text = GLUE.format(form=form, kind=kind, action=action, hazards="").replace(" hazards: ,", "")
    (finding,) = findings(text, "hazard-unknown")
    assert f'"{kind}" is no kind of {form}' in finding.message
    assert ("Did you mean" in finding.mend) == bool(meant)
    if meant:
        assert f"`{meant}`" in finding.mend
        assert findings(text.replace(f"{form}: {kind}", meant), "hazard-unknown") == []


def test_a_hazard_that_no_table_knows_is_told_with_the_nearest() -> None:
    text = GLUE.format(form="adhesive", kind="pva", action=SPREAD, hazards="[flamable]")
    (finding,) = findings(text, "hazard-unknown")
    assert finding.mend.startswith("Did you mean `flammable`?")


@pytest.mark.parametrize("place", ["all", "whole"])
def test_the_whole_face_is_told_where_a_place_says_all(place: str) -> None:
    text = GLUE.format(
        form="adhesive", kind="pva", action=SPREAD.replace("middle of floor", place), hazards="[]"
    )
    (finding,) = findings(text, "unknown-place")
    assert "`face: top`" in finding.mend
