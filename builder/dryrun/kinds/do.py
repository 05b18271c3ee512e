"""do: what no verb has; it changes only what its fields say."""

from __future__ import annotations

from builder.dryrun.bench import Seat
from builder.dryrun.effects import Place, Take
from builder.dryrun.placing import resolve
from builder.dryrun.work import Work
from builder.guide.fields import Field, Holds
from builder.guide.model import Verb

FIELDS = (
    Field(
        "do", Holds.PROSE, "What is done, as a sentence.", "Let it run down a ramp", required=True, told=True
    ),
    Field("handles", Holds.THINGS, "What is handled: its joints are set.", "[canopy, shroud]", told=True),
    Field(
        "loads", Holds.THINGS, "What is loaded: its joints are cured. `all` for everything.", "all", told=True
    ),
    Field("puts", Holds.THINGS, "What is put somewhere.", "canopy", sort="part|material|tool", told=True),
    Field("into", Holds.THING, "Where it is put.", "body.bay", sort="part|tool", told=True),
    Field("with", Holds.THINGS, "What helps, or is used up.", "wadding", sort="material|tool", told=True),
    Field("at", Holds.PLACE, "Where on what it handles.", "middle of deck", told=True),
    Field("inside", Holds.PLACE, "Where inside of what it handles.", "1 in from front", told=True),
)

VERBS = (
    Verb(
        "do", "do", "{what}", (), "carry", "An action that no verb has. It changes only what its fields say."
    ),
)


def run(work: Work) -> None:
    """Handled things are set, loaded things cured; what is put somewhere lies there loose."""
    action = work.action
    work.field_items("with")
    handled = work.field_items("handles")
    for item in handled:  # what is handled is held by it, and so is what it sits on
        path = work.bench.path(item, work.bench.root(item)) or []
        work.demand("work", [*work.bench.below(item), *path], "handling", action.at)
    for field, side in (("at", "outside"), ("inside", "inside")):
        spot = action.spot(field)
        if spot is not None and handled:
            resolve(work, spot, handled[0], side)
    loads = action.refs("loads")
    if any(ref.id == "all" for ref in loads):
        work.demand("load", list(work.bench.items), "loading", action.at)
    for item in work.field_items("loads"):
        work.demand("load", work.bench.assembly(item), "loading", action.at)
    for material in (*work.materials("with"), *work.materials("puts")):
        work.effect(Take(material.id, work.bench.stock.get(material.id, ()), work.cause()))
    into = action.ref("into")
    if into is None:
        return
    hosts = work.items(into)
    for host in hosts:
        work.exists(host, into.at)
    for child in work.field_items("puts"):
        if (
            not hosts
            or child in work.bench.seats
            and work.bench.seats[child].side not in ("loose", "tied", "taped")
        ):
            continue
        if hosts[0] in work.bench.below(child):
            continue
        zone = work.thing(hosts[0]).zone(into.part, "inside") if into.part else None
        stretch = (
            (zone.lo, zone.hi) if zone is not None and zone.lo is not None and zone.hi is not None else None
        )
        seat = Seat(child, hosts[0], "loose", work.cause(), stretch, fit="loose")
        work.effect(Place(seat, seat.cause))
