"""Faults planted in copies of a guide, to see that the checks tell them.

A kind of fault is a row of one of the tables below: what a writer did wrong, which check must lead, and where
a guide offers a place for it. Nothing is drawn by chance: the same guide gives the same faults.
"""

from __future__ import annotations

from builder.planting import (
    cuts,
    grains,
    joints,
    left_out,
    likeness,
    meetings,
    names,
    order,
    safety,
    sentences,
    times,
    typing_slips,
    units,
    values,
    waits,
    words,
)
from builder.planting.kind import Kind, Plant

KINDS: tuple[Kind, ...] = (
    *values.KINDS,
    *times.KINDS,
    *units.KINDS,
    *joints.KINDS,
    *cuts.KINDS,
    *grains.KINDS,
    *waits.KINDS,
    *order.KINDS,
    *names.KINDS,
    *typing_slips.KINDS,
    *words.KINDS,
    *sentences.KINDS,
    *left_out.KINDS,
    *safety.KINDS,
    *meetings.KINDS,
    *likeness.KINDS,
)

__all__ = ["KINDS", "Kind", "Plant"]
