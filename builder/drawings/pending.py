"""Glue that a step lays "where X will sit", at the place that it comes to: the steps after it are carried out
until X sits where it stays."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from msgspec.structs import replace

from builder.dryrun.bench import Bench, Wet
from builder.dryrun.effects import Close, Effect, Lift, Wetten
from builder.dryrun.homes import home_of, stretch_on
from builder.dryrun.run import Frame, carry_out
from builder.guide.model import Guide

FROM = "from "
"""What the spot of glue with a known place begins with; the end follows by which its part comes in."""


def placed_glue(guide: Guide, frames: Sequence[Frame]) -> tuple[Frame, ...]:
    """The frames of a step with such glue at its place on the host, wherever the bench holds it."""
    found: list[tuple[Wet, Wet]] = []
    for number, frame in enumerate(frames):
        for e in frame.effects:
            if isinstance(e, Wetten) and e.wet.pending and e.wet.stretch is None:
                placed = _placed(guide, e.wet, frames, number)
                if placed is not None:
                    found.append((e.wet, placed))
    if not found:
        return tuple(frames)

    def known(wet: Wet) -> Wet:
        return next((new for old, new in found if old == wet), wet)

    def on(bench: Bench) -> Bench:
        return replace(bench, wets=tuple(known(w) for w in bench.wets))

    def effect(e: Effect) -> Effect:
        if isinstance(e, Wetten | Close | Lift) and e.wet is not None:
            return replace(e, wet=known(e.wet))
        return e

    return tuple(
        replace(f, before=on(f.before), after=on(f.after), effects=tuple(effect(e) for e in f.effects))
        for f in frames
    )


def _placed(guide: Guide, wet: Wet, frames: Sequence[Frame], number: int) -> Wet | None:
    home = home_of(guide, wet, _later(guide, frames, number))
    if home is None:
        return None
    bench, item = home
    stretch, path = stretch_on(guide, bench, item, wet.host), bench.path(item, wet.host)
    if stretch is None or path is None:
        return None
    return replace(wet, stretch=stretch, spot=FROM + bench.seats[path[-2]].came_from)


def _later(guide: Guide, frames: Sequence[Frame], number: int) -> Iterator[Frame]:
    """What follows in the step, and then in the route, carried out step by step as far as it is asked for."""
    yield from frames[number + 1 :]
    own, bench = frames[-1].step.id, frames[-1].after
    for route in guide.routes:
        ids = [s.id for s in route.steps]
        if own in ids:
            for step in route.steps[ids.index(own) + 1 :]:
                made, _ = carry_out(guide, [step], bench)
                yield from made
                bench = made[-1].after if made else bench
            return
