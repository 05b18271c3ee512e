"""Exploded views of a bench: what a stage puts together, or the kit, with the letters of the parts table."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from builder.drawings.alternative import listed
from builder.drawings.angled import angled, fitting
from builder.drawings.assembly import MOST, is_part
from builder.drawings.exploded import Apart, pulled_apart
from builder.drawings.letters import called, letters_of
from builder.drawings.lying import lies
from builder.drawings.of_bench import Sitting, placed, settle, thing_of, tied_to
from builder.drawings.scene import Placed, Scene
from builder.drawings.shapes import Drawing, stacked
from builder.dryrun.bench import Bench
from builder.guide.model import Guide
from builder.guide.wording import name_of

SIZE = (150.0, 100.0)
"""Width and height on paper that one exploded view is drawn for, without its names, mm."""

LOOSE = (46.0, 30.0)
"""Width and height on paper of a part that is only made, mm."""

ROW = 3
"""So many loose parts stand in a row."""


def exploded(
    guide: Guide,
    bench: Bench,
    root: str,
    title: str,
    *,
    before: Bench | None = None,
    lying: str = "",
    size: tuple[float, float] = SIZE,
) -> Drawing | None:
    """What sits on a root pulled apart, as far as it was seated since `before`; None if it has no size."""
    found = scene_apart(guide, bench, root, title, before, lying)
    if found is None:
        return None
    scene, apart = found
    drawing = angled(scene, apart.trails, size)
    return drawing._replace(title=title, alt=_alternative(guide, apart, drawing))


def scene_apart(
    guide: Guide, bench: Bench, root: str, title: str, before: Bench | None = None, lying: str = ""
) -> tuple[Scene, Apart] | None:
    """The scene of an exploded view, with how it was pulled apart; None if its root has no size."""
    settled = settle(guide, bench, root, lies(guide, root, lying))
    if not settled:
        return None
    settled |= tied_to(guide, bench, settled)
    apart = pulled_apart(guide, bench, settled, root, before)
    return Scene(title, lettered(guide, apart.settled)), apart


def of_stage(
    guide: Guide,
    before: Bench,
    bench: Bench,
    roots: Iterable[str],
    title: str,
    lying: str = "",
    size: tuple[float, float] = SIZE,
) -> tuple[Drawing, ...]:
    """How what a stage adds goes together, a view for each root; of one that only makes parts, those."""
    wanted = [r for r in roots if r in bench.items][:MOST]
    size = (size[0], size[1] if len(wanted) < 2 else 1.5 * size[1] / len(wanted))
    made = (exploded(guide, bench, r, title, before=before, lying=lying, size=size) for r in wanted)
    if found := tuple(d for d in made if d is not None):
        return found
    new = [i for i in bench.items if i not in before.items and i not in bench.seats and is_part(guide, i)]
    parts = loose_parts(guide, bench, [i for i in new if not blank(guide, i)], title)
    return (parts,) if parts is not None else ()


def loose_parts(guide: Guide, bench: Bench, items: Iterable[str], title: str) -> Drawing | None:
    """Parts beside one another at one scale, each kind once, with its letter and how many there are."""
    kinds: dict[str, list[str]] = {}
    for item in items:
        kinds.setdefault(bench.items[item].thing, []).append(item)
    scenes: dict[str, Scene] = {}
    for thing, copies in kinds.items():
        settled = settle(guide, bench, copies[0], lies(guide, copies[0]))
        if settled:
            one = lettered(guide, {copies[0]: settled[copies[0]]}, {thing: len(copies)})
            scenes[thing] = Scene(title, one)
    if not scenes:
        return None
    scale = min(fitting(scene, LOOSE) for scene in scenes.values())
    drawn = [angled(scene, (), LOOSE, scale) for scene in scenes.values()][: ROW * ROW]
    rows = [stacked(drawn[i : i + ROW], title, level=True, gap=8.0) for i in range(0, len(drawn), ROW)]
    said = listed([with_letter(guide, t, len(kinds[t])) for t in scenes])
    return stacked(rows, title)._replace(alt=f"The parts of this stage, all at one scale: {said}.")


def blank(guide: Guide, item: str) -> bool:
    """True for a piece of stock on its way to become a part."""
    thing = thing_of(guide, item)
    return thing is not None and bool(thing.blank_of)


def lettered(
    guide: Guide, settled: Mapping[str, Sitting], counts: Mapping[str, int] | None = None
) -> tuple[Placed, ...]:
    """Settled items as parts of a scene, each kind with its letter, its number and its name."""
    tally = _tally(guide, settled) if counts is None else counts
    found = []
    for item, sitting in settled.items():
        part = placed(guide, item, sitting, new=False, label=True)
        thing = thing_of(guide, item)
        found.append(part if thing is None else part._replace(name=called(guide, thing.id, tally[thing.id])))
    return tuple(found)


def _tally(guide: Guide, items: Iterable[str]) -> dict[str, int]:
    """How many there are of each kind, by its id."""
    found: dict[str, int] = {}
    for item in items:
        if (thing := thing_of(guide, item)) is not None:
            found[thing.id] = found.get(thing.id, 0) + 1
    return found


def names(guide: Guide, items: Iterable[str]) -> str:
    """`the body (A) and 4 fins (G)`."""
    return listed([with_letter(guide, id, n) for id, n in _tally(guide, items).items()])


def with_letter(guide: Guide, thing: str, count: int) -> str:
    """`the body (A)`, `4 fins (G)`."""
    letter = letters_of(guide).get(thing, "")
    found = guide.things[thing]
    name = f"the {found.name}" if count == 1 else f"{count} {name_of(found, count)}"
    return f"{name} ({letter})" if letter else name


def _alternative(guide: Guide, apart: Apart, drawing: Drawing) -> str:
    """What stays, what is pulled which way, what cannot be seen."""
    ways: dict[str, list[str]] = {}
    for item in apart.settled:
        if item not in drawing.unseen:
            ways.setdefault(apart.ways.get(item, ""), []).append(item)
    said = ["Exploded view, seen at an angle from above."]
    said += [f"Stays where it is: {names(guide, items)}." for way, items in ways.items() if not way]
    said += [f"Pulled {way}: {names(guide, items)}." for way, items in ways.items() if way]
    if drawing.unseen:
        said.append(f"Not to be seen in this picture: {names(guide, drawing.unseen)}.")
    return " ".join(said)
