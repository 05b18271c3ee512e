"""The checks: one file each, and the two literal tables that put them in order.

`NEED_CHECKS` are asked about every unmet need of a dry run, `GUIDE_CHECKS` about the guide and its runs.
`ORDER` says who leads: names, sums, fits, the bench by written place, leftovers.
"""

from __future__ import annotations

from builder.checks import (
    accept,
    attachable,
    before_set,
    caution_dropped,
    chain_shown,
    clear_way,
    do_share,
    else_missing,
    fills,
    fit,
    former_out,
    former_size,
    gear_missing,
    glue_covered,
    glue_order,
    glue_unmet,
    hazard_unknown,
    held,
    jig_in_place,
    jig_off,
    joint_bears,
    label_times,
    made_twice,
    mark_order,
    masked,
    measure,
    not_in_kit,
    note_instruction,
    note_warning,
    nothing_dries,
    place_name,
    placed_twice,
    prep_missing,
    recoat,
    rejoin,
    remainder,
    same_place,
    say_direction,
    say_missing,
    say_number,
    say_reference,
    say_same,
    say_verb,
    station,
    stock,
    surface,
    there,
    tool_unlisted,
    unglued,
    unused,
    used_before_made,
    way_blocked,
    working_time,
    zone_sum,
)
from builder.checks.base import Check, Look

GUIDE_CHECKS: tuple[Check, ...] = (
    zone_sum.CHECK,
    chain_shown.CHECK,
    label_times.CHECK,
    hazard_unknown.CHECK,
    caution_dropped.CHECK,
    gear_missing.CHECK,
    tool_unlisted.CHECK,
    prep_missing.CHECK,
    else_missing.CHECK,
    do_share.CHECK,
    say_number.CHECK,
    say_reference.CHECK,
    say_missing.CHECK,
    say_verb.CHECK,
    say_direction.CHECK,
    say_same.CHECK,
    note_instruction.CHECK,
    note_warning.CHECK,
    unused.CHECK,
)

RUN_CHECKS: tuple[Check, ...] = (
    clear_way.CHECK,
    glue_unmet.CHECK,
    not_in_kit.CHECK,
)

RUNS_CHECKS: tuple[Check, ...] = (rejoin.CHECK,)

NEED_CHECKS: tuple[Check, ...] = (
    used_before_made.CHECK,
    place_name.CHECK,
    made_twice.CHECK,
    placed_twice.CHECK,
    station.CHECK,
    fills.CHECK,
    fit.CHECK,
    former_size.CHECK,
    stock.CHECK,
    remainder.CHECK,
    measure.CHECK,
    same_place.CHECK,
    way_blocked.CHECK,
    surface.CHECK,
    mark_order.CHECK,
    glue_order.CHECK,
    glue_covered.CHECK,
    working_time.CHECK,
    held.CHECK,
    joint_bears.CHECK,
    jig_in_place.CHECK,
    jig_off.CHECK,
    former_out.CHECK,
    before_set.CHECK,
    masked.CHECK,
    recoat.CHECK,
    nothing_dries.CHECK,
    attachable.CHECK,
    there.CHECK,
    unglued.CHECK,
)

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
    not_in_kit.TOOL_LEFT,
    not_in_kit.NEVER_REMOVED,
    glue_unmet.NEVER_PLACED,
    accept.CHECK,  # asked by the judge, of what all others found
)

ASKED: tuple[Check, ...] = (*GUIDE_CHECKS, *NEED_CHECKS, *RUN_CHECKS, *RUNS_CHECKS)
ALL: tuple[Check, ...] = (*ASKED, *ALSO)

# Who leads among findings of one severity; what is not named here comes after "bench".
ORDER: tuple[tuple[str, ...], ...] = (
    ("unknown-name", "unknown-place", "other-route", "count"),
    ("zone-sum", "chain-shown"),
    ("station", "zone-filled", "fit", "former-size", "stock"),
    ("remainder", "measure"),
    ("glue-order", "glue-for-other"),
    ("never-placed", "never-removed"),
    (),  # the bench, by written place
    ("rejoin", "clear-way"),
    ("glue-unmet",),
    ("never-used", "not-in-kit", "tool-left", "finished-unsaid"),
    ("nothing-dries",),
)
BENCH_RANK = ORDER.index(())

__all__ = [
    "ALL",
    "ASKED",
    "BENCH_RANK",
    "Check",
    "GUIDE_CHECKS",
    "Look",
    "NEED_CHECKS",
    "ORDER",
    "RUNS_CHECKS",
    "RUN_CHECKS",
]
