"""The facts of a guide in one nested whole: equal trees, equal guides."""

from __future__ import annotations

from builder.revisions.facts import Facts, Path

Tree = dict[str, "Tree | list[Tree] | str"]


def tree(facts: Facts) -> Tree:
    """The facts in one nested whole, in which keys that are only handles are gone: the actions of a step,
    the repeats, the stages and the blocks of a choice stand where they belong. Equal trees, equal guides."""
    out: Tree = {}
    for path, text in facts.leaves.items():
        if path[0] not in ("step", "stage"):
            _hang(out, path, text)
    for path, keys in facts.orders.items():
        if path[0] == "thing" and keys:
            _hang(out, path, ", ".join(keys))
    out["steps"] = [_entry(facts, key) for key in facts.orders.get(("order",), ())]
    return out


def _hang(out: Tree, path: Path, text: str) -> None:
    here = out
    for name in path[:-1]:
        inner = here.setdefault(f"{name}:", {})
        assert isinstance(inner, dict)
        here = inner
    here[path[-1]] = text


def _entry(facts: Facts, key: str) -> Tree:
    options = [path[2] for path in facts.orders if path[:2] == ("order", key)]
    if ("step", key, "title") in facts.leaves:
        return _step(facts, key)
    found: Tree = {"choose": key.split(" ")[1]}
    for option in options:
        if facts.orders["order", key, option]:
            found[option] = [_step(facts, step) for step in facts.orders["order", key, option]]
    return found


def _step(facts: Facts, id: str) -> Tree:
    out: Tree = {"id": id}
    actions: dict[str, Tree] = {}
    repeats: dict[str, Tree] = {}
    for path, text in facts.below("step", id).items():
        if path[2] == "action":
            _hang(actions.setdefault(path[3], {}), path[4:], text)
        elif path[2] == "repeat":
            _hang(repeats.setdefault(path[3], {}), path[4:], text)
        elif path[2] == "stage":
            _hang(out, ("stage", "is"), "")
            for inner, words in facts.below("stage", text).items():
                _hang(out, ("stage", inner[2]), words)
        else:
            _hang(out, path[2:], text)
    listed: list[Tree] = []
    handle: object = None
    for key in facts.orders.get(("step", id, "actions"), ()):
        action = actions[key]
        repeat = action.pop("in", "")
        if repeat and repeat != handle:
            listed.append({"repeat": repeats.get(str(repeat), {})})
        handle = repeat
        listed.append({"repeated": action} if repeat else action)
    out["actions"] = listed
    return out
