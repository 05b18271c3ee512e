"""`make bench`: what a step drawing takes, in units of composing the rocket guide's YAML in the same run.

Processor time; the views are forgotten before each drawing, so that each is made anew, and the YAML is
composed again between the drawings, so that both meet the same machine.  Nothing here is a test.
"""

from __future__ import annotations

import time
from pathlib import Path
from statistics import median

import yaml

from builder.drawings.half_section import half_section
from builder.drawings.of_step import drawing_of
from builder.drawings.svg import write
from builder.drawings.views import outside_view
from builder.dryrun.kinds import VERBS
from builder.dryrun.run import Frame, run_all
from builder.guide.reader import read_guide

GUIDES = Path(__file__).parents[1] / "guides"
NAMES = ("rolled-rocket", "card-telescope", "sail-cart")
MOST = 5.0
"""A step drawing takes at most so many units, in the median."""


def composed(text: str) -> float:
    """Processor seconds of composing a YAML text once."""
    start = time.process_time()
    yaml.compose(text, Loader=yaml.CSafeLoader)
    return time.process_time() - start


def taken(text: str) -> tuple[list[float], list[tuple[float, int, str]]]:
    """Processor seconds of the unit, time and again; those of every step drawing of every route, with the
    bytes of its SVG and its name."""
    units: list[float] = []
    found: list[tuple[float, int, str]] = []
    for name in NAMES:
        guide = read_guide(GUIDES / name, VERBS)
        for run in run_all(guide):
            frames: dict[str, list[Frame]] = {}
            for frame in run.frames:
                frames.setdefault(frame.step.id, []).append(frame)
            for step, own in frames.items():
                units.append(composed(text))
                outside_view.cache_clear()
                half_section.cache_clear()
                start = time.process_time()
                drawing = drawing_of(guide, own)
                found.append((time.process_time() - start, len(write(drawing)), f"{name} {step}"))
    return units, found


def main() -> None:
    """Print the median and the slowest, and the largest file."""
    units, rows = taken((GUIDES / "rolled-rocket" / "guide.yml").read_text(encoding="utf-8"))
    one = median(units)
    middle = median(seconds for seconds, _, _ in rows)
    slowest = max(rows)
    largest = max(rows, key=lambda row: row[1])
    print(f"{len(rows)} step drawings; compose the YAML of the rocket guide {one * 1000:.1f} ms")
    told = (("median", middle, f"(at most {MOST:.0f})"), ("slowest", slowest[0], slowest[2]))
    for title, seconds, more in told:
        name = f"step drawing, {title}"
        print(f"{name:<24}{seconds * 1000:8.1f} ms  {seconds / one:6.1f} x compose {more}")
    print(f"{'largest file':<24}{largest[1]:8,} bytes: {largest[2]}")


if __name__ == "__main__":
    main()
