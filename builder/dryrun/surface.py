"""Whether a surface is bare and can be reached by finger or tool."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from builder.dryrun import needs as n
from builder.dryrun.bench import Seat, Stretch
from builder.dryrun.shape import bore_of, length_of, outside_of
from builder.dryrun.work import Work
from builder.findings import Place
from builder.guide.model import Thing
from builder.trade.fits import finger_reach
from builder.trade.tools import ToolKind, tool_kind
from builder.trade.usual import usual

LEAST_GAP = Fraction(
    3
)  # mm beside a part that is part of the way in: a brush lies flat in it (common practice)


def surface(
    work: Work,
    host: str,
    side: str,
    stretch: Stretch | None,
    what: str,
    at: Place,
    adhesive: str = "",
    allowed: frozenset[str] = frozenset(),
) -> bool:
    """Record that a stretch of a surface is bare and in reach: `what` is glue, mark or place."""
    cover = _covered_by(work, host, side, stretch, allowed, what == "glue")
    if cover is not None:
        return work.need(
            n.Bare(
                at=at,
                met=False,
                host=host,
                what=what,
                state="covered",
                other=cover.child,
                other_at=cover.cause.at,
            )
        )
    if side in ("outside", "edge", "face"):
        shell = _inside_of(work, host, stretch)
        if shell is not None:
            return work.need(
                n.Bare(
                    at=at,
                    met=False,
                    host=host,
                    what=what,
                    state="inside",
                    other=shell.host,
                    other_at=shell.cause.at,
                )
            )
    if side == "inside" and stretch is not None:
        return _reach(work, host, stretch, what, at, adhesive)
    return work.need(n.Bare(at=at, host=host, what=what))


def _covered_by(
    work: Work, host: str, side: str, stretch: Stretch | None, allowed: frozenset[str], partly: bool
) -> Seat | None:
    """What lies over a stretch: over all of it, or (for glue) over a part of it."""
    if stretch is None:
        return None
    lo, hi = stretch
    for seat in work.bench.children(host):
        if seat.side != side or seat.stretch is None or seat.child in allowed or seat.angle is not None:
            continue
        if (
            seat.across is not None
            or seat.fit in ("loose", "former")
            or work.thing(seat.child).sort == "tool"
        ):
            continue
        a, b = seat.stretch
        if (a < lo < b) if lo == hi else (a < hi and lo < b) if partly else (a <= lo and hi <= b):
            return seat
    return None


def _inside_of(work: Work, item: str, stretch: Stretch | None) -> Seat | None:
    """The seat by which an item is inside something, if the stretch of its outside is in there too."""
    seat = next((each for each in work.bench.upward(item) if each.side != "outside"), None)
    if seat is None or seat.side != "inside" or seat.stretch is None or seat.fit == "loose":
        return None
    total = length_of(work.thing(seat.host))
    if total is None:
        return None
    lo, hi = seat.stretch
    if stretch is not None and seat.child == item:
        lo, hi = (hi - stretch[1], hi - stretch[0]) if seat.flipped else (lo + stretch[0], lo + stretch[1])
    return seat if lo >= 0 and hi <= total else None


def _reach(work: Work, host: str, stretch: Stretch, what: str, at: Place, adhesive: str) -> bool:
    """From an open end with nothing filling the way, no deeper than finger or tool goes."""
    thing = work.thing(host)
    total, bore = length_of(thing), bore_of(thing)
    if total is None or bore is None:
        return work.need(n.Bare(at=at, host=host, what=what))
    ways: list[tuple[Fraction, Fraction]] = []  # depth, gap
    blockers: list[tuple[Fraction, Seat]] = []
    for low in (True, False):
        depth = stretch[1] if low else total - stretch[0]
        gap = _gap(work, host, stretch, low, total, bore)
        if isinstance(gap, Seat):
            blockers.append((depth, gap))
        else:
            ways.append((depth, gap))
    if not ways:
        blocker = min(blockers, key=lambda b: b[0])[1]  # the one on the shorter way
        return work.need(
            n.Bare(
                at=at,
                met=False,
                host=host,
                what=what,
                state="blocked",
                other=blocker.child,
                other_at=blocker.cause.at,
            )
        )
    depth, gap = min(ways)
    reach = _longest_reach(work, gap, what, adhesive)
    if reach is None:
        return work.need(n.Bare(at=at, host=host, what=what))
    reaches = [(d, _longest_reach(work, g, what, adhesive)) for d, g in ways]
    met = any(r is None or d <= r for d, r in reaches)
    told = frozenset() if met else _told_reach(work, what, adhesive)
    return work.need(
        n.Bare(
            at=at,
            met=met,
            host=host,
            what=what,
            state="open" if met else "far",
            depth=depth,
            reach=reach,
            reads=thing.reads("length", "inside") | told,
        )
    )


def _told_reach(work: Work, what: str, adhesive: str) -> frozenset[str]:
    """The stated reaches of the tools that would serve."""
    return frozenset().union(*(tool.reads("reach") for tool, _ in _tools(work, what, adhesive)))


def _gap(
    work: Work, host: str, stretch: Stretch, low: bool, total: Fraction, bore: Fraction
) -> Fraction | Seat:
    """The clear width between an end and the stretch; the seat of what fills the way, if something does."""
    gap = bore
    start, stop = (Fraction(0), stretch[0]) if low else (stretch[1], total)
    for seat in work.bench.children(host):
        if seat.side != "inside" or seat.stretch is None or seat.fit == "loose":
            continue
        for item in work.bench.below(seat.child):
            from builder.dryrun.placing import stretch_in

            place = stretch_in(work, item, host)
            size = outside_of(work.thing(item))
            if place is None or size is None:
                continue
            lo, hi = max(place[0], Fraction(0)), min(place[1], total)
            if lo >= hi or not (lo < stop and hi > start):
                continue
            left = (bore - size) / 2
            if left < LEAST_GAP:
                return seat
            gap = min(gap, left)
    return gap


def _longest_reach(work: Work, gap: Fraction, what: str, adhesive: str) -> Fraction | None:
    """How deep finger or tool goes; None if a tool serves whose reach nobody states."""
    longest = finger_reach(gap)
    if "with" in work.action.where and not work.action.refs("with"):
        return None  # it is done with something that could not be read
    for tool, kind in _tools(work, what, adhesive):
        reach = tool.mm("reach") or (kind.reach if kind is not None else None)
        width = tool.mm("diameter") or Fraction(0)
        if reach is None:
            return None
        if width < gap:
            longest = max(longest, reach)
    return longest


def _tools(work: Work, what: str, adhesive: str) -> Iterator[tuple[Thing, ToolKind | None]]:
    """The tools that are named, or that such work is usually done with."""
    row = usual("glue" if what == "glue" else "mark" if what == "mark" else "attach", adhesive)
    kinds = {key for group in (row.tools if row is not None else ()) for key in group}
    named = {ref.id for ref in work.action.refs("with")}
    for tool in work.guide.things.values():
        if tool.sort == "tool":
            kind = tool_kind(tool.name)
            if tool.id in named or (kind is not None and kind.key in kinds):
                yield tool, kind
