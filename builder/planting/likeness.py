"""Parts that look alike or are no pair, texts too hard to read, chains whose shown lengths do not add up, and
warnings that are too weak."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from builder.checks.reading_grade import LEAST_WORDS, MARGIN, measured
from builder.checks.similar_parts import silhouette, similar
from builder.guide.wording.desk import Book
from builder.planting.ground import Ground
from builder.planting.kind import Kind, Plant
from builder.planting.safety import with_caution
from builder.planting.sheet import Edit, MappingNode, ScalarNode, SequenceNode, pair_of, value_of
from builder.trade.paints import paint as trade_paint


def chain_odd(ground: Ground) -> Iterator[Plant]:
    """Lengths between the steps of the ruler, whose shown values do not sum to the shown length."""
    placed = {
        name
        for s in ground.spots for field in ("to", "at", "inside", "outside", "top", "under")
        for spot in s.action.spots(field) if spot.kind == "named" for name in spot.names
    }  # fmt: skip
    unit = getattr(ground.guide.units, "first", "mm")
    part = _text(ground.finest * Fraction(2, 5), unit), _text(ground.finest * Fraction(4, 5), unit)
    for thing, _, node in ground.thing_nodes("parts"):
        chains = value_of(node, "zones")
        for _, items in chains.value if isinstance(chains, MappingNode) else ():
            free = [
                value
                for item in (items.value if isinstance(items, SequenceNode) else ())
                for key, value in (item.value if isinstance(item, MappingNode) else ())
                if key.value not in placed and ground.number(value, Fraction(1)) is not None
            ]
            if len(free) >= 3:
                a, b, c = free[:3]
                edits = (
                    ground.main.replace(a, f"{a.value} + {part[0]}"),
                    ground.main.replace(b, f"{b.value} + {part[0]}"),
                    ground.main.replace(c, f"{c.value} - {part[1]}"),
                )
                yield Plant(f"three zones of {thing.id}", (thing.id,), edits)


def _text(base: Fraction, unit: str) -> str:
    """A length as a quotient, so that it stays exact."""
    inches = base / Fraction(127, 5) if unit == "in" else base
    return f"{inches.numerator} {unit} / {inches.denominator}"


def too_hard(ground: Ground) -> Iterator[Plant]:
    """The guide is said to be for younger readers than it is written for."""
    grade = value_of(ground.main.node, "audience", "reading grade")
    own, words, _ = measured(Book(ground.guide))
    if isinstance(grade, ScalarNode) and words >= LEAST_WORDS and own > 1 + MARGIN:
        yield Plant("the reading grade", ("audience",), (ground.main.replace(grade, "1"),))


def notice_of_harm(ground: Ground) -> Iterator[Plant]:
    """What can hurt somebody is told under the word for things that only spoil."""
    return with_caution(
        ground,
        "level: notice, hazard: The rim is rough., consequence: It can cut you., avoidance: Keep off it.",
    )


def mirrored_without_hands(ground: Ground) -> Iterator[Plant]:
    """A part is said to mirror another, and nobody says which is left and which is right."""
    parts = [(thing, node) for thing, _, node in ground.thing_nodes("parts")]
    for (one, _), (two, node) in zip(parts, parts[1:], strict=False):
        if pair_of(node, "mirror of") is None:
            edit = ground.main.with_pair(node, f"mirror of: {one.id}")
            yield Plant(two.id, (two.id,), (edit,))


def told_by_nothing(ground: Ground) -> Iterator[Plant]:
    """Parts that look alike are no longer told apart."""
    things = [thing for thing, _, _ in ground.thing_nodes("parts")]
    for thing, _, node in ground.thing_nodes("parts"):
        own = silhouette(thing)
        alike = [t for t in things if t.id != thing.id and not t.words.get("told_by")]
        others = [found for t in alike if (found := silhouette(t)) is not None]
        if pair_of(node, "told by") is not None and own is not None and any(similar(own, o) for o in others):
            yield Plant(thing.id, (thing.id,), ground.main.without_pair(node, "told by"))


def nearly_alike(ground: Ground) -> Iterator[Plant]:
    """A bought ring lies beside another of nearly its size."""
    for thing, _, node in ground.thing_nodes("parts"):
        size = ground.written(thing, "outside")
        plain = thing.form == "ring" and thing.words.get("source") == "bought" and thing.count == 1
        if size is None or not plain or not node.flow_style or silhouette(thing) is None:
            continue
        parts = value_of(ground.main.node, "parts")
        spot = next((s for s in ground.spots if s.sheet is ground.main and not s.repeat), None)
        if isinstance(parts, MappingNode) and spot is not None and not thing.words.get("told_by"):
            text = f"spare_ring: {{like: {thing.id}, outside: {ground.main.source(size.node)} * 0.95}}"
            more = "{verify: spare_ring, shows: a round hole, else: Take another one.}"
            finished = value_of(ground.main.node, "finished")
            if isinstance(finished, MappingNode) and pair_of(finished, "left over") is None:
                edits: tuple[Edit, ...] = (
                    ground.main.with_pair(parts, text),
                    *spot.sheet.with_item(spot.items, len(spot.items.value), more),
                    ground.main.with_pair(finished, "left over: [spare_ring]"),
                )
                yield Plant(f"beside {thing.id}", ("parts", thing.id, "finished", *spot.things), edits)


def glue_for_adults(ground: Ground) -> Iterator[Plant]:
    """Young builders use a glue that an adult has to decide on."""
    ages = value_of(ground.main.node, "audience", "ages")
    rows = [trade_paint(t.words.get("paint", "")) for t in ground.guide.things.values() if t.form == "paint"]
    if any(row is not None and row.k6 == "no" for row in rows):
        return  # that is told as well
    if 8 * (1 + len(list(ground.of("do")))) > 1 + len(ground.spots):
        return  # too much in free words is another fault
    materials = value_of(ground.main.node, "materials")
    label = "label: {working time: 20 s, tack: 30 s, set: 1 min, full cure: 5 min}"
    melt = f"melt: {{name: hot-melt glue, form: adhesive, adhesive: hot melt, amount: 2 mL, {label}}}"
    for spot in ground.spots:
        alone = spot.sheet is ground.main and not spot.repeat and not spot.step.stage.per_class
        if alone and "adult" not in spot.step.who and isinstance(materials, MappingNode):
            edits = spot.sheet.with_item(
                spot.items, len(spot.items.value), '{do: "Press a dot of {with} onto a scrap", with: melt}'
            )
            if isinstance(ages, ScalarNode) and edits:
                young = ground.main.replace(ages, "9-11")
                things = ("audience", "materials", *spot.things)
                yield Plant(spot.step.id, things, (ground.main.with_pair(materials, melt), young, *edits))


KINDS = (
    Kind("chain between the steps of the ruler", ("chain-shown",), chain_odd, "warning"),
    Kind("too hard to read", ("reading-grade",), too_hard, "warning"),
    Kind("notice of harm", ("signal-word",), notice_of_harm),
    Kind("mirrored without hands", ("hand",), mirrored_without_hands),
    Kind("told by nothing", ("similar-parts",), told_by_nothing, "warning"),
    Kind("nearly alike", ("similar-parts",), nearly_alike, "warning"),
    Kind("glue for an adult to decide on", ("young-audience-ask",), glue_for_adults, "warning"),
)
