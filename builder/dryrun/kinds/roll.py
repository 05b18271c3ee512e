"""roll and wrap: a sheet goes round a former and becomes a tube, or round a host and stays there."""

from __future__ import annotations

from builder.dryrun import needs as n
from builder.dryrun.bench import Item, Seat
from builder.dryrun.effects import Close, Make
from builder.dryrun.joining import apart, free, seat_down
from builder.dryrun.meeting import close
from builder.dryrun.placing import resolve, span_from
from builder.dryrun.shape import length_of, width_of
from builder.dryrun.work import Work, copy_of
from builder.guide.fields import Field, Holds
from builder.guide.model import Verb

FITS = ("tight", "running", "sliding", "loose")

FIELDS = (
    Field(
        "*",
        Holds.THING,
        "The sheet or strip that goes round.",
        "body.blank",
        sort="part|tool",
        required=True,
        told=True,
    ),
    Field(
        "around", Holds.THING, "What it goes round.", "body_dowel", sort="part|tool", required=True, told=True
    ),
    Field("with", Holds.THINGS, "The glue, or what helps.", "pva", sort="material|tool", told=True),
    Field(
        "from turn",
        Holds.COUNT,
        "The turn from which glue is laid; the first turns stay dry on the former.",
        "2",
        told=True,
    ),
    Field("makes", Holds.THING, "The tube that it becomes.", "body", sort="part", told=True),
    Field("at", Holds.PLACE, "Where on the host.", "flush with rear", told=True),
    Field("fit", Holds.WORD, "How it sits.", "tight", words=FITS),
)

VERBS = (
    Verb(
        "roll",
        "roll",
        "roll {what} {around} {at} {makes} {with} {from_turn}",
        ("roll", "wind", "wrap"),
        "carry",
        "A blank is rolled round a former; the former must come out before the tube sets.",
    ),
    Verb(
        "wrap",
        "roll",
        "wrap {what} {around} {at} {makes} {with} {from_turn}",
        ("wrap", "wind", "lay", "roll"),
        "carry",
        "A strip is wrapped round a host and stays there, or becomes a tube if it says what it makes.",
    ),
)


def run(work: Work) -> None:
    """A blank becomes a tube with its former inside, or a strip sits round a host."""
    action = work.action
    what, around = action.ref("what"), action.ref("around")
    if what is None or around is None:
        return
    work.field_items("with")
    makes = action.ref("makes")
    blanks = work.items(what)
    for item in blanks:
        work.exists(item, what.at)
    if makes is None:
        _round_host(work, blanks)
        return
    tube = work.guide.things.get(makes.id)
    former = work.guide.things.get(around.id)
    if tube is None or former is None:
        return
    work.exists(former.id, around.at)
    bore, size = tube.mm("inside"), former.mm("diameter")
    if bore is not None and size is not None:
        work.need(
            n.Former(
                at=around.at,
                met=bore == size,
                tube=tube.id,
                former=former.id,
                former_mm=size,
                bore_mm=bore,
                reads=tube.reads("inside") | former.reads("diameter"),
            )
        )
    free(work, former.id, tube.id, around.at)
    glue = work.adhesive()
    for item in work.items(makes):
        there = work.bench.items.get(item)
        work.need(
            n.Fresh(
                at=makes.at,
                met=there is None or there.cause.supposed,
                item=item,
                since=there.cause.at if there else None,
            )
        )
        cause = work.cause(tube.reads("length", "inside", "outside"))
        work.effect(Make(Item(item, tube.id, copy_of(item, tube), cause), cause))
        length = former.mm("length") or tube.mm("length")
        own = tube.mm("length")
        lo = (own - length) / 2 if own is not None and length is not None else None
        stretch = (lo, lo + length) if lo is not None and length is not None else None
        seat_down(work, Seat(former.id, item, "inside", cause, stretch, fit="former"))
        if glue is not None:
            joint = work.joint(item, item, "seam", cause, glue.id, "nested")
            work.effect(Close(joint, cause))


def _round_host(work: Work, blanks: list[str]) -> None:
    action = work.action
    hosts = work.field_items("around")
    for item in blanks:
        for host in hosts[:1]:
            free(work, item, host, action.field_place("what"))
            spot = action.spot("at")
            found = resolve(work, spot, host, "outside", item) if spot is not None else None
            wide = (
                width_of(work.thing(item))
                if work.thing(item).form in ("strip", "sheet")
                else length_of(work.thing(item))
            )
            stretch = None
            if found is not None and found.stretch is not None and wide is not None:
                stretch = span_from(found, wide)
            cause = work.cause(found.reads if found else frozenset())
            apart(work, item, host, "outside", stretch, None, None, action.at, cause.reads)
            seat_down(work, Seat(item, host, "outside", cause, stretch, fit=action.word("fit")))
            close(
                work,
                item,
                [host],
                fit=action.word("fit"),
                steady="nested",
                at=action.at,
                self_held=work.adhesive() is not None,
            )
