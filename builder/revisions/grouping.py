"""Differences between the facts of two guides, put together into what a reader calls one change.

Every edit comes into exactly one group, so that all groups together turn the older facts into the newer.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

import msgspec

from builder.revisions.edits import Edit, Insert, Put, Rename, Take, differences, stays
from builder.revisions.facts import Facts, Path
from builder.revisions.match import Matched, rewriter, tokens_in

# The fact that every record of a kind has: where it is new, the record is, where it is gone, the record is.
_SIGN = {
    ("thing",): "sort",
    ("dimension",): "is",
    ("caution",): "level",
    ("term",): "means",
    ("accepted",): "why",
    ("stage",): "name",
    ("step",): "title",
    ("step", "action"): "verb",
    ("step", "repeat"): "of",
    ("step", "own caution"): "level",
}

IDENTITY = ("name", "adhesive", "paint", "hazards", "form")
"""Facts of a thing that say together what it is."""


SHAPE = ("outline", "points", "root", "tip", "span", "sweep", "square_edge", "across_flats", "across_corners")
"""Facts of a thing that tell its outline; where one comes or goes, all that come and go are one change."""

_SIZES = ("length", "width", "diameter", "edges", "along", "outline.along", "outline.across")


class Group(msgspec.Struct, frozen=True):
    """Edits that are one change. `key` begins with what it is about; `how` is new, gone, renamed, moved,
    carried or changed."""

    key: Path
    how: str
    edits: tuple[Edit, ...]

    @property
    def puts(self) -> tuple[Put, ...]:
        """The facts that it changes."""
        return tuple(edit for edit in self.edits if isinstance(edit, Put))

    def put(self, *tail: str) -> Put | None:
        """The fact whose path ends so."""
        size = len(tail)
        return next((put for put in self.puts if put.path[-size:] == tail), None)


def groups(old: Facts, pairs: Matched) -> list[Group]:
    """All differences in groups, in the order of the newer guide."""
    new = pairs.new
    found: dict[tuple[str, Path], list[Edit]] = {}
    puts = differences(old, new)
    records = _records(puts)
    explained, puts = _renamed(puts, pairs)
    found.update(explained)
    shaped = {put.path[1] for put in puts if _comes(put, SHAPE)}
    for put in puts:
        key = _of_put(put, records, old, new)
        of_shape = put.path[2:] == ("outline",) or _comes(put, (*SHAPE, *_SIZES))
        if put.path[0] == "thing" and put.path[1] in shaped and key[0] == "changed" and of_shape:
            key = ("changed", (*put.path[:2], "shape"))
        found.setdefault(key, []).append(put)
    moves: dict[tuple[str, Path], list[Edit]] = {}
    for edit in list_edits(old, new):
        moves.setdefault(_of_list(edit, records), []).append(edit)
    for key, edits in moves.items():
        found.setdefault(key, []).extend(edits)
    out = [Group(key, how, tuple(edits)) for (how, key), edits in found.items()]
    return _carried(_staged(out))


def list_edits(old: Facts, new: Facts) -> Iterator[Take | Insert]:
    """What leaves, comes and moves in every list; what keeps its order is not told."""
    for path in dict.fromkeys((*old.orders, *new.orders)):
        before, after = old.orders.get(path, ()), new.orders.get(path, ())
        if before == after:
            continue
        kept = stays(before, after)
        yield from (Take(path, key) for key in before if key not in kept)
        yield from (Insert(path, key, index) for index, key in enumerate(after) if key not in kept)


def _record(path: Path) -> Path | None:
    """The record that a fact belongs to, the smallest: an action, not its step."""
    if path[0] == "step" and len(path) > 4 and path[2] in ("action", "repeat", "own caution"):
        return path[:4]
    kinds = ("thing", "dimension", "caution", "term", "accepted", "stage", "step")
    return path[:2] if path[0] in kinds else None


def _comes(put: Put, names: tuple[str, ...]) -> bool:
    """Whether a fact of a thing with one of these names is new or gone."""
    return put.path[0] == "thing" and put.path[2] in names and None in (put.before, put.after)


def _records(puts: Iterable[Put]) -> dict[Path, str]:
    """Records that are new or gone."""
    found: dict[Path, str] = {}
    for put in puts:
        record = _record(put.path)
        if record is None:
            continue
        kind = (record[0],) if len(record) == 2 else (record[0], record[2])
        if put.path == (*record, _SIGN[kind]):
            if put.before is None:
                found[record] = "new"
            elif put.after is None:
                found[record] = "gone"
    return found


def _renamed(puts: list[Put], pairs: Matched) -> tuple[dict[tuple[str, Path], list[Edit]], list[Put]]:
    """One group for each rename, with every text in which nothing but the name differs; and the rest."""
    found: dict[tuple[str, Path], list[Edit]] = {}
    owner: dict[str, tuple[str, Path]] = {}
    for rename in pairs.renames:
        key = ("renamed", rename.path)
        if rename.path[0] == "order":  # where a choice parts the routes: told with the choice, or its option
            key = ("renamed", ("choice", rename.path[1].split(" ")[1], *rename.path[2:]))
        found.setdefault(key, []).append(rename)
        if rename.path[-1] in pairs.tokens:
            owner.setdefault(rename.path[-1], key)
    rewritten = rewriter(pairs.tokens)
    rest = []
    for put in puts:
        if put.before is None or put.after is None or rewritten(put.before) != put.after:
            rest.append(put)
            continue
        name = next(iter(tokens_in(put.before, pairs.tokens)))
        key = owner.get(name, ("renamed", ("mark", name)))
        found.setdefault(key, []).append(put)
    return found, rest


def _of_put(put: Put, records: dict[Path, str], old: Facts, new: Facts) -> tuple[str, Path]:
    path = put.path
    if path[0] == "step" and path[:2] in records:
        return records[path[:2]], path[:2]
    record = _record(path)
    if record is not None and record in records and record[0] != "stage":
        return records[record], record
    if path[0] == "step":
        return _of_step(put, records, old, new)
    if path[0] == "stage":
        return (records[path[:2]], path[:2]) if path[:2] in records else ("changed", path)
    if path[0] == "thing" and len(path) == 3 and path[2] in IDENTITY:
        return "changed", (*path[:2], "identity")
    if path[0] == "thing" and path[2] == "taper":
        return "changed", path[:4]
    if path[0] in ("term", "accepted"):
        return "changed", path[:2]
    if path[0] == "caution" and path[2] in ("hazard", "consequence", "avoidance"):
        return "changed", (*path[:2], "words")
    return "changed", path


def _of_step(put: Put, records: dict[Path, str], old: Facts, new: Facts) -> tuple[str, Path]:
    path = put.path
    if path[2] == "stage":
        return "changed", ("stages", put.before or "", put.after or "")
    if path[2] == "action" and path[4] == "in":
        for text in (put.after, put.before):
            repeat = (*path[:2], "repeat", text or "")
            if repeat in records:
                return records[repeat], repeat
        return "changed", (*path[:2], "repeat", put.after or put.before or "", "in")
    if path[2] == "own caution":
        return "changed", path[:4]
    if path[2] == "picture" or path[2] == "alt":
        return "changed", (*path[:2], "picture")
    return "changed", path


def _of_list(edit: Take | Insert, records: dict[Path, str]) -> tuple[str, Path]:
    path, key = edit.path, edit.key
    if path[0] == "order":
        if key.startswith("choose ") and len(path) == 1:
            return "changed", ("block", key)
        record: Path = ("step", key)
        return (records[record], record) if record in records else ("moved", record)
    if path[0] == "step":
        if path[:2] in records:
            return records[path[:2]], path[:2]
        record = (*path[:2], "action", key)
        return (records[record], record) if record in records else ("moved", record)
    if path[:2] in records:
        return records[path[:2]], path[:2]
    return "changed", (*path[:2], "zone", path[3], key)


def _staged(found: list[Group]) -> list[Group]:
    """A stage comes and goes with its steps: what is said of it joins the first group that puts a step into
    it, or takes one out."""
    whole = [g for g in found if g.key[0] == "stage" and len(g.key) == 2]
    joined: dict[Path, tuple[Edit, ...]] = {}
    hosted: list[Group] = []
    for stage in whole:
        for group in found:
            puts = [put for put in group.puts if put.path[0] == "step" and put.path[2:] == ("stage",)]
            if any((put.after if stage.how == "new" else put.before) == stage.key[1] for put in puts):
                joined[group.key] = (*joined.get(group.key, ()), *stage.edits)
                hosted.append(stage)
                break
    return [Group(g.key, g.how, (*g.edits, *joined.get(g.key, ()))) for g in found if g not in hosted]


def _carried(found: list[Group]) -> list[Group]:
    """Actions that leave one step and stand word for word in another have been carried over."""
    gone = [g for g in found if g.how == "gone" and g.key[2:3] == ("action",)]
    come = [g for g in found if g.how == "new" and g.key[2:3] == ("action",)]
    whole_new = [g for g in found if g.how == "new" and g.key[0] == "step" and len(g.key) == 2]
    whole_gone = [g for g in found if g.how == "gone" and g.key[0] == "step" and len(g.key) == 2]
    dropped: list[Group] = []
    replaced: dict[Path, Group] = {}

    def joined(target: Group, other: Group) -> None:
        current = replaced.get(target.key, target)
        replaced[target.key] = Group(target.key, target.how, (*current.edits, *other.edits))
        dropped.append(other)

    for leaving in gone:
        said = _said(leaving, before=True)
        twin = next((g for g in come if g not in dropped and g.key[1] != leaving.key[1]
                     and _said(g, before=False) == said), None)  # fmt: skip
        if twin is not None:
            key: Path = ("carried", leaving.key[1], twin.key[1])
            known = replaced.get(key, Group(key, "carried", ()))
            replaced[key] = Group(key, "carried", (*known.edits, *leaving.edits, *twin.edits))
            dropped += [leaving, twin]
            continue
        host = next((g for g in whole_new if said in _actions_of(g, before=False)), None)
        if host is not None:
            joined(host, leaving)
    for coming in come:
        if coming in dropped:
            continue
        said = _said(coming, before=False)
        host = next((g for g in whole_gone if said in _actions_of(g, before=True)), None)
        if host is not None:
            joined(host, coming)
    out = [replaced.pop(g.key, g) for g in found if g not in dropped]
    return out + list(replaced.values())


def _said(group: Group, *, before: bool) -> dict[Path, str | None]:
    return {
        put.path[4:]: put.before if before else put.after for put in group.puts if put.path[4:] != ("in",)
    }


def _actions_of(group: Group, *, before: bool) -> list[dict[Path, str | None]]:
    found: dict[str, dict[Path, str | None]] = {}
    for put in group.puts:
        if put.path[:2] == group.key and put.path[2:3] == ("action",) and put.path[4:] != ("in",):
            found.setdefault(put.path[3], {})[put.path[4:]] = put.before if before else put.after
    return list(found.values())


def renames_of(group: Group) -> list[Rename]:
    """The renames of a group."""
    return [edit for edit in group.edits if isinstance(edit, Rename)]
