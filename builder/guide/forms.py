"""What follows from what: the numbers of a form that nobody types.

Each rule is a small function of `get`, which gives a number of the same thing (or of the thing that a
field names: `of.thickness`) or None. Rules are tried in order; what no rule gives is not there.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from fractions import Fraction

from builder.quantities.exact import PI, Exact
from builder.quantities.trig import cosine
from builder.quantities.values import Quantity

Get = Callable[[str], Quantity | None]
Rule = Callable[[Get], Quantity | None]


def _same(field: str) -> Rule:
    def rule(get: Get) -> Quantity | None:
        return get(field)

    return rule


def _plus(first: str, second: str, times: int = 1) -> Rule:
    def rule(get: Get) -> Quantity | None:
        a, b = get(first), get(second)
        return a + b.scaled(times) if a is not None and b is not None else None

    return rule


def _minus(first: str, second: str, times: int = 1) -> Rule:
    def rule(get: Get) -> Quantity | None:
        a, b = get(first), get(second)
        return a - b.scaled(times) if a is not None and b is not None else None

    return rule


def _half_difference(first: str, second: str) -> Rule:
    def rule(get: Get) -> Quantity | None:
        a, b = get(first), get(second)
        return (a - b).scaled(Fraction(1, 2)) if a is not None and b is not None else None

    return rule


def rolled_wall(get: Get) -> Quantity | None:
    """turns x thickness of the sheet."""
    turns, thickness = get("rolled.turns"), get("rolled.of.thickness")
    return thickness.scaled(turns.amount) if turns is not None and thickness is not None else None


def wrap_width(get: Get) -> Quantity | None:
    """pi x turns x (former + turns x thickness) + overlap: the mean diameter of each turn, summed.

    Turn k of n lies at the mean diameter D + (2k - 1) t; the sum of pi times that over k is
    pi n (D + n t).
    """
    turns, thickness, former = get("rolled.turns"), get("rolled.of.thickness"), get("rolled.around.diameter")
    if turns is None or thickness is None or former is None:
        return None
    around = (former + thickness.scaled(turns.amount)).scaled(turns.amount).scaled(PI)
    overlap = get("rolled.overlap")
    return around if overlap is None else around + overlap


def over_seam(get: Get) -> Quantity | None:
    """One thickness more in diameter, where the last edge lies."""
    outside, thickness = get("outside"), get("rolled.of.thickness")
    return outside + thickness if outside is not None and thickness is not None else None


def across_corners(get: Get) -> Quantity | None:
    """Flats / cos(180 deg / n) for an even number of sides."""
    flats, sides = get("across_flats"), get("sides")
    if flats is None or sides is None or sides.base < 3:
        return None
    return flats.scaled(Exact.of(1 / cosine(Fraction(180) / sides.base)))


def across_flats(get: Get) -> Quantity | None:
    """Corners x cos(180 deg / n) for an even number of sides."""
    corners, sides = get("across_corners"), get("sides")
    if corners is None or sides is None or sides.base < 3:
        return None
    return corners.scaled(Exact.of(cosine(Fraction(180) / sides.base)))


_ROUND = {
    "outside": (_plus("inside", "wall", 2), _same("diameter"), _same("of.outside"), _same("of.diameter")),
    "inside": (_minus("outside", "wall", 2), _same("of.inside")),
    "wall": (_half_difference("outside", "inside"),),
    "over_seam": (_same("outside"),),
}
_FLAT = {
    "thickness": (_same("of.thickness"),),
    "width": (_same("of.width"),),
    "length": (),
}
_POLYGON = {
    **_FLAT,
    "across_corners": (across_corners,),
    "across_flats": (across_flats,),
    "length": (_same("across_flats"),),
    "width": (_same("across_flats"),),
}

DERIVED: Mapping[str, Mapping[str, tuple[Rule, ...]]] = {
    "tube": {
        "wall": (rolled_wall, *_ROUND["wall"]),
        "inside": (_same("rolled.around.diameter"), *_ROUND["inside"]),
        "outside": _ROUND["outside"],
        "over_seam": (over_seam, _same("outside")),
        "wrap": (wrap_width,),
    },
    "ring": {**_ROUND, "length": (_same("of.thickness"),), "thickness": (_same("length"),)},
    "disc": {"outside": (_same("diameter"),), "length": (_same("of.thickness"),),
             "thickness": (_same("length"),)},
    "rod": {"diameter": (_same("of.diameter"), _same("outside")),
            "outside": (_same("diameter"), _same("of.diameter"))},
    "screw": {"outside": (_same("diameter"),)},
    "turned": {"outside": (_same("diameter"), _same("widest"))},
    "slab": {**_FLAT, "length": (_same("root"), _same("diameter")),
             "width": (_same("span"), _same("diameter"))},
    "sheet": _FLAT,
    "strip": _FLAT,
    "clip": _FLAT,
    "cord": {},
    "regular polygon": _POLYGON,
}

# What a solid cannot do without, by sort and form: of each group at least one, written or derived.
_TUBE = (("length",), ("outside",), ("inside",))
_FLAT_PART = (("length", "size"), ("width", "size"))
NEEDS: Mapping[tuple[str, str], tuple[tuple[str, ...], ...]] = {
    ("material", "sheet"): (("length", "size"), ("width", "size"), ("thickness",)),
    ("material", "strip"): (("length",), ("width",)),
    ("material", "cord"): (("length",),),
    ("material", "rod"): (("length",), ("diameter",)),
    ("material", "tube"): _TUBE,
    ("tool", "rod"): (("diameter",),),
    ("tool", "tube"): (("inside", "outside"),),
    ("tool", "ring"): (("inside",), ("outside",)),
    ("tool", "disc"): (("diameter",),),
    ("part", "tube"): _TUBE,
    ("part", "rod"): (("length",), ("diameter",)),
    ("part", "ring"): (("outside",), ("inside",), ("length", "thickness")),
    ("part", "disc"): (("diameter", "outside"),),
    ("part", "turned"): (("length",), ("outside", "diameter")),
    ("part", "slab"): (("length", "outline"), ("width", "outline"), ("thickness",)),
    ("part", "sheet"): _FLAT_PART,
    ("part", "strip"): _FLAT_PART,
    ("part", "cord"): (("length",),),
    ("part", "regular polygon"): (("sides",), ("across_flats",)),
    ("part", "screw"): (("length",), ("diameter",)),
}
