"""The cautions of a step, from all that it bids, the mending of what a look finds too."""

from __future__ import annotations

import pytest

from builder.guide.cautions import hazard_keys
from tests.guide.wording_kit import guide_of


@pytest.mark.parametrize(
    ("action", "dusty"),
    [
        ("{verify: lug, length: 1 1/2 in ± 1/16 in, else: Sand a long one down.}", True),
        ("{verify: lug, length: 1 1/2 in ± 1/16 in, else: Make it again.}", False),
    ],
)
def test_a_mending_that_sands_makes_dust(action: str, dusty: bool) -> None:
    step = next(guide_of(action).every_step())
    assert ("dust" in hazard_keys(step, guide_of(action))) is dusty
