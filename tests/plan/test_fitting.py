"""How pieces fit into stock: worked by hand beside each case, and never below what area or length allows."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.findings import Place
from builder.guide.model import Outline, Thing, Value
from builder.plan.fitting import Fitted, Wanted, fit
from builder.quantities.values import length

AT = Place("guide.yml", 1, 1)


def thing(form: str, *, shape: str = "", **mm: Fraction | int) -> Thing:
    values = {name: Value(length(Fraction(x)), name, AT) for name, x in mm.items()}
    outline = Outline(shape, AT, values) if shape else None
    return Thing("thing", "thing", "part", form, AT, values=values, outline=outline)


STICK = thing("rod", length=900)
SHEET = thing("sheet", length=600, width=400)


def pieces(form: str, count: int, kerf: int = 0, **mm: Fraction | int) -> Wanted:
    return Wanted(thing(form, shape="", **mm), count, Fraction(kerf))


@pytest.mark.parametrize(
    ("wanted", "sticks", "at_least"),
    [
        ([pieces("rod", 9, length=300)], 3, 3),  # 3 x 300 = 900: nothing is left
        ([pieces("rod", 9, 1, length=300)], 5, 3),  # 3 x 300 + 2 cuts = 902: only 2 fit, 9 / 2 -> 5
        ([pieces("rod", 6, length=301)], 3, 3),  # 2 each; 6 x 301 = 1806 -> 3 by length too
        ([pieces("rod", 4, length=500)], 4, 3),  # one each, 400 left of each; 2000 / 900 -> 3
        # 500 + 400 = 900: the short ones go beside the long ones
        ([pieces("rod", 4, length=500), pieces("rod", 4, length=400)], 4, 4),
        ([pieces("rod", 4, 2, length=500), pieces("rod", 4, 2, length=400)], 6, 4),  # 902: they do not
    ],
)
def test_sticks(wanted: list[Wanted], sticks: int, at_least: int) -> None:
    found = fit(STICK, wanted)
    assert found is not None
    assert (found.pieces, found.at_least) == (sticks, at_least)


@pytest.mark.parametrize(
    ("wanted", "sheets"),
    [
        # 200 x 200 out of 600 x 400: 3 x 2 = 6 on a sheet
        ([pieces("slab", 6, length=200, width=200)], 1),
        ([pieces("slab", 7, length=200, width=200)], 2),
        # a saw cut of 1 mm: 2 columns and 1 row are left of 3 x 2, so 2 on a sheet
        ([pieces("slab", 3, 1, length=200, width=200)], 2),
        # 350 x 250 lies only one way and once: 600 < 700 and 400 < 500, turned 600 >= 500 but 400 >= 350: 2
        ([pieces("slab", 2, length=350, width=250)], 1),
        ([pieces("slab", 3, length=350, width=250)], 2),
        # discs stand in a grid of squares: 6 x 4 = 24 of 100 mm
        ([pieces("disc", 24, diameter=100)], 1),
        ([pieces("disc", 25, diameter=100)], 2),
        # what is left of the large ones serves the small ones: 600 x 300 and then 6 of 100 x 100
        ([pieces("slab", 1, length=600, width=300), pieces("disc", 6, diameter=100)], 1),
        ([pieces("slab", 1, length=600, width=300), pieces("disc", 7, diameter=100)], 2),
    ],
)
def test_sheets(wanted: list[Wanted], sheets: int) -> None:
    found = fit(SHEET, wanted)
    assert found is not None
    assert found.pieces == sheets


def test_fins_lie_head_to_tail() -> None:
    # root 200, tip 100, span 200: a pair takes 300 x 200; 2 x 2 pairs on 600 x 400 are 8 fins.
    # Side by side they would be 3 x 2 = 6.
    fin = thing("slab", shape="fin", root=200, tip=100, span=200)
    assert fit(SHEET, [Wanted(fin, 8)]) == Fitted(1, 1, (("thing", 8),))


@pytest.mark.parametrize(
    ("stock", "wanted"),
    [
        (STICK, [pieces("rod", 1, length=901)]),  # longer than the stock
        (STICK, [pieces("rod", 1)]),  # of no known length
        (SHEET, [pieces("slab", 1, length=601, width=10)]),
        (SHEET, [pieces("slab", 1, length=10)]),
        (thing("sheet", length=600), [pieces("slab", 1, length=10, width=10)]),
        (thing("adhesive", length=600), [pieces("rod", 1, length=10)]),
        (STICK, []),
    ],
)
def test_what_cannot_be_worked_out_is_unknown(stock: Thing, wanted: list[Wanted]) -> None:
    assert fit(stock, wanted) is None


@given(
    st.lists(st.tuples(st.integers(1, 900), st.integers(1, 12)), min_size=1, max_size=5),
    st.integers(0, 20),
)
def test_sticks_are_between_the_bound_and_one_each(rows: list[tuple[int, int]], kerf: int) -> None:
    found = fit(STICK, [pieces("rod", count, kerf, length=mm) for mm, count in rows])
    assert found is not None
    total = sum(mm * count for mm, count in rows)
    assert -(-total // 900) == found.at_least <= found.pieces <= sum(count for _, count in rows)


@given(st.integers(20, 400), st.integers(20, 400), st.integers(1, 60))
def test_sheets_hold_no_more_than_their_area(along: int, across: int, count: int) -> None:
    found = fit(SHEET, [pieces("slab", count, length=along, width=across)])
    assert found is not None
    assert along * across * count <= found.pieces * 600 * 400
    assert found.at_least <= found.pieces <= count
