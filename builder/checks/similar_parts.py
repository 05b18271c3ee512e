"""Two parts that look the same lie on the table together.

What: Parts of one shape whose sizes all differ by less than 15 %, and are not the same, do not lie loose on
the table at one moment, unless something tells them apart (`told by`).

Why: The builder takes the wrong one, and it nearly fits.

Bad:
    front_ring: {form: ring, source: bought, outside: 30 mm, inside: 22.4 mm, length: 10 mm}
    rear_ring:  {form: ring, source: bought, outside: 31 mm, inside: 22.4 mm, length: 10 mm}

Good:
    front_ring: {form: ring, source: bought, outside: 30 mm, inside: 22.4 mm, length: 10 mm, told by: an F}
    rear_ring:  {form: ring, source: bought, outside: 31 mm, inside: 22.4 mm, length: 10 mm}
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from builder.checks.base import Check, Look, see
from builder.dryrun.bench import Bench
from builder.dryrun.shape import is_axial, is_flat
from builder.findings import Finding, Severity
from builder.guide.model import Thing

NEAR = Fraction(15, 100)
Sizes = tuple[str, tuple[Fraction, ...]]


def find(look: Look) -> Iterator[Finding]:
    """One finding for each pair of parts that can be taken for one another."""
    run = look.run
    assert run is not None
    shaped = [
        (thing, found) for thing in look.guide.things.values() if (found := silhouette(thing)) is not None
    ]
    pairs = [
        (a, b)
        for i, (a, first) in enumerate(shaped)
        for b, second in shaped[i + 1 :]
        if similar(first, second) and not (a.words.get("told_by") or b.words.get("told_by"))
    ]
    met: dict[str, list[Thing]] = {}  # the first of those that lie together -> all of them
    for a, b in pairs:
        if any(not f.prep and _loose(f.before, a) and _loose(f.before, b) for f in run.frames):
            first = next((id for id, group in met.items() if a in group or b in group), a.id)
            group = met.setdefault(first, [])
            group += [thing for thing in (a, b) if thing not in group]
    for group in met.values():
        *names, last = [f"the {thing.name}" for thing in group]
        others = (see(thing.at, f"the {thing.name}") for thing in (group[0], *group[2:]))
        yield CHECK.finding(
            group[1].at,
            f"{', '.join(names)} and {last} lie on the table together, and differ by less than 15 %",
            also=tuple(each for found in others for each in found),
            suspects={f"similar:{a.id}+{b.id}" for a, b in pairs if a in group},
            rests_on={f"loose:{thing.id}" for thing in group},
        )


def silhouette(thing: Thing) -> Sizes | None:
    """The family of shapes of a part, and the sizes by which an eye tells it; None if it has none."""
    if thing.sort != "part" or thing.blank_of or thing.tapers:
        return None
    if is_axial(thing) and thing.form in ("ring", "disc", "rod", "tube"):
        outside, length = thing.mm("outside") or thing.mm("diameter"), thing.mm("length")
        unknown = "inside" in thing.values and thing.mm("inside") is None
        if outside is None or length is None or unknown:
            return None
        inside = thing.mm("inside") or Fraction(0)
        return ("hollow" if inside else "solid", (outside, length, inside))
    if is_flat(thing) and thing.form in ("slab", "strip"):
        shape = thing.outline.shape if thing.outline is not None else "rectangle"
        sizes = [thing.mm(key) for key in ("length", "width")]
        known = sorted(size for size in sizes if size is not None)
        return (shape, tuple(known)) if len(known) == 2 and shape == "rectangle" else None
    return None


def similar(a: Sizes, b: Sizes) -> bool:
    """Whether all sizes differ by less than 15 % of the larger, and one of them differs."""
    if a[0] != b[0] or a[1] == b[1]:
        return False
    return all(abs(x - y) < NEAR * max(x, y) or x == y for x, y in zip(a[1], b[1], strict=True))


def _loose(bench: Bench, thing: Thing) -> bool:
    keys = [key for key in bench.items if key == thing.id or key.rpartition(" ")[0] == thing.id]
    return any(
        key not in bench.seats and not bench.on.get(key) and bench.items[key].thing == thing.id
        for key in keys
    )


CHECK = Check(
    "similar-parts", Severity.WARNING, "run",
    why="The builder takes the wrong one, and it nearly fits.",
    mend="Make one of them in a later step, or say what tells them apart: `told by: an F in pencil`.",
    find=find, source="pictorial assembly instructions: similar parts are confused",
)  # fmt: skip
