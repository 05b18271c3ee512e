"""The times on a label, which often gives a range: `20-30 min`.

Whoever waits takes the longer time, whoever works against the clock the shorter one.
"""

from __future__ import annotations

from fractions import Fraction

from builder.guide.model import Value
from builder.guide.nodes import Node, ScalarNode
from builder.guide.reading import Reading
from builder.quantities.quantity import read_range
from builder.quantities.units import Dimension
from builder.quantities.values import Range

WITHIN = "working time"  # the one time that must not be overrun


def of_range(reading: Reading, node: Node, name: str, path: str) -> Value | None:
    """The careful end of a range of times, in seconds; None if it is no range, which others read."""
    if not isinstance(node, ScalarNode):
        return None
    found = read_range(node.value, Dimension.TIME)
    if not isinstance(found, Range) or (found.low == found.high and not found.unbounded):
        return None
    # "up to 5 min" begins at nothing, which is not a time that a label gives
    careful = found.low if name == WITHIN and found.low.base > Fraction(0) else found.high
    return Value(careful, path, reading.place(node), node.value, frozenset((path,)), typed=True)
