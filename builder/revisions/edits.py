"""What a change does to the facts of a guide, as values; `apply` carries changes out.

All paths are those of the older guide: what is renamed gets its new name last.
"""

from __future__ import annotations

from collections.abc import Iterable

import msgspec

from builder.guide.values import Value
from builder.revisions.facts import Facts, Path


class Mismatch(ValueError):
    """A change does not fit the facts that it is applied to."""


class Put(msgspec.Struct, frozen=True):
    """A fact: what it was, what it is; None where there is none."""

    path: Path
    before: str | None
    after: str | None


class Take(msgspec.Struct, frozen=True):
    """A key leaves a list."""

    path: Path
    key: str


class Insert(msgspec.Struct, frozen=True):
    """A key comes into a list, to stand at `index` when all is done."""

    path: Path
    key: str
    index: int


class Rename(msgspec.Struct, frozen=True):
    """All facts below a path get another last name: `("thing", "fin")` to `wing`. `within` is the list whose
    key is renamed too."""

    path: Path
    name: str
    within: Path = ()


Edit = Put | Take | Insert | Rename


def apply(edits: Iterable[Edit], facts: Facts) -> Facts:
    """The facts after all edits, in whatever order they come. Errors: Mismatch, when an edit says that
    something was there which was not."""
    puts: list[Put] = []
    takes: list[Take] = []
    inserts: list[Insert] = []
    renames: list[Rename] = []
    for edit in edits:
        if isinstance(edit, Put):
            puts.append(edit)
        elif isinstance(edit, Take):
            takes.append(edit)
        elif isinstance(edit, Insert):
            inserts.append(edit)
        else:
            renames.append(edit)
    leaves = dict(facts.leaves)
    for put in puts:
        if leaves.get(put.path) != put.before:
            raise Mismatch(f"{' / '.join(put.path)} is not {put.before!r}")
        if put.after is None:
            del leaves[put.path]
        else:
            leaves[put.path] = put.after
    lists = {path: list(keys) for path, keys in facts.orders.items()}
    for take in takes:
        if take.key not in lists.get(take.path, ()):
            raise Mismatch(f"{take.key!r} is not in {' / '.join(take.path)}")
        lists[take.path].remove(take.key)
    for insert in sorted(inserts, key=lambda each: (each.path, each.index)):
        keys = lists.setdefault(insert.path, [])
        if insert.key in keys or insert.index > len(keys):
            raise Mismatch(f"{insert.key!r} cannot come into {' / '.join(insert.path)} at {insert.index}")
        keys.insert(insert.index, insert.key)
    done = Facts(leaves, {path: tuple(keys) for path, keys in lists.items() if keys}, {})
    for rename in sorted(renames, key=lambda each: -len(each.path)):
        done = _renamed(done, rename)
    return done


def _renamed(facts: Facts, rename: Rename) -> Facts:
    size, old = len(rename.path), rename.path[-1]

    def path_of(path: Path) -> Path:
        if path[:size] == rename.path:
            return (*rename.path[:-1], rename.name, *path[size:])
        return path

    def keys_of(path: Path, keys: tuple[str, ...]) -> tuple[str, ...]:
        if not rename.within or path[: len(rename.within)] != rename.within:
            return keys
        return tuple(rename.name if key == old else key for key in keys)

    orders = {path_of(path): keys_of(path, keys) for path, keys in facts.orders.items()}
    return Facts({path_of(path): text for path, text in facts.leaves.items()}, orders, {})


def differences(old: Facts, new: Facts) -> list[Put]:
    """The facts that differ, in the order of the newer guide, those that are gone at the end."""
    found = [
        Put(path, old.leaves.get(path), text)
        for path, text in new.leaves.items()
        if old.leaves.get(path) != text
    ]
    return found + [Put(path, text, None) for path, text in old.leaves.items() if path not in new.leaves]


def value_behind(path: Path, facts: Facts) -> Value | None:
    """The number behind a fact."""
    return facts.values.get(path)


def stays(old: tuple[str, ...], new: tuple[str, ...]) -> frozenset[str]:
    """The keys that stand in both lists and stay in their order: the longest such run, so that as few as
    possible are said to have moved. Of two that changed places the first of the new list has moved."""
    at = {key: number for number, key in enumerate(old)}
    shared = [key for key in new if key in at]
    length: list[int] = []
    back: list[int] = []
    for number, key in enumerate(shared):
        best, link = 0, -1
        for other in range(number):
            if at[shared[other]] < at[key] and length[other] >= best:
                best, link = length[other], other
        length.append(best + 1)
        back.append(link)
    if not shared:
        return frozenset()
    end = max(range(len(shared)), key=lambda number: (length[number], number))
    run = []
    while end >= 0:
        run.append(shared[end])
        end = back[end]
    return frozenset(run)
