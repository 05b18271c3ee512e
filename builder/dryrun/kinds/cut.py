"""cut: pieces come out of stock; what is left is the remainder."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import NamedTuple

from msgspec.structs import replace

from builder.dryrun import needs as n
from builder.dryrun.bench import Item, Piece
from builder.dryrun.cutting import Size, Way, from_length, on_stock, ways_from_sheet, ways_round
from builder.dryrun.effects import Lay, Make, Take
from builder.dryrun.work import Work, copy_of
from builder.guide.axes import LENGTH, WIDTH, along_stock, grain_of
from builder.guide.fields import Field, Holds
from builder.guide.model import Thing, Value, Verb

FIELDS = (
    Field("cut", Holds.THINGS, "What is cut out.", "fin", sort="part|tool", required=True, told=True),
    Field(
        "from",
        Holds.THING,
        "The stock that it comes from; by default the one that the part names.",
        "board",
        sort="material",
        told=True,
    ),
    Field("along", Holds.TEXT, "`pattern`, or the mark that is cut along.", "pattern", told=True),
    Field("with", Holds.THINGS, "What it is cut with.", "scissors", sort="tool", told=True),
    Field(
        "leaves",
        Holds.SIZES,
        "What the last piece that is cut leaves of its stock.",
        "[177 mm x 210 mm, 10 mm x 120 mm]",
    ),
)

VERBS = (
    Verb(
        "cut",
        "cut",
        "cut {what} {from} {along} {with} {grain}",
        ("cut", "saw", "snip", "trim", "slice"),
        "carry",
        "Pieces come out of stock. What is stated as left must be what is left.",
    ),
)


def run(work: Work) -> None:
    """Each thing is taken from its stock and made, one kind of thing after another."""
    action = work.action
    work.field_items("with")
    along = action.word("along")
    if along in work.named_marks:
        _along_mark(work, along)
    for ref in action.refs("what"):
        thing = work.guide.things.get(ref.id)
        if thing is None:
            continue
        items = work.items(ref)
        fresh = True
        late = False
        for item in items:
            there = work.bench.items.get(item)
            late |= there is not None and there.cause.supposed
            new, since = there is None or there.cause.supposed, there.cause.at if there else None
            fresh &= work.need(n.Fresh(at=ref.at, met=new, item=item, since=since))
        if not fresh:
            continue  # what is there already is not cut again, and takes no stock
        reads = thing.reads("length", "width", "count", "root", "tip", "span", "outside", "across_flats")
        source = action.ref("from") or thing.refs.get("of")
        material = work.guide.things.get(source.id) if source is not None else None
        if material is not None and material.sort == "material" and thing.words.get("printed") != "yes":
            _take(work, thing, len(items), material, reads, late)
        cause = work.cause(reads, at=ref.at)
        for item in items:
            work.effect(Make(Item(item, thing.id, copy_of(item, thing), cause), cause))


def _along_mark(work: Work, name: str) -> None:
    if name in work.bench.marks:
        return
    from builder.dryrun.bench import Mark

    at = work.action.field_place("along")
    work.need(n.Marked(at=at, met=False, mark=name, host="", state="missing"))
    cause = work.cause(at=at, supposed=True)
    work.suppose(Lay(Mark(name, "", "", cause), cause))


def _take(
    work: Work, thing: Thing, count: int, material: Thing, reads: frozenset[str], late: bool
) -> None:
    """The piece for a thing. What was used before it is cut would have come from fuller stock: whether it
    still fits is not asked."""
    pieces = work.bench.stock.get(material.id, ())
    tools = [work.guide.things[r.id] for r in work.action.refs("with")]
    if not thing.counted or any("cuts_away" in t.values and t.mm("cuts_away") is None for t in tools):
        work.effect(Take(material.id, (), work.cause(reads)))  # nobody can say what is left
        return
    kerf = max((t.mm("cuts_away") or Fraction(0) for t in tools), default=Fraction(0))
    laid = along_stock(thing, material)
    thing = _turned(thing) if laid == WIDTH else thing
    stated = _stated(work)
    reads |= material.reads("length", "width", "count")
    reads |= frozenset().union(*(t.reads("cuts_away") for t in tools))
    options = _options(pieces, thing, count, kerf)
    last = work.action.refs("what")[-1].id == thing.id
    crossed = _crossed(work, options, pieces, thing, count, kerf, stated if last else None)
    along, across = thing.mm("length"), thing.mm("width")
    left = tuple((p.along, p.across) for p in pieces)
    known = bool(pieces) and _sized(thing, pieces[0])
    if not known:
        if material.mm("length") is not None or pieces:
            return
        work.effect(Take(material.id, pieces, work.cause(reads)))
        return
    at = work.action.field_place("from")
    met = bool(options or crossed) and bool(laid)
    if late and not met:
        return
    if met and grain_of(thing):
        work.need(
            n.Grain(
                at=work.action.field_place("leaves" if options and crossed else "what"),
                met=bool(on_stock(material)) and not crossed,
                material=material.id,
                thing=thing.id,
                count=count,
                unsaid=not on_stock(material),
                left=bool(options),
                reads=reads,
            )
        )
    options = crossed or options
    work.need(
        n.Stock(
            at=at,
            met=met,
            material=material.id,
            thing=thing.id,
            count=count,
            along=along or Fraction(0),
            across=across if pieces[0].across is not None else None,
            wide=None if laid else material.mm("width"),
            left=left,
            reads=reads,
        )
    )
    if not met:
        if stated and last:  # a piece just long enough is supposed, which leaves nothing
            _leaves(work, material, thing, stated, (), False, reads)
        work.suppose(Take(material.id, pieces, work.cause(reads, supposed=True)))
        return
    chosen = next((o for o in options if o.way.left == stated), None)
    if stated is not None and last:
        met = chosen is not None or _owes(work, material)
        _leaves(work, material, thing, stated, options[0].way.left, met, reads)
    rest, (offcuts, grains) = chosen or options[0]
    if chosen is None and stated is not None and last:
        offcuts, grains = stated, ("",) * len(stated)
    cause = work.cause(reads)
    cut = zip(offcuts, grains, strict=True)
    new = tuple(Piece(material.id, a, b, cause, grain) for (a, b), grain in cut)
    work.effect(Take(material.id, (*rest, *new), cause))


def _turned(thing: Thing) -> Thing:
    """The same piece with its sizes the other way round, so that its longer one lies along a strip."""
    sizes = {"length": thing.values["width"], "width": thing.values["length"]}
    words = dict(thing.words)
    if grain_of(thing):
        words["grain"] = "along width" if grain_of(thing) == LENGTH else "along length"
    return replace(thing, values={**thing.values, **sizes}, words=words)


def _crossed(
    work: Work,
    options: list[Option],
    pieces: tuple[Piece, ...],
    thing: Thing,
    count: int,
    kerf: Fraction,
    stated: tuple[Size, ...] | None,
) -> list[Option]:
    """The ways to cut across the grain, if there is no other or if only they leave what is stated as left."""
    if not grain_of(thing) or not any(piece.grain for piece in pieces):
        return []
    if options and (stated is None or any(o.way.left == stated for o in options)):
        return []
    either_way = replace(thing, words={**thing.words, "grain": ""})
    free = _options(pieces, either_way, count, kerf)
    return free if not options or any(o.way.left == stated for o in free) else []


def _owes(work: Work, material: Thing) -> bool:
    """Whether something is only supposed to have been cut from a material: nobody knows what that left."""
    return any(
        item.cause.supposed and "of" in thing.refs and thing.refs["of"].id == material.id
        for item in work.bench.items.values()
        for thing in (work.guide.things[item.thing],)
    )


def _leaves(
    work: Work,
    material: Thing,
    thing: Thing,
    stated: tuple[Size, ...],
    found: tuple[Size, ...],
    met: bool,
    reads: frozenset[str],
) -> None:
    """The stated remainder against what remains."""
    sizes = work.action.sizes("leaves") or ()
    values = [v for s in sizes for v in ((s,) if isinstance(s, Value) else (s.first, s.second))]
    paths = [f"{work.action.path}.leaves", *(v.path for v in values)]  # the first is that of `nothing`
    own = frozenset(path for path in paths if path in work.guide.paths)
    at = work.action.field_place("leaves")
    work.need(
        n.Leaves(
            at=at,
            met=met,
            material=material.id,
            thing=thing.id,
            stated=stated,
            found=found,
            reads=reads | own,
        )
    )


def _sized(thing: Thing, piece: Piece) -> bool:
    from builder.dryrun.cutting import cell_of

    return thing.mm("length") is not None if piece.across is None else cell_of(thing) is not None


class Option(NamedTuple):
    """One way to cut: the pieces that stay untouched, and what it leaves of the others."""

    rest: tuple[Piece, ...]
    way: Way


MOST_FROM_ONE = 60  # copies looked for in one piece when no piece serves for all


def _options(pieces: tuple[Piece, ...], thing: Thing, count: int, kerf: Fraction) -> list[Option]:
    """Ways to cut. The smallest piece that serves comes first; of pieces of one size the first stands for
    all."""
    firsts: dict[tuple[Size, str], int] = {}
    for i, piece in enumerate(pieces):
        firsts.setdefault(((piece.along, piece.across), piece.grain), i)
    order = sorted(firsts.values(), key=lambda i: (pieces[i].along * (pieces[i].across or 1), i))
    found = [
        Option(pieces[:i] + pieces[i + 1 :], way)
        for i in order
        for way in _from_one(pieces[i], thing, count, kerf)
    ]
    return found or _spread(pieces, thing, count, kerf)


def _from_one(piece: Piece, thing: Thing, count: int, kerf: Fraction) -> Iterator[Way]:
    """What cutting all of them out of one piece can leave."""
    if piece.across is not None:
        yield from ways_from_sheet(piece.along, piece.across, thing, count, kerf, piece.grain)
        return
    length = thing.mm("length")
    if length is None or (False not in ways_round(thing, piece.grain) and thing.mm("width") != length):
        return  # long stock is never turned
    left = from_length(piece.along, length, count, kerf)
    if left is not None:
        yield Way(((left, None),), (piece.grain,)) if left > 0 else Way((), ())


def _spread(pieces: tuple[Piece, ...], thing: Thing, count: int, kerf: Fraction) -> list[Option]:
    """No one piece serves for all: as many as fit from the largest, then from the next."""
    rest: list[Piece] = []
    offcuts: list[tuple[Size, str]] = []
    wanted = count
    fit: dict[tuple[Size, str], int] = {}  # what a piece of a size was seen to give; the next gives no more
    for piece in sorted(pieces, key=lambda p: -(p.along * (p.across or 1))):
        size = ((piece.along, piece.across), piece.grain)
        for take in range(min(wanted, fit.get(size, MOST_FROM_ONE)), 0, -1):
            way = next(_from_one(piece, thing, take, kerf), None)
            if way is not None:
                wanted -= take
                offcuts += zip(way.left, way.grains, strict=True)
                fit[size] = take
                break
        else:
            rest.append(piece)
            if wanted:
                fit[size] = 0
    ordered = sorted(offcuts, reverse=True)
    left = Way(tuple(size for size, _ in ordered), tuple(grain for _, grain in ordered))
    return [Option(tuple(rest), left)] if wanted == 0 else []


def _stated(work: Work) -> tuple[Size, ...] | None:
    sizes = work.action.sizes("leaves")
    if sizes is None:
        return None
    out: list[Size] = []
    for size in sizes:
        if isinstance(size, Value):
            if size.base is None:
                return None
            out.append((size.base, None))
            continue
        a, b = size.first.base, size.second.base
        if a is None or b is None:
            return None
        out.append((max(a, b), min(a, b)))
    return tuple(sorted(out, reverse=True))
