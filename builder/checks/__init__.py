"""The checks: one file each, and the literal tables that put them in order.

`GUIDE_CHECKS` are asked about the guide and its runs, `RUN_CHECKS` about each run, `RUNS_CHECKS` about all
runs together, `NEED_CHECKS` (in `of_needs`) about every unmet need; `every` has all of them. `ORDER` says who
leads: names, sums, fits, the bench by written place, leftovers.
"""

from __future__ import annotations

from builder.checks import (
    caution_dropped,
    caution_instruction,
    chain_shown,
    claims_safe,
    clear_way,
    critical_unverified,
    cut_short,
    do_share,
    else_missing,
    face_down,
    gear_missing,
    glue_unmet,
    hand,
    hazard_unknown,
    hold_short,
    label_range,
    label_times,
    marks_count,
    missed_unsaid,
    name_size,
    never_folded,
    not_in_kit,
    note_instruction,
    note_warning,
    one_name,
    picture_file,
    prep_in_name,
    prep_missing,
    reading_grade,
    rejoin,
    repeat_in_words,
    route_words,
    say_condition,
    say_direction,
    say_long,
    say_missing,
    say_number,
    say_reference,
    say_same,
    say_several,
    say_vague,
    say_verb,
    signal_word,
    similar_parts,
    step_time,
    tolerance_chain,
    tool_unlisted,
    two_hands,
    two_names,
    typed_reference,
    unused,
    wait_differs,
    wait_in_words,
    way_round,
    wrap_closes,
    young_audience,
    zone_sum,
)
from builder.checks.base import Check, Look
from builder.guide.slips import NAMES

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
    wait_in_words.CHECK,
    say_several.CHECK,
    say_condition.CHECK,
    typed_reference.CHECK,
    repeat_in_words.CHECK,
    say_vague.CHECK,
    say_long.CHECK,
    reading_grade.CHECK,
    two_names.CHECK,
    one_name.CHECK,
    claims_safe.CHECK,
    route_words.CHECK,
    caution_instruction.CHECK,
    prep_in_name.CHECK,
    name_size.CHECK,
    label_range.CHECK,
    signal_word.CHECK,
    young_audience.CHECK,
    hand.CHECK,
    picture_file.CHECK,
    way_round.CHECK,
    step_time.CHECK,
    two_hands.CHECK,
    face_down.CHECK,
    unused.CHECK,
)

RUN_CHECKS: tuple[Check, ...] = (
    never_folded.CHECK,
    cut_short.CHECK,
    clear_way.CHECK,
    glue_unmet.CHECK,
    not_in_kit.CHECK,
    missed_unsaid.CHECK,
    wait_differs.CHECK,
    hold_short.CHECK,
    tolerance_chain.CHECK,
    marks_count.CHECK,
    wrap_closes.CHECK,
    similar_parts.CHECK,
    critical_unverified.CHECK,
)

RUNS_CHECKS: tuple[Check, ...] = (rejoin.CHECK,)

# Who leads among findings of one severity; what is not named here comes after "bench".
ORDER: tuple[tuple[str, ...], ...] = (
    NAMES,  # of the reader: what could not be read was not built either
    ("cut-short",),
    ("unknown-place", "other-route", "count", "never-folded", "one-name"),
    ("zone-sum", "chain-shown"),
    ("station", "zone-filled", "fit", "former-size", "stock", "grain"),
    ("remainder", "measure"),
    ("glue-order", "glue-for-other"),
    ("never-placed", "never-removed"),
    (),  # the bench, by written place
    ("rejoin", "clear-way"),
    ("glue-unmet", "step-time", "wait-in-words"),
    ("never-used", "not-in-kit", "tool-left", "finished-unsaid", "kit-unlisted"),
    ("nothing-dries",),
)
BENCH_RANK = ORDER.index(())

__all__ = ["BENCH_RANK", "Check", "GUIDE_CHECKS", "Look", "ORDER", "RUNS_CHECKS", "RUN_CHECKS"]
