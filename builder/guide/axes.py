"""Which edges a flat thing has at the ends of its length and of its width, and which way its grain runs.

Grain is a line, not a direction: it runs along the length or along the width of a thing's own frame. Of a
material it says how the stock lies; of a part how it has to lie on its stock.
"""

from __future__ import annotations

from builder.guide.model import Thing

LENGTH, WIDTH = "length", "width"
ALONG = {"along length": LENGTH, "along width": WIDTH}
GRAINED = {"material": ("sheet", "strip"), "part": ("slab", "sheet", "strip", "tube")}
"""The forms of each sort that have a grain to lay; of the tubes, those that are rolled."""


def axes_of(thing: Thing) -> tuple[tuple[str, str], tuple[str, str]]:
    """The edge names of a flat thing: (start, end) along and across."""
    outline = thing.outline
    edges = (
        outline.edges
        if outline is not None and len(outline.edges) == 4
        else ("left", "bottom", "right", "top")
    )
    first, second = (edges[0], edges[2]), (edges[1], edges[3])
    if outline is not None and outline.shape == "fin":
        return ("rear", "front"), ("root", "tip")
    along = outline.words.get("along", "") if outline is not None else ""
    start, _, end = along.partition(" to ")
    if end and {start, end} == set(second):
        return (start, end), first if first[0] not in (start, end) else second
    if end and {start, end} == set(first):
        return (start, end), second
    for chain in thing.chains:
        if chain.side == "lengthwise" and chain.origin in second:
            return (chain.origin, second[1] if chain.origin == second[0] else second[0]), first
    return first, second


def grain_of(thing: Thing) -> str:
    """The axis along which the grain of a thing runs: `length`, `width`, or "" if nothing is said of it."""
    return grain_along(thing.words.get("grain", ""), thing)


def grain_along(text: str, thing: Thing) -> str:
    """The axis that a text means for a thing; "" for what means none."""
    return grains_of(thing).get(text, "")


def grains_of(thing: Thing) -> dict[str, str]:
    """What may be written of a thing's grain, with the axis that each way means; nothing for a form that has
    none to lay."""
    if thing.form not in GRAINED.get(thing.sort, ()):
        return {}
    if thing.form == "tube":
        return {"along length": LENGTH} if "around" in thing.refs else {}
    named: dict[str, str] = {}
    if thing.outline is not None and len(thing.outline.edges) == 4:
        for axis, (start, end) in zip((LENGTH, WIDTH), axes_of(thing), strict=True):
            named |= {f"{start} to {end}": axis, f"{end} to {start}": axis}
    return ALONG | named


def along_stock(thing: Thing, stock: Thing | None) -> str:
    """Which size of a flat piece lies along long stock: its length, or its width if only that way round it is
    no wider than a strip is. "" for a piece that is too wide both ways."""
    wide = stock.mm("width") if stock is not None and stock.form == "strip" else None
    length, width = thing.mm("length"), thing.mm("width")
    if wide is None or length is None or width is None or width <= wide:
        return LENGTH
    return WIDTH if length <= wide else ""
