"""A part is cut across its grain.

What: A part that says which way its `grain` runs is cut from stock so that it does. A tube that is rolled
lays the grain of its blank along the tube. The stock says which way its own grain runs.

Why: Wood snaps along its grain, so a fin breaks off at its root. Paper that is rolled across its grain
creases and springs open.

Bad:
    board: {form: sheet, size: 100 mm x 40 mm, thickness: 2 mm, grain: along length}
    rib:   {form: slab, of: board, outline: {rectangle: 30 mm x 90 mm}, grain: along length}

Good:
    rib:   {form: slab, of: board, outline: {rectangle: 30 mm x 90 mm}, grain: along width}
"""

from __future__ import annotations

from builder.checks.base import Check, Look, numbers, see
from builder.dryrun import needs as n
from builder.dryrun.run import Frame
from builder.findings import Finding, Severity
from builder.guide.model import Guide, Thing
from builder.trade.grain import grain_of_kind


def find(need: n.Grain, frame: Frame, look: Look) -> Finding | None:
    """The grain of what is cut runs as the part says."""
    if need.met:
        return None
    thing, material = look.guide.things[need.thing], look.guide.things[need.material]
    row = grain_of_kind(material.name)
    why = row.why if row is not None else ""
    runs = told(thing, look.guide)
    written = see(thing.place("grain"), "which way the grain has to run")
    if need.unsaid:
        return UNSAID.finding(
            material.at,
            f"the grain of the {thing.name} has to run {runs}, but nothing is said of the grain of the "
            f"{material.name}",
            also=written,
            why=why,
        )
    each = f"{need.count} of the {thing.name}" if need.count > 1 else f"the {thing.name}"
    if need.left:
        message = (
            f"the {material.name} leaves what is stated only if {each} is cut across the grain, which has to "
            f"run {runs}"
        )
    else:
        message = (
            f"{each} can be cut from what is left of the {material.name} only across the grain, which has to "
            f"run {runs}"
        )
    facts = numbers(need.reads)
    return CHECK.finding(
        need.at,
        message,
        also=(*written, *see(material.place("grain"), f"the grain of the {material.name}")),
        why=why,
        suspects=facts | {f"grain:{thing.id}", f"stock:{material.id}"},
        rests_on=facts,
    )


def told(thing: Thing, guide: Guide) -> str:
    """Which way the grain of a part has to run: "from root to tip", "along its length", "along the tube"."""
    text = thing.words["grain"]
    tube = guide.things.get(thing.blank_of)
    if tube is not None:
        return f"along the {tube.name}"
    return text.replace("along ", "along its ") if text.startswith("along ") else f"from {text}"


CHECK = Check(
    "grain", Severity.ERROR, "need",
    why="A thin part snaps along its grain, and a sheet that is bent across it creases.",
    mend="Turn the part on its stock, take larger stock or stock whose grain runs the other way, or leave "
         "`grain` out where it makes no difference.",
    find=find, need=n.Grain, source="common practice",
)  # fmt: skip

UNSAID = Check(
    "grain-unsaid", Severity.WARNING, "need",
    why="Nobody can tell which way the part has to lie on its stock.",
    mend="Write which way it runs: `grain: along length` or `grain: along width`.",
    find=find, need=n.Grain, source="common practice",
)  # fmt: skip
