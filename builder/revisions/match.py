"""Which thing, step and action of the newer guide is which of the older one.

A name that is in both is the same thing. What is left is paired by what it says, so that renamed is renamed
and not taken away and added. The newer facts are then told under the older names.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator, Mapping
from typing import NamedTuple

from builder.revisions.edits import Rename
from builder.revisions.facts import Facts, Path
from builder.revisions.match_routes import choices, elected, mapped

Said = dict[Path, str]  # what is said below a path


class Matched(NamedTuple):
    """`new` are the newer facts under the older names, `renames` what got another name, `tokens` the newer
    name of each renamed id that a text may hold."""

    new: Facts
    renames: tuple[Rename, ...]
    tokens: Mapping[str, str]


def matched(old: Facts, new: Facts) -> Matched:
    """Pair everything of two guides."""
    renames: list[Rename] = []
    tokens: dict[str, str] = {}
    before, after = _records(old), _records(new)
    for kind, apart in (("thing", ("name", "sort", "form")), ("dimension", ("why",)), ("caution", ())):
        back = {}
        for id, name in _paired(before, after, kind, apart):
            back[name] = id
            renames.append(Rename((kind, id), name))
            tokens[id] = name
        new = _under(new, kind, back)
    new = _zones(old, new, renames, tokens)
    tokens.update(_marks(before, after))
    back = {}
    for id, name in _paired(before, after, "step", ("stage",)):
        back[name] = id
        renames.append(Rename(("step", id), name, ("order",)))
    new = _under(new, "step", back)
    new = choices(old, _stages(old, new), renames)
    return Matched(_actions(old, new, tokens), tuple(renames), tokens)


def rewriter(tokens: Mapping[str, str]) -> Callable[[str], str]:
    """A function that puts every renamed id of a text under its newer name."""
    if not tokens:
        return lambda text: text
    names = "|".join(re.escape(name) for name in sorted(tokens, key=len, reverse=True))
    pattern = re.compile(rf"(?<![\w-])(?:{names})(?![\w-])")
    return lambda text: pattern.sub(lambda match: tokens[match[0]], text)


def tokens_in(text: str, tokens: Mapping[str, str]) -> list[str]:
    """The renamed ids that a text holds, by their older name."""
    return [name for name in tokens if re.search(rf"(?<![\w-]){re.escape(name)}(?![\w-])", text)]


# -- things and steps -----------------------------------------------------------------------------


def _records(facts: Facts) -> dict[str, dict[str, Said]]:
    """Kind -> id -> what is said of it."""
    found: dict[str, dict[str, Said]] = {}
    for path, text in facts.leaves.items():
        found.setdefault(path[0], {}).setdefault(path[1], {})[path[2:]] = text
    return found


def _paired(before: Mapping[str, Mapping[str, Said]], after: Mapping[str, Mapping[str, Said]], kind: str,
            apart: Iterable[str]) -> Iterator[tuple[str, str]]:  # fmt: skip
    """(older id, newer id) of what was renamed, the most alike first."""
    olds, news = before.get(kind, {}), after.get(kind, {})
    gone = [id for id in olds if id not in news]
    come = [id for id in news if id not in olds]
    scored = [
        (-score, a, b, id, name)
        for a, id in enumerate(gone)
        for b, name in enumerate(come)
        if (score := _alike(olds[id], news[name], frozenset(apart))) > 0
    ]
    taken: set[str] = set()
    for _, _, _, id, name in sorted(scored):
        if id not in taken and f"new {name}" not in taken:
            taken |= {id, f"new {name}"}
            yield id, name


def _alike(old: Said, new: Said, apart: frozenset[str]) -> int:
    """How much two records say alike, in thousandths; 0 when it is less than half, or of another form."""
    for name in ("sort", "form"):
        if old.get((name,)) != new.get((name,)):
            return 0
    if old.get(("name",)) and old.get(("name",)) == new.get(("name",)):
        return 1000
    ours = {item for item in old.items() if item[0][0] not in apart}
    theirs = {item for item in new.items() if item[0][0] not in apart}
    same = len(ours & theirs)
    whole = len(ours | theirs)
    return same * 1000 // whole if whole and 2 * same >= whole else 0


def _under(facts: Facts, kind: str, back: Mapping[str, str]) -> Facts:
    """The facts with the newer ids of a kind told by the older ones."""
    if not back:
        return facts

    def path_of(path: Path) -> Path:
        return (kind, back[path[1]], *path[2:]) if path[0] == kind and path[1] in back else path

    def keys_of(path: Path, keys: tuple[str, ...]) -> tuple[str, ...]:
        return tuple(back.get(key, key) for key in keys) if kind == "step" and path[0] == "order" else keys

    return mapped(facts, path_of, keys_of)


def _zones(old: Facts, new: Facts, renames: list[Rename], tokens: dict[str, str]) -> Facts:
    """Zones that have another name at the same place of the same chain, and are as long."""
    back: dict[Path, str] = {}
    for path, keys in old.orders.items():
        others = new.orders.get(path, ())
        if path[0] != "thing" or len(others) != len(keys):
            continue
        for name, other in zip(keys, others, strict=True):
            ours, theirs = ((*path[:2], "zone", path[3], each) for each in (name, other))
            if name in others or other in keys or old.leaves.get(ours) != new.leaves.get(theirs):
                continue
            renames.append(Rename(ours, other, path))
            tokens[name] = other
            back[theirs] = name
    if not back:
        return new

    def keys_of(path: Path, keys: tuple[str, ...]) -> tuple[str, ...]:
        if path[0] != "thing":
            return keys
        return tuple(back.get((*path[:2], "zone", path[3], key), key) for key in keys)

    return mapped(new, lambda path: (*path[:4], back[path]) if path in back else path, keys_of)


def _marks(before: Mapping[str, Mapping[str, Said]],
           after: Mapping[str, Mapping[str, Said]]) -> dict[str, str]:  # fmt: skip
    """Marks that are drawn by the same action of the same step under another name."""
    found: dict[str, str] = {}
    for step, said in before.get("step", {}).items():
        others = after.get("step", {}).get(step)
        if others is None:
            continue
        for path, text in said.items():
            if len(path) == 3 and path[2] == "verb" and text == "mark" and others.get(path) == "mark":
                here = (*path[:2], "what")
                name, other = said.get(here, ""), others.get(here, "")
                if name and other and name != other:
                    found[name] = other
    return {
        name: other
        for name, other in found.items()
        if other not in _drawn(before) and name not in _drawn(after)
    }


def _drawn(records: Mapping[str, Mapping[str, Said]]) -> set[str]:
    """The marks that the steps draw."""
    return {
        said.get((*path[:2], "what"), "")
        for said in records.get("step", {}).values()
        for path, text in said.items()
        if len(path) == 3 and path[2] == "verb" and text == "mark"
    }


# -- stages, whose keys are handles only -----------------------------------------------------------


def _stages(old: Facts, new: Facts) -> Facts:
    """Stages are the same if they share a step; their names are facts like others."""
    olds = {
        path[1]: text for path, text in old.leaves.items() if path[0] == "step" and path[2:] == ("stage",)
    }
    news = {
        path[1]: text for path, text in new.leaves.items() if path[0] == "step" and path[2:] == ("stage",)
    }
    votes: dict[tuple[str, str], int] = {}
    for step, stage in news.items():
        if step in olds:
            pair = (olds[step], stage)
            votes[pair] = votes.get(pair, 0) + 1
    names = set(olds.values()) & set(news.values())
    forth = elected(votes, {name: name for name in names})
    taken = set(forth.values())
    back = {stage: key for key, stage in forth.items()}
    for stage in news.values():
        if stage not in back:
            key = stage
            while key in olds.values() or key in taken:
                key += " +"
            back[stage] = key
            taken.add(key)

    def path_of(path: Path) -> Path:
        return ("stage", back.get(path[1], path[1]), *path[2:]) if path[0] == "stage" else path

    moved = mapped(new, path_of, lambda _, keys: keys)
    leaves = {
        path: back.get(text, text) if path[0] == "step" and path[2:] == ("stage",) else text
        for path, text in moved.leaves.items()
    }
    return Facts(leaves, moved.orders, moved.values)


# -- actions --------------------------------------------------------------------------------------


def _actions(old: Facts, new: Facts, tokens: Mapping[str, str]) -> Facts:
    """The actions and repeats of each step that is in both, under the older keys."""
    rewritten = rewriter(tokens)
    before, after = _records(old).get("step", {}), _records(new).get("step", {})
    actions: dict[Path, str] = {}
    repeats: dict[Path, str] = {}
    for step, said in after.items():
        if step not in before:
            continue
        olds, news = _said(before[step], "action", rewritten), _said(said, "action")
        pairs = _same_actions(olds, news)
        _keyed(("step", step, "action"), list(olds), list(news), pairs, actions)
        votes: dict[tuple[str, str], int] = {}
        for key, known in pairs.items():
            pair = (olds[known].get(("in",), ""), news[key].get(("in",), ""))
            if all(pair):
                votes[pair] = votes.get(pair, 0) + 1
        there, here = _said(before[step], "repeat", rewritten), _said(said, "repeat")
        forth = elected(votes, {})
        _keyed(("step", step, "repeat"), list(there), list(here), {b: a for a, b in forth.items()}, repeats)

    def path_of(path: Path) -> Path:
        if path[0] == "step" and len(path) > 4:
            if path[2] == "action":
                return (*path[:3], actions.get(path[:4], path[3]), *path[4:])
            if path[2] == "repeat":
                return (*path[:3], repeats.get(path[:4], path[3]), *path[4:])
        return path

    def keys_of(path: Path, keys: tuple[str, ...]) -> tuple[str, ...]:
        if path[0] != "step":
            return keys
        return tuple(actions.get((*path[:2], "action", key), key) for key in keys)

    moved = mapped(new, path_of, keys_of)

    def text_of(path: Path, text: str) -> str:
        inner = path[2:3] == ("action",) and path[4:] == ("in",)
        return repeats.get((*path[:2], "repeat", text), text) if inner else text

    leaves = {path: text_of(path, text) for path, text in moved.leaves.items()}
    return Facts(leaves, moved.orders, moved.values)


def _said(step: Said, kind: str, rewritten: Callable[[str], str] = str) -> dict[str, Said]:
    """Key -> what is said of each action (or repeat) of a step."""
    found: dict[str, Said] = {}
    for path, text in step.items():
        if path[0] == kind:
            found.setdefault(path[1], {})[path[2:]] = rewritten(text)
    return found


def _keyed(
    base: Path, olds: list[str], news: list[str], pairs: Mapping[str, str], keys: dict[Path, str]
) -> None:
    """Enter the older key of each newer one; what is new gets a key that is not taken."""
    fresh = len(olds)
    for key in news:
        known = pairs.get(key)
        if known is None:
            fresh += 1
            known = str(fresh)
        keys[(*base, key)] = known


def _same_actions(olds: Mapping[str, Said], news: Mapping[str, Said]) -> dict[str, str]:
    """Newer key -> older key: what is word for word the same, then what does the same to the same thing, then
    what does it with the same verb and mostly alike; each time in their order."""
    found: dict[str, str] = {}
    for same in (_equal, _same_work, _mostly):
        free = [key for key in olds if key not in found.values()]
        for key, action in news.items():
            if key in found:
                continue
            match = next((other for other in free if same(olds[other], action)), None)
            if match is not None:
                found[key] = match
                free.remove(match)
    return found


def _equal(old: Said, new: Said) -> bool:
    apart = ("in",)
    return {k: v for k, v in old.items() if k != apart} == {k: v for k, v in new.items() if k != apart}


def _same_work(old: Said, new: Said) -> bool:
    return all(old.get((name,)) == new.get((name,)) for name in ("verb", "what"))


def _mostly(old: Said, new: Said) -> bool:
    """What it is done to, or the verb, may be another if at least half of all is the same."""
    if old.get(("verb",)) != new.get(("verb",)) and old.get(("what",)) != new.get(("what",)):
        return False
    same = len(old.items() & new.items())
    return 2 * same >= max(len(old), len(new))
