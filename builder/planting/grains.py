"""Grain that is written the other way, or not at all."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from msgspec.structs import replace

from builder.dryrun.cutting import ways_from_sheet
from builder.dryrun.needs import Grain, Leaves
from builder.dryrun.run import Frame
from builder.guide.axes import ALONG, grain_of
from builder.guide.model import Thing
from builder.planting.ground import Ground
from builder.planting.kind import Kind, Plant
from builder.planting.sheet import MappingNode, value_of

_OTHER = {axis: text for text, axis in zip(ALONG, reversed(ALONG.values()), strict=True)}


def grain_turned(ground: Ground) -> Iterator[Plant]:
    """The grain of the stock is written the other way, so that a part can only be cut across it."""
    for material, node, cut in _cut_first(ground):
        edit = value_of(node, "grain")
        if edit is not None and _fails(ground, material, *cut):
            turned = ground.main.replace(edit, _OTHER[grain_of(material)])
            yield Plant(material.id, (material.id, cut[1].thing), (turned,))


def grain_left_out(ground: Ground) -> Iterator[Plant]:
    """The grain of the stock is not written, though a part says how its own has to run."""
    for material, node, cut in _cut_first(ground):
        yield Plant(material.id, (material.id, cut[1].thing), ground.main.without_pair(node, "grain"))


def _cut_first(ground: Ground) -> Iterator[tuple[Thing, MappingNode, tuple[Frame, Grain]]]:
    """Every material with a grain, and the first cut that asks for it."""
    for material, _, node in ground.thing_nodes("materials"):
        for frame in ground.runs[0].frames:
            asked = next((n for n in frame.needs if isinstance(n, Grain) and n.material == material.id), None)
            if asked is not None and grain_of(material):
                yield material, node, (frame, asked)
                break


def _fails(ground: Ground, material: Thing, frame: Frame, asked: Grain) -> bool:
    """Whether the cut fails, or leaves something else, on stock whose grain runs the other way."""
    thing = ground.guide.things[asked.thing]
    turned = replace(thing, words={**thing.words, "grain": _OTHER[grain_of(thing)]})
    stated = next((n.stated for n in frame.needs if isinstance(n, Leaves)), None)
    lefts = [
        way.left
        for piece in frame.before.stock.get(material.id, ())
        if piece.across is not None
        for way in ways_from_sheet(piece.along, piece.across, turned, asked.count, Fraction(0), piece.grain)
    ]
    return not lefts if stated is None else stated not in lefts


KINDS = (
    Kind("grain of the stock the other way", ("grain",), grain_turned),
    Kind("grain of the stock left out", ("grain-unsaid",), grain_left_out, "warning"),
)
