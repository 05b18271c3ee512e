"""Which things a guide uses: worked out once for all checks that ask."""

from __future__ import annotations

from builder.dryrun.run import Frame
from builder.guide.cautions import cautions_of
from builder.guide.model import Action, Caution, Guide, Ref, Spot
from builder.trade.gear import gear_kind
from builder.trade.tools import tool_kind
from builder.trade.usual import usual


def used_things(guide: Guide, cautions: dict[str, tuple[Caution, ...]]) -> frozenset[str]:
    """Every thing that a step names, uses up by what it names, or usually takes."""
    used: set[str] = set()
    kinds: set[str] = set()
    gear: set[str] = set()
    for step in guide.every_step():
        for action in step.each_action():
            used |= named_things(action)
            for what in _narrowed(action, guide):
                row = usual(action.verb.root, what)
                kinds |= {key for group in (row.tools if row is not None else ()) for key in group}
        gear |= {key for caution in cautions[step.id] for key in caution.gear}
    for name in list(used):
        thing = guide.things.get(name.partition(".")[0])
        if thing is not None:
            if name.endswith(".blank"):
                used.add(thing.id)
            used |= {ref.id for ref in thing.refs.values()}
    for thing in guide.things.values():
        if thing.sort != "tool":
            continue
        protective = gear_kind(thing.name)
        kind = tool_kind(thing.name)
        if (protective is not None and protective.key in gear) or (kind is not None and kind.key in kinds):
            used.add(thing.id)
    return frozenset(used)


def named_things(action: Action) -> set[str]:
    """Every id that an action names in its fields."""
    names: set[str] = set()
    for value in action.fields.values():
        for each in value if isinstance(value, tuple) else (value,):
            if isinstance(each, Ref):
                names.add(each.id)
            elif isinstance(each, Spot):
                names.update(each.names)
    names.update(action.words("through"))
    names.discard("")
    return names


def _narrowed(action: Action, guide: Guide) -> list[str]:
    found = [""]
    for ref in action.refs("with"):
        thing = guide.things.get(ref.id)
        if thing is not None:
            found += [w for w in (thing.words.get("adhesive", ""), thing.words.get("paint", "")) if w]
    return found


def cautions_by_step(guide: Guide) -> dict[str, tuple[Caution, ...]]:
    """The cautions of every step, by its id."""
    return {step.id: cautions_of(step, guide) for step in guide.every_step()}


def waited_for(frame: Frame, guide: Guide) -> list[str]:
    """The items that a wait names, copies and named sub-assemblies told apart, with all that sits on them."""
    bench = frame.before
    found: list[str] = []
    for ref in frame.action.refs("what"):
        thing, seen = guide.things.get(ref.id), {ref.id}
        while thing is not None and thing.form == "assembly" and "base" in thing.refs:
            base = thing.refs["base"].id
            thing = guide.things.get(base) if base not in seen else None
            seen.add(base)
        if thing is not None:
            keys = [key for key, item in bench.items.items() if item.thing == thing.id]
            found += [x for key in keys for x in bench.below(key)]
    return list(dict.fromkeys(found))
