"""A whole kit at measures that are common practice, no source: it can be built, and one measure off is told.

The guide is tests/fixtures/guides/mount.yml. Its measures: tape of 29 in, six lines of 14 in, a body of 11 in
with a lug of 3 1/4 in placed 3 in from one end, fin lines of 4 in from 5/8 in, rings that leave 1/8 in and
1 in of the motor tube, glue bands about 1/4 in and 1 1/4 in from its ends, a clip 3/8 in past it, a mount
left showing 1/4 in on glue spread 2 in deep, half an hour to set, overnight to dry, the lug over no fin.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from builder.checks.judge import check
from builder.dryrun.kinds import VERBS
from builder.dryrun.run import run_all
from builder.findings import Finding, Severity
from builder.guide.reader import read

TEXT = (Path(__file__).parents[1] / "fixtures" / "guides" / "mount.yml").read_text("utf-8")

# What one is changed to, and what is told of it. All common practice, no source; the sums stand beside.
OFF = [
    ("29 in, width", "28 in, width", "remainder"),  # 28 - 11 = 17, not 18
    ("length: 84 in", "length: 83 in", "stock"),  # 6 x 14 = 84
    ("3 in to 6 1/4 in from rear", "8 in to 11 1/4 in from rear", "station"),  # 8 + 3 1/4 = 11 1/4 > 11
    ("3 in to 6 1/4 in from rear, angle: 60", "3 in to 6 1/4 in from rear, angle: 0", "mark-covered"),
    ("tail: 5/8 in, fin_root", "tail: 7/8 in, fin_root", "zone-sum"),  # 7/8 + 4 + 6 3/8 = 11 1/4
    ("3/16 in to 5/16 in from", "11/16 in to 13/16 in from", "glue-covered"),  # ring: 1/8 to 1/2
    ("1 3/16 in to 1 5/16 in", "11/16 in to 13/16 in", "glue-covered"),  # the ring begins 1 in from the front
    ("by: 3/8 in ± 1/32 in", "by: 1/2 in ± 1/32 in", "measure"),  # 2 3/4 + 3/8 - 2 3/4 = 3/8
    ("leaving out: 1/4 in", "leaving out: 1/2 in", "measure"),  # 1/4 is what is verified
    ("{wait for: lug, until: cured}", "{wait for: lug, for: 30 min}", "joint-bears"),  # not overnight
]


def leaders(text: str) -> list[Finding]:
    guide = read({"mount.yml": text}, "mount.yml", VERBS, "mount")
    found = check(guide, run_all(guide))
    return [f for f in found if f.severity is Severity.ERROR]


def test_it_can_be_built_as_it_stands() -> None:
    assert leaders(TEXT) == []


@pytest.mark.parametrize(("right", "wrong", "told"), OFF, ids=[row[1] for row in OFF])
def test_one_measure_off_is_noticed(right: str, wrong: str, told: str) -> None:
    assert TEXT.count(right) == 1
    found = leaders(TEXT.replace(right, wrong))
    assert [f.check for f in found] == [told]
