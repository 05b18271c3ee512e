"""Glue that meets: which wet glue serves a joint, whether the joint covers it in time, and how it closes."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from builder.dryrun import needs as n
from builder.dryrun.bench import Joint, Stretch, Wet
from builder.dryrun.effects import Close
from builder.dryrun.fitting import own_stretch
from builder.dryrun.placing import covers, frame_in, stretch_in
from builder.dryrun.shape import (
    length_of,
)
from builder.dryrun.work import Work
from builder.findings import Place


def eligible(work: Work, child: str, hosts: Sequence[str]) -> list[Wet]:
    """The wet glue that was laid for this joint: on either side, meant for the other."""
    moving = set(work.bench.below(child))
    standing = {item for host in hosts for item in work.bench.assembly(host)} - moving
    found = []
    for wet in work.bench.wets:
        on_host = wet.host in standing and wet.meets & moving
        on_child = wet.host in moving and wet.meets & standing
        meant = child in wet.meets or (wet.host == child and bool(wet.meets & set(hosts)))
        if (on_host or on_child) and (meant or not _dry(work, wet)) and not _other_face(work, wet, child):
            found.append(wet)
    return found


def _other_face(work: Work, wet: Wet, child: str) -> bool:
    """Whether the glue lies at a place of the other face: outside on a tube into which the child goes, inside
    in one over which it goes, or on that face of the child that the host does not meet."""
    seat = work.bench.seats.get(child)
    if work.action.verb.kind != "seat" or seat is None or not wet.spot:
        return False
    faces = {seat.host: seat.side, child: "inside" if seat.side == "outside" else "outside"}
    walls = ("inside", "outside")
    return wet.side in walls and faces.get(wet.host, "") in walls and faces[wet.host] != wet.side


def _dry(work: Work, wet: Wet) -> bool:
    """Whether a bead has set in the open: what only happens to come near it does not meet it any more."""
    set_after = work.guide.things[wet.adhesive].mm("set")
    return set_after is not None and work.end - wet.at > set_after


def close(
    work: Work,
    child: str,
    hosts: Sequence[str],
    *,
    fit: str,
    steady: str,
    held_by: str = "",
    at: Place,
    kind: str = "glue",
    judge_cover: bool = True,
    self_held: bool = False,
) -> list[Wet]:
    """Close the joint between a child that has just been placed and its hosts; the glue that served."""
    host = hosts[0]
    wets = eligible(work, child, hosts)
    moving = set(work.bench.below(child))
    existing = [j for j in work.bench.joints if (j.a in moving) != (j.b in moving) and not j.cause.supposed]
    if not wets and not fit and not existing and not self_held:
        pair = {child, host}
        astray = (w for w in work.bench.wets if w.host in pair and not w.meets.isdisjoint(pair))
        faced = next((w for w in astray if _other_face(work, w, child)), None)
        other = _misdirected(work, child, hosts) if faced is None else None
        work.need(n.Held(at=at, met=False, child=child, host=host, other=other))
        if other is not None:
            _met_in_time(work, other, at)
        cause = work.cause(at=at, supposed=True)
        laid = faced or other
        adhesive = laid.adhesive if laid is not None else _probable(work, child)
        work.suppose(Close(work.joint(child, host, "supposed", cause, adhesive, "nested"), cause, laid))
        return []
    if not fit and not self_held:
        work.need(n.Held(at=at, child=child, host=host))
    for joint in existing:
        if joint.adhesive and kind == "glue":
            _still_open(work, joint, at)
    for wet in wets:
        partner = _partner(work, wet, child, hosts)
        if judge_cover and not wet.cause.supposed:
            _cover_need(work, wet, partner, child, hosts)
        _met_in_time(work, wet, at)
        joint = work.joint(
            wet.host,
            partner,
            kind if kind != "fit" else "glue",
            work.cause(at=at),
            wet.adhesive,
            steady,
            held_by,
        )
        work.effect(Close(joint, joint.cause, wet))
    if fit and not wets:
        joint = work.joint(child, host, "fit", work.cause(at=at), "", fit)
        work.effect(Close(joint, joint.cause))
    return wets


def _probable(work: Work, child: str) -> str:
    """The adhesive that was probably meant for it: what the guide lays for it, or the only one there is."""
    thing = work.thing(child).id
    for step in work.guide.every_step():
        for action in step.each_action():
            if action.verb.kind == "glue" and any(ref.id == thing for ref in action.refs("for")):
                for ref in action.refs("with"):
                    if ref.id in work.guide.things and work.guide.things[ref.id].form == "adhesive":
                        return ref.id
    known = [t.id for t in work.guide.things.values() if t.sort == "material" and t.form == "adhesive"]
    return known[0] if len(known) == 1 else ""


def _met_in_time(work: Work, wet: Wet, at: Place) -> None:
    label = work.guide.things[wet.adhesive]
    limit = label.mm("working_time")
    if limit is not None and not wet.cause.supposed and work.timed:
        age = work.end - wet.at
        reads = label.reads("working_time")
        work.need(n.Open(at=at, met=age <= limit, wet=wet, age=age, limit=limit, reads=reads))


def _still_open(work: Work, joint: Joint, at: Place) -> None:
    label = work.guide.things[joint.adhesive]
    limit = label.mm("working_time")
    if limit is None or not work.timed:
        return
    age = work.end - joint.closed
    wet = Wet(
        joint.a,
        "",
        joint.adhesive,
        frozenset((joint.b,)),
        joint.closed,
        joint.cause,
        joint.cause.at,
        joint.cause.at,
    )
    work.need(
        n.Open(at=at, met=age <= limit, wet=wet, age=age, limit=limit, reads=label.reads("working_time"))
    )


def _misdirected(work: Work, child: str, hosts: Sequence[str]) -> Wet | None:
    """Glue of this very step, on the same things, that is meant for another part."""
    moving = set(work.bench.below(child))
    standing = {item for host in hosts for item in work.bench.below(host)} - moving
    for wet in work.bench.wets:
        if wet.cause.step != work.step.id:
            continue
        if wet.host in standing:
            place = stretch_in(work, child, wet.host)
            if wet.stretch is None or place is None or covers(wet.stretch, place):
                return wet
        if wet.host in moving:
            return wet
    return None


def _partner(work: Work, wet: Wet, child: str, hosts: Sequence[str]) -> str:
    """The part on the other side of the glue."""
    moving = work.bench.below(child)
    if wet.host in moving:
        return next((h for h in hosts if h in wet.meets), hosts[0])
    if wet.pending:
        named = [item for item in moving if item in work.items_named(wet.pending)]
        if named:
            return named[0]
    if wet.stretch is not None:
        for item in moving:
            place = stretch_in(work, item, wet.host)
            if (
                item in wet.meets
                and place is not None
                and covers(wet.stretch, place)
                and (item == child or work.bench.seats[item].side == "outside")
            ):
                return item
    return child


def _cover_need(work: Work, wet: Wet, partner: str, child: str, hosts: Sequence[str]) -> None:
    moving = work.bench.below(child)
    covered: Stretch | None = None
    if wet.host in moving:
        covered = _contact_on_child(work, wet.host, hosts)
        if wet.stretch is None or covered is None:
            return
    else:
        covered = stretch_in(work, partner, wet.host)
        if wet.pending or wet.stretch is None:
            work.need(n.Covered(at=wet.where, wet=wet, child=partner, host=wet.host))
            return
        if covered is None:
            covered = _flat_contact(work, partner, wet)
            if covered is None:
                return
    met = covers(wet.stretch, covered)
    work.need(
        n.Covered(
            at=wet.where,
            met=met,
            wet=wet,
            child=partner,
            host=wet.host,
            lo=covered[0],
            hi=covered[1],
            reads=wet.cause.reads,
        )
    )


def _flat_contact(work: Work, partner: str, wet: Wet) -> Stretch | None:
    seat = work.bench.seats.get(partner)
    if seat is None or seat.host != wet.host:
        return None
    return seat.stretch


def _contact_on_child(work: Work, item: str, hosts: Sequence[str]) -> Stretch | None:
    """What of the item's own axis lies within the hosts, taken together."""
    seat = work.bench.seats.get(item)
    own = length_of(work.thing(item), work.folded(item))
    if own is None:
        return None
    if seat is not None and seat.side == "hole":
        through = [work.thing(h).mm("thickness") for h in hosts]
        if any(each is None for each in through):
            return None  # unknown, and why has been told
        depth = sum((each for each in through if each is not None), Fraction(0))
        start = seat.stretch[0] if seat.stretch is not None else Fraction(0)
        return (max(-start, Fraction(0)), depth - start)
    frame = frame_in(work.bench, item, hosts[0])
    total = length_of(work.thing(hosts[0]))
    if frame is None or total is None:
        return None
    lo, hi = own_stretch(frame, Fraction(0), total)
    return (max(lo, Fraction(0)), min(hi, own))
