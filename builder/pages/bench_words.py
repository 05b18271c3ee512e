"""What lies on the bench between two stages, in a builder's words."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from builder.dryrun.bench import Bench
from builder.guide.model import Guide, Stage, Thing
from builder.guide.wording import name_of
from builder.pages.contexts import Used


def counted_name(thing: Thing, count: int) -> str:
    """`fin`, `4 fins`."""
    return name_of(thing) if count == 1 else f"{count} {name_of(thing, count)}"


def with_article(thing: Thing, count: int) -> str:
    """`the fin`, `4 fins`."""
    return f"the {thing.name}" if count == 1 else counted_name(thing, count)


def listed(words: Iterable[str]) -> str:
    """`a`, `a and b`, `a, b and c`."""
    each = list(words)
    return " and ".join([", ".join(each[:-1]), each[-1]] if len(each) > 1 else each)


def carrier(thing: Thing) -> str:
    """The id of the part that a thing is in hand by: its own, or that of a sub-assembly's base."""
    base = thing.refs.get("base") if thing.form == "assembly" else None
    return base.id if base is not None else thing.id


def assemblies(guide: Guide, stages: Iterable[Stage]) -> dict[str, Thing]:
    """The sub-assemblies that some stages have made, by the part that each is built on."""
    found: dict[str, Thing] = {}
    for stage in stages:
        thing = guide.things.get(stage.makes)
        if thing is not None:
            found[carrier(thing)] = thing
    return found


def in_hand(
    guide: Guide, bench: Bench, touched: Iterable[str], known: Mapping[str, Thing]
) -> tuple[Used, ...]:
    """What is taken in hand: of the things that are touched (ids), those that are there already.

    What sits on something is taken by the name of the whole; `known` names wholes by their base.
    """
    wanted = set(touched)
    counts: dict[str, set[str]] = {}
    for key, item in bench.items.items():
        thing = guide.things[item.thing]
        if thing.sort != "part" or item.thing not in wanted or _used_up(bench, thing):
            continue
        root = _whole(guide, bench, key)
        counts.setdefault(bench.items[root].thing, set()).add(root)
    rows = []
    for id, roots in counts.items():
        whole = known.get(id)
        name = whole.name if whole is not None else counted_name(guide.things[id], len(roots))
        rows.append(Used(name=name))
    return tuple(rows)


def _whole(guide: Guide, bench: Bench, key: str) -> str:
    """The part that carries this one at the end: a stand or a jig below it is a tool, and is not held."""
    path = bench.path(key, bench.root(key)) or [key]
    return [each for each in path if guide.things[bench.items[each].thing].sort == "part"][-1]


def _used_up(bench: Bench, thing: Thing) -> bool:
    """Whether a blank has become what it is for."""
    return bool(thing.blank_of) and thing.blank_of in bench.items


def holds(guide: Guide, bench: Bench, made: Iterable[Stage]) -> tuple[str, ...]:
    """What the builder holds: each thing with what sits on it, largest first.

    What was bought or made by the teacher counts from when it sits on something.
    """
    known = assemblies(guide, made)
    roots: dict[str, list[str]] = {}
    for key, item in bench.items.items():
        thing = guide.things[item.thing]
        given = bool(thing.words.get("source") or thing.words.get("made_by")) and key not in bench.seats
        if thing.sort == "part" and not given and not _used_up(bench, thing):
            roots.setdefault(_whole(guide, bench, key), []).append(key)
    told: dict[tuple[str, str], int] = {}
    for root, keys in sorted(roots.items(), key=lambda pair: -len(pair[1])):
        thing = guide.things[bench.items[root].thing]
        inner: dict[str, int] = {}
        for key in keys:
            if key != root:
                inner[bench.items[key].thing] = inner.get(bench.items[key].thing, 0) + 1
        whole = known.get(thing.id, thing)
        if whole is not thing:
            inner = {thing.id: 1, **inner}
        parts = listed(with_article(guide.things[id], count) for id, count in inner.items())
        tail = f": {parts}" if whole is not thing else f", with {parts}" if parts else ""
        told[whole.id, tail] = told.get((whole.id, tail), 0) + 1
    rows = []
    for (id, tail), count in told.items():
        each = f", each{tail.removeprefix(',')}" if count > 1 and tail else tail
        rows.append(counted_name(guide.things[id], count) + each)
    return tuple(rows)
