"""`make bench`: what a drawing takes, in units of composing the rocket guide's YAML in the same run.

Every drawing of every route of the three guides: steps, stages (pulled apart, held), kits, strips of the
table, sheets of patterns and gauges.  Processor time; the views are forgotten before each drawing, and the
YAML is composed again between the drawings, so that both meet the same machine.  Nothing here is a test.
"""

from __future__ import annotations

import time
from collections.abc import Callable, Iterator
from pathlib import Path
from statistics import median
from typing import NamedTuple

import yaml

from builder.drawings import angled, half_section, table_strip, views
from builder.drawings.catalogue import carrier
from builder.drawings.gauges import gauge_sheets
from builder.drawings.of_exploded import exploded, of_stage
from builder.drawings.of_pattern import pattern_sheets
from builder.drawings.of_stage import assembled, held, whole
from builder.drawings.of_step import drawing_of
from builder.drawings.shapes import Drawing
from builder.drawings.svg import write
from builder.drawings.table_strip import strip
from builder.dryrun.kinds import VERBS
from builder.dryrun.run import DryRun, Frame, run_all
from builder.guide.model import Guide
from builder.guide.reader import read_guide

GUIDES = Path(__file__).parents[1] / "guides"
NAMES = ("rolled-rocket", "card-telescope", "sail-cart")

MOST = {"step": 5.0, "axonometric view": 12.0}
"""Units that a drawing takes at most: a step's in the median, an axonometric view always."""

LARGEST = 15 * 1024
"""Bytes of an SVG at most."""

Draws = Callable[[], list[Drawing]]


class Row(NamedTuple):
    """A drawing: its kind and name, what it took in units, and the bytes of its SVG."""

    kind: str
    name: str
    units: float
    size: int


def composed(text: str) -> float:
    """Processor seconds of composing a YAML text once."""
    start = time.process_time()
    yaml.compose(text, Loader=yaml.CSafeLoader)
    return time.process_time() - start


def jobs(guide: Guide, run: DryRun) -> Iterator[tuple[str, str, Draws]]:
    """Everything that is drawn of a route: kind, name, and how."""
    steps: dict[str, list[Frame]] = {}
    stages: dict[str, list[Frame]] = {}
    for frame in run.frames:
        steps.setdefault(frame.step.id, []).append(frame)
        stages.setdefault(frame.step.stage.name, []).append(frame)
    for id, own in steps.items():
        yield "step", id, lambda own=own: [drawing_of(guide, own)]  # type: ignore[misc]  # bound at once
        after = own[-1].after
        yield (
            "strip",
            id,
            lambda own=own, after=after: _one(  # type: ignore[misc]
                strip(guide, own[0].before, after, "", {})
            ),
        )
    for name, own in stages.items():
        before, bench, lying = own[0].before, own[-1].after, own[0].step.stage.lying
        every = assembled(guide, bench)
        roots = [root for root in every if bench.below(root) != before.below(root)]
        for root in roots:
            yield (
                "axonometric view",
                f"{name}, {root} apart",
                lambda b=before, e=bench, r=root, lie=lying: _one(  # type: ignore[misc]
                    exploded(guide, e, r, "", before=b, lying=lie)
                ),
            )
        if not roots:
            yield (
                "axonometric view",
                f"{name}, parts",
                lambda b=before, e=bench: list(  # type: ignore[misc]
                    of_stage(guide, b, e, (), "")
                ),
            )
        for root in roots or every:
            yield (
                "axonometric view",
                f"{name}, {root} held",
                lambda b=before, e=bench, r=root, lie=lying: list(  # type: ignore[misc]
                    held(guide, e, [r], "", lie, b)
                ),
            )
    if guide.finished is not None:
        root = run.end.root(carrier(guide.things[guide.finished.what.id]))
        yield "axonometric view", "kit apart", lambda: _one(exploded(guide, run.end, root, ""))
        yield "axonometric view", "kit together", lambda: _one(whole(guide, run.end, root, ""))
    used = {item.thing for frame in run.frames for item in frame.after.items.values()}
    yield "sheets of patterns", "all", lambda: pattern_sheets(guide, (run,), things=used)
    yield "sheets of gauges", "all", lambda: list(gauge_sheets(guide, (run,)))


def _one(drawing: Drawing | None) -> list[Drawing]:
    return [] if drawing is None else [drawing]


def forget() -> None:
    """Every view that is kept is made anew."""
    for kept in (angled.angled, half_section.half_section, views.outside_view, table_strip.drawn):
        kept.cache_clear()


def taken(text: str) -> list[Row]:
    """Every drawing of every route.  What takes several drawings is shared out among them."""
    found = []
    for name in NAMES:
        guide = read_guide(GUIDES / name, VERBS)
        for run in run_all(guide):
            for kind, title, draws in jobs(guide, run):
                # the least of three: what the machine does besides only adds
                unit = min(composed(text) for _ in range(3))
                seconds = []
                for _ in range(3):
                    forget()
                    start = time.process_time()
                    drawings = draws()
                    seconds.append(time.process_time() - start)
                sizes = [len(write(d)) for d in drawings]
                if sizes:
                    each = min(seconds) / unit / len(sizes)
                    found += [Row(kind, f"{name} {title}", each, size) for size in sizes]
    return found


def main() -> None:
    """Print the median, the slowest and the largest of each kind."""
    text = (GUIDES / "rolled-rocket" / "guide.yml").read_text(encoding="utf-8")
    rows = taken(text)
    now = min(composed(text) for _ in range(9))
    print(f"in units of composing the YAML of the rocket guide, {now * 1000:.1f} ms")
    for kind in (*dict.fromkeys(row.kind for row in rows), ""):
        own = [row for row in rows if row.kind == kind or not kind]
        slow, large = max(own, key=lambda row: row.units), max(own, key=lambda row: row.size)
        bar = f" (at most {MOST.get(kind, MOST['step']):.0f})"
        print(f"{len(own):4} {kind or 'all':<20} median {median(row.units for row in own):5.1f}{bar}")
        print(f"{'':25} slowest {slow.units:5.1f} ({slow.name})")
        print(f"{'':25} largest {large.size:6,} bytes ({large.name})")
    over = [row for row in rows if row.size > LARGEST]
    print(f"larger than {LARGEST:,} bytes: {len(over)}")


if __name__ == "__main__":
    main()
