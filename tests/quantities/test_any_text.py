"""Whatever is typed, a reader answers with a value or with a refusal that points into the text."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction as F

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from builder.quantities.quantity import (
    Dimension,
    Quantity,
    Refusal,
    length,
    read_quantity,
    read_range,
    read_size,
    read_window,
)
from builder.quantities.show import Units, tell
from builder.quantities.sums import Sum, evaluate, read_sum, read_tolerance, read_toleranced

READERS: list[Callable[[str], object]] = [
    read_quantity,
    read_range,
    read_window,
    read_size,
    read_sum,
    read_toleranced,
    read_tolerance,
    lambda text: read_quantity(text, Dimension.LENGTH, negative=True),
    lambda text: read_range(text, Dimension.TIME),
    lambda text: read_sum(text, Dimension.COUNT),
]

WORDS = [
    *("12", "1/2", "0", "31/4", "2/4", "1/0", "3.5", ".5", "1.", "¾", "12-1/2", "9" * 25, "1:30", "1,5"),
    *("in", "ft", "mm", '"', "'", "min", "h", "deg", "°", "%", "oz", "fl oz", "USD", "piece", "mm2", "°C"),
    *("+", "-", "−", "*", "/", "(", ")", "±", "+/-", "x", "×", "to", "or", "from", "up to", "by", "–"),
    *(
        "pi",
        "play",
        "body.outside",
        "Body",
        "a.b.c",
        "_",
        ".",
        "..",
        "{",
        "}",
        "#",
        "\t",
        "\n",
        "\u00a0",
        "٣",
    ),
]
TEXTS = st.one_of(
    st.text(max_size=30),
    st.lists(st.sampled_from(WORDS), max_size=9).map("".join),
    st.lists(st.sampled_from(WORDS), max_size=9).map(" ".join),
)
UNITS = Units("in", "mm", length(F(254, 160), "in"))


def points_into(refusal: Refusal, text: str) -> bool:
    return 0 <= refusal.start <= refusal.start + refusal.length <= len(text)


@settings(max_examples=600)
@given(TEXTS)
def test_no_text_raises(text: str) -> None:
    for read in READERS:
        found = read(text)
        if isinstance(found, Refusal):
            assert found.message and found.hint
            assert points_into(found, text), (text, found)


@settings(max_examples=300)
@given(TEXTS)
def test_a_sum_that_is_read_can_be_worked_out_and_told(text: str) -> None:
    total = read_sum(text)
    if isinstance(total, Sum):
        for value in (length(F(3)), Quantity(length(F(0)).amount, Dimension.TIME, "min"), None):
            outcome = evaluate(total, lambda _name, value=value: value)  # type: ignore[misc]
            if isinstance(outcome, Refusal):
                assert points_into(outcome, text), (text, outcome)
            elif outcome is not None:
                assert tell(outcome, UNITS)
                assert tell(outcome, UNITS, typed=False)
        for name, start, size in total.names:
            assert text[start : start + size] == name


@settings(max_examples=300)
@given(TEXTS)
def test_what_was_written_reads_back_the_same(text: str) -> None:
    q = read_quantity(text, negative=True)
    if isinstance(q, Quantity):
        again = read_quantity(q.written, negative=True)
        assert isinstance(again, Quantity), (text, q.written, again)
        assert (again, again.unit, again.written) == (q, q.unit, q.written)


@pytest.mark.parametrize(
    "text",
    ["1" * 399, "1 " * 199, "1 in " * 79, "- " * 199, "(" * 399, "a." * 199, "1/" * 199, "±" * 399, " " * 399]
    + ["1 h " * 99, "1-" * 199, "x" * 399, "1x" * 199, "up to " * 66, "1 or " * 79, "¾" * 399, "in " * 133],
)  # fmt: skip
def test_long_texts_are_read_in_no_time(text: str) -> None:
    """Nothing takes more steps than the length of the text allows: each of these is answered at once."""
    for read in READERS:
        read(text)
        read(text * 1000)
