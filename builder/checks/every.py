"""Every check that there is: those of the tables, and those that stand beside another in its file."""

from __future__ import annotations

from builder.checks import (
    GUIDE_CHECKS,
    RUN_CHECKS,
    RUNS_CHECKS,
    accept,
    glue_unmet,
    grain,
    held,
    joint_bears,
    mark_order,
    not_in_kit,
    same_place,
    surface,
    used_before_made,
    way_blocked,
    young_audience,
)
from builder.checks.base import Check
from builder.checks.of_needs import NEED_CHECKS

# Checks that share a file with another (the same need, told apart by what is wrong), and the judge's own.
ALSO: tuple[Check, ...] = (
    used_before_made.COUNT,
    used_before_made.OPTIONAL,
    used_before_made.OTHER_ROUTE,
    same_place.ROOM,
    way_blocked.SWEPT,
    surface.REACH,
    mark_order.COVERED,
    held.FOR_OTHER,
    joint_bears.SET,
    joint_bears.STEADY,
    joint_bears.COAT,
    not_in_kit.UNSAID,
    not_in_kit.UNLISTED,
    not_in_kit.TOOL_LEFT,
    not_in_kit.NEVER_REMOVED,
    glue_unmet.NEVER_PLACED,
    grain.UNSAID,
    young_audience.ASK,
    accept.CHECK,  # asked by the judge, of what all others found
)

ASKED: tuple[Check, ...] = (*GUIDE_CHECKS, *NEED_CHECKS, *RUN_CHECKS, *RUNS_CHECKS)
ALL: tuple[Check, ...] = (*ASKED, *ALSO)
