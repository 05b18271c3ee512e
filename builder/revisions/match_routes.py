"""Which choices, options and forks of two guides are the same, though they have other ids.

The forks of a choice (its blocks) are handles only: they are the same if they share steps.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import TypeVar

from builder.revisions.edits import Rename
from builder.revisions.facts import Facts, Path


def mapped(facts: Facts, path_of: Callable[[Path], Path],
           keys_of: Callable[[Path, tuple[str, ...]], tuple[str, ...]]) -> Facts:  # fmt: skip
    """The facts with other paths and other keys in their lists."""
    return Facts(
        {path_of(path): text for path, text in facts.leaves.items()},
        {path_of(path): keys_of(path, keys) for path, keys in facts.orders.items()},
        {path_of(path): value for path, value in facts.values.items()},
    )


def elected(votes: Mapping[tuple[str, str], int], fixed: Mapping[str, str]) -> dict[str, str]:
    """Older key -> newer key: those that are given, then those with the most votes, each once."""
    forth = dict(fixed)
    taken = set(forth.values())
    for (ours, theirs), _ in sorted(votes.items(), key=lambda item: (-item[1], item[0])):
        if ours not in forth and theirs not in taken:
            forth[ours] = theirs
            taken.add(theirs)
    return forth


def choices(old: Facts, new: Facts, renames: list[Rename]) -> Facts:
    """Choices and options under another id: they are called alike, or lead through the same steps."""
    ours, theirs = _options(old), _options(new)
    ids = _twins(ours, theirs, _choices_alike)
    names = {id: name for name, id in ids.items()}
    options: dict[tuple[str, str], str] = {}  # (newer choice, newer option) -> older option
    for id, mine in ours.items():
        name = names.get(id, id)
        for other, option in _twins(mine, theirs.get(name, {}), _options_alike).items():
            options[name, other] = option
    if not ids and not options:
        return _blocks(old, new)

    def path_of(path: Path) -> Path:
        if path[0] == "choice":
            return ("choice", ids.get(path[1], path[1]), options.get((path[1], path[2]), path[2]))
        if path[0] == "order" and len(path) == 3:
            option = options.get((path[1].split(" ")[1], path[2]), path[2])
            return ("order", block_of(path[1]), option)
        return path

    def block_of(key: str) -> str:
        word, name, number = key.split(" ") if key.startswith("choose ") else ("", "", "")
        return f"{word} {ids[name]} {number}" if name in ids else key

    new = _blocks(old, mapped(
        new, path_of, lambda path, keys: tuple(map(block_of, keys)) if path == ("order",) else keys
    ))  # fmt: skip
    blocks = [key for key in new.orders.get(("order",), ()) if key.startswith("choose ")]
    for name, id in ids.items():
        renames.append(Rename(("choice", id), name))
        renames += [Rename(("order", key), key.replace(f" {id} ", f" {name} "), ("order",))
                    for key in blocks if key.split(" ")[1] == id]  # fmt: skip
    for (name, other), option in options.items():
        id = ids.get(name, name)
        renames.append(Rename(("choice", id, option), other))
        renames += [Rename(("order", key, option), other) for key in blocks if key.split(" ")[1] == id]
    return new


Option = tuple[str, frozenset[str]]  # what a reader calls it, the steps that it leads through


def _options(facts: Facts) -> dict[str, dict[str, Option]]:
    """Choice -> option -> what it is called, where it leads."""
    found: dict[str, dict[str, Option]] = {}
    for path, name in facts.leaves.items():
        if path[0] == "choice":
            found.setdefault(path[1], {})[path[2]] = (name, frozenset())
    for path, keys in facts.orders.items():
        if path[0] == "order" and len(path) == 3:
            options = found.setdefault(path[1].split(" ")[1], {})
            name, steps = options.get(path[2], ("", frozenset()))
            options[path[2]] = (name, steps | frozenset(keys))
    return found


T = TypeVar("T")


def _twins(ours: Mapping[str, T], theirs: Mapping[str, T], alike: Callable[[T, T], bool]) -> dict[str, str]:
    """Newer id -> older id of what is alike, among those that only one side has."""
    found: dict[str, str] = {}
    for id, mine in ours.items():
        twin = next((n for n, other in theirs.items() if n not in ours and n not in found
                     and id not in theirs and alike(mine, other)), None)  # fmt: skip
        if twin is not None:
            found[twin] = id
    return found


def _options_alike(mine: Option, other: Option) -> bool:
    """By their name; of two that are called otherwise, by at least half of their steps."""
    both, all_ = mine[1] & other[1], mine[1] | other[1]
    return mine[0] == other[0] or (bool(both) and 2 * len(both) >= len(all_))


def _choices_alike(mine: Mapping[str, Option], other: Mapping[str, Option]) -> bool:
    """At least half of the options of both are the same, by their ids or alike."""
    same = sum(id in other or any(_options_alike(option, each) for each in other.values())
               for id, option in mine.items())  # fmt: skip
    return bool(same) and 2 * same >= max(len(mine), len(other))


def _blocks(old: Facts, new: Facts) -> Facts:
    """Blocks of one choice are the same if they share steps, else by their turn."""

    def steps_of(facts: Facts) -> dict[str, set[str]]:
        found: dict[str, set[str]] = {}
        for path, keys in facts.orders.items():
            if path[0] == "order" and len(path) == 3:
                found.setdefault(path[1], set()).update(keys)
        return found

    ours, theirs = steps_of(old), steps_of(new)
    votes = {
        (a, b): len(ours[a] & theirs[b])
        for a in ours for b in theirs
        if a.split(" ")[1] == b.split(" ")[1] and ours[a] & theirs[b]
    }  # fmt: skip
    forth = elected(votes, {})
    back = {b: a for a, b in forth.items()}
    taken = set(forth)
    for block in theirs:
        if block not in back:
            key, number = block, 1
            while key in taken or (key in ours and key != block):
                number += 1
                key = f"choose {block.split(' ')[1]} {number}"
            back[block] = key
            taken.add(key)

    def path_of(path: Path) -> Path:
        return (
            ("order", back.get(path[1], path[1]), path[2]) if path[0] == "order" and len(path) == 3 else path
        )

    def keys_of(path: Path, keys: tuple[str, ...]) -> tuple[str, ...]:
        return tuple(back.get(key, key) for key in keys) if path == ("order",) else keys

    return mapped(new, path_of, keys_of)
