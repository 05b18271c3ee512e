"""glue: adhesive is laid on a surface for a part that will meet it; a fillet closes by itself."""

from __future__ import annotations

from builder.dryrun import needs as n
from builder.dryrun.bench import Seat, Wet
from builder.dryrun.effects import Close, Place, Wetten
from builder.dryrun.placing import At, frame_in, resolve
from builder.dryrun.standing import known_edge
from builder.dryrun.surface import surface
from builder.dryrun.work import Work
from builder.guide.fields import Field, Holds
from builder.guide.model import Verb

FIELDS = (
    Field(
        "glue",
        Holds.THINGS,
        "What the glue is laid on.",
        "motor_tube",
        sort="part|tool",
        required=True,
        told=True,
    ),
    Field("inside", Holds.PLACE, "Where inside.", "thrust_seat", told=True),
    Field("outside", Holds.PLACE, "Where outside.", "rear_seat", told=True),
    Field("top", Holds.PLACE, "Where on the top.", "spot", told=True),
    Field("under", Holds.PLACE, "Where on the underside.", "its mark", told=True),
    Field("edge", Holds.TEXT, "Which edge.", "root", told=True),
    Field("face", Holds.TEXT, "Which face.", "under", told=True),
    Field(
        "with",
        Holds.THINGS,
        "The adhesive, and what spreads it.",
        "pva",
        sort="material|tool",
        required=True,
        told=True,
    ),
    Field("for", Holds.THINGS, "The part that will meet it.", "thrust_ring", sort="part", told=True),
    Field(
        "fillet to",
        Holds.THING,
        "The part that a bead in the corner joins it to.",
        "body",
        sort="part",
        told=True,
    ),
)

VERBS = (
    Verb(
        "glue",
        "glue",
        "put {with} {where} {tools}",
        ("glue", "run", "put", "spread", "brush", "dab", "squeeze", "lay", "smear", "coat"),
        "carry",
        "Adhesive is laid for one part; it must be met within its working time, and covered by the joint.",
    ),
)


def run(work: Work) -> None:
    """Glue lies wet for the part that it is for; a fillet closes at once."""
    action = work.action
    things = work.field_items("what")
    work.field_items("with")
    adhesive = work.adhesive()
    for item in things:
        work.demand("carry", [], "gluing", action.at, work.bench.assembly(item))
    if adhesive is None:
        return
    fillet = action.ref("fillet_to")
    if fillet is not None:
        _fillet(work, things, adhesive.id)
        return
    targets = action.refs("for")
    meets = _targets(work)
    astray = not targets and "for" in action.where  # what it is for could not be read: it serves what comes
    if astray:
        meets = list(work.bench.items)
    for item in things:
        already = [t for t in meets if _in_place(work, t, item)]
        seats = (work.bench.seats.get(t) for t in already)
        since = next((seat.cause.at for seat in seats if seat is not None), None)
        for_at = action.field_place("for") if targets else action.at
        if targets:
            named = targets[0].id
            work.need(
                n.NotYet(
                    at=action.at, met=not already, target=named, host=item, items=tuple(already), since=since
                )
            )
            if already:
                continue
        side, spot, found = _where(work, item)
        stretch = found.stretch
        if found.kind == "will sit":
            stretch = None
        bare = surface(
            work,
            item,
            side,
            stretch,
            "glue",
            action.field_place(side if side in action.where else "what"),
            adhesive.words.get("adhesive", ""),
        )
        cause = work.cause(found.reads, supposed=astray or not bare)
        wet = Wet(
            host=item,
            side=side,
            adhesive=adhesive.id,
            meets=frozenset(meets),
            at=work.start,
            cause=cause,
            where=action.field_place(side if side in action.where else "what"),
            for_at=for_at,
            stretch=stretch,
            across=found.across,
            angle=found.angles[0] if len(found.angles) == 1 else None,
            pending=found.other if found.kind == "will sit" else "",
            spot=spot,
            target=targets[0].id if targets else "",
        )
        lay = work.effect if bare else work.suppose  # what cannot be reached was laid somehow
        lay(Wetten(wet, cause))


def _targets(work: Work) -> list[str]:
    """The items that the glue is for, with all that sits on them."""
    out: list[str] = []
    for ref in work.action.refs("for"):
        for item in work.items(ref):
            work.exists(item, ref.at)
            out += [x for x in work.bench.below(item) if x not in out]
    return out


def _where(work: Work, item: str) -> tuple[str, str, At]:
    action = work.action
    for side in ("inside", "outside", "top", "under"):
        spot = action.spot(side)
        if spot is not None:
            return side, spot.text, resolve(work, spot, item, side)
    for field in ("edge", "face"):
        word = action.word(field)
        if word:
            if field == "edge":
                known_edge(work, item, word)
            return field, word, At("edge", end=word)
    return "outside", "", At("unknown")


def _in_place(work: Work, target: str, item: str) -> bool:
    """Whether the target has been joined to the item already (and is home)."""
    seat = work.bench.seats.get(target)
    if seat is not None and seat.host == item:
        return seat.home
    own = work.bench.seats.get(item)
    if own is not None and own.host == target:
        return own.home
    if seat is None or target == item or frame_in(work.bench, target, item) is None:
        return False
    while seat is not None and seat.host != item:
        seat = work.bench.seats.get(seat.host)
    return seat is not None and seat.home


def _fillet(work: Work, things: list[str], adhesive: str) -> None:
    """A bead in the corner between parts that already sit together."""
    action = work.action
    fillet = action.ref("fillet_to")
    assert fillet is not None
    hosts = work.items(fillet)
    for host in hosts:
        work.exists(host, fillet.at)
    for i, item in enumerate(things):
        host = hosts[min(i, len(hosts) - 1)] if hosts else item
        path = work.bench.path(item, host)
        met = path is not None and len(path) == 2
        on = work.bench.seats[item].host if item in work.bench.seats else ""
        work.need(n.There(at=action.field_place("what"), met=met, child=item, host=host, seated_on=on))
        if not met and not on:
            cause = work.cause(supposed=True)
            work.suppose(Place(Seat(item, host, "outside", cause), cause))
        joint = work.joint(item, host, "fillet", work.cause(), adhesive, "joined")
        work.effect(Close(joint, joint.cause))
