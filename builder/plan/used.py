"""What a route uses: every thing that its dry run names, and what its verbs and hazards take unnamed."""

from __future__ import annotations

from collections.abc import Iterator

from builder.dryrun.run import DryRun
from builder.guide.cautions import cautions_of
from builder.guide.model import Action, Angle, Guide, Ref, Spot, Step, Thing
from builder.trade.gear import gear_kind
from builder.trade.tools import tool_kind
from builder.trade.usual import usual

Used = dict[str, tuple[str, ...]]


def used(guide: Guide, run: DryRun) -> Used:
    """Id of each thing that the route uses -> ids of the steps that use it, in the order of the run.

    A blank counts for its tube too, a part for the material that it is cut from. Named sub-assemblies are
    left out: they are parts that are there already.
    """
    found: dict[str, dict[str, None]] = {}
    seen: set[str] = set()
    stepped: set[str] = set()
    for frame in run.frames:
        step = frame.step.id
        names: list[str] = []
        if step not in stepped:
            stepped.add(step)
            names += gear_of(frame.step, guide)
        if frame.repeat is not None:
            names.append(frame.repeat.of.id)
        if f"{step} {frame.action.path}" not in seen:
            seen.add(f"{step} {frame.action.path}")
            names += named(frame.action, guide)
            names += taken(frame.action, guide)
        for name in names:
            thing = guide.things.get(name)
            if thing is not None and thing.sort in ("material", "tool", "part"):
                found.setdefault(name, {})[step] = None
                if thing.blank_of:
                    found.setdefault(thing.blank_of, {})[step] = None
    return {name: tuple(steps) for name, steps in found.items()}


def named(action: Action, guide: Guide) -> Iterator[str]:
    """Ids of the things that an action names, perhaps more than once; for a cut, its stock too."""
    for value in action.fields.values():
        for each in value if isinstance(value, tuple) else (value,):
            if isinstance(each, Ref):
                yield each.id
            elif isinstance(each, Spot):
                yield from (name.partition(" ")[0] for name in each.names)
            elif isinstance(each, Angle) and each.of:
                yield each.of
    if action.verb.kind == "cut" and action.ref("from") is None:
        for ref in action.refs("what"):
            source = stock_of(action, guide.things.get(ref.id), guide)
            if source is not None:
                yield source.id


def stock_of(action: Action, thing: Thing | None, guide: Guide) -> Thing | None:
    """The material that a cut takes a thing from; None if it comes out of the printed pattern."""
    if thing is None or thing.words.get("printed") == "yes":
        return None
    source = action.ref("from") or thing.refs.get("of")
    material = guide.things.get(source.id) if source is not None else None
    return material if material is not None and material.sort == "material" else None


def taken(action: Action, guide: Guide) -> Iterator[str]:
    """Ids of the tools on the guide's list that the verb usually takes and the action leaves unnamed: a
    pencil and a ruler to mark, a brush to glue. The first tool of a fitting kind is meant."""
    tools = {name: thing for name in named(action, guide)
             if (thing := guide.things.get(name)) is not None and thing.sort == "tool"}  # fmt: skip
    there = {kind.key for thing in tools.values() if (kind := tool_kind(thing.name)) is not None}
    row = usual(action.verb.root, _what(action, guide))
    for group in row.tools if row is not None else ():
        if there & set(group):
            continue
        for thing in guide.things.values():
            kind = tool_kind(thing.name) if thing.sort == "tool" and thing.form != "gear" else None
            if kind is not None and kind.key in group:
                yield thing.id
                break


def _what(action: Action, guide: Guide) -> str:
    """What narrows the row of a verb: the adhesive, the paint, the form of the stock."""
    for name in named(action, guide):
        thing = guide.things.get(name)
        if thing is not None and (what := thing.words.get("adhesive") or thing.words.get("paint")):
            return what
    if action.verb.root == "cut":
        for ref in action.refs("what"):
            stock = stock_of(action, guide.things.get(ref.id), guide)
            if stock is not None:
                return stock.form
    if action.verb.root == "mark" and action.ref("from") is not None:
        return "from pattern"
    return ""


def gear_of(step: Step, guide: Guide) -> Iterator[str]:
    """Ids of the protective gear on the guide's list that the cautions of a step ask for."""
    asked = set()
    for caution in cautions_of(step, guide):
        for key in caution.gear:
            kind = gear_kind(key)
            asked.add(kind.key if kind is not None else key)
    for thing in guide.things.values():
        kind = gear_kind(thing.name) if thing.sort == "tool" and thing.form == "gear" else None
        if kind is not None and kind.key in asked:
            yield thing.id
