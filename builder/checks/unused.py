"""Something listed is never used.

What: Every material, tool and part on a list is used by some step, or is left over on purpose.

Why: A class buys what nobody needs, or a step that needed it has been lost.

Bad:
    materials: {string: {name: string, form: cord, length: 3 ft}}   # in no step

Good:
    - {cut: line, from: string, with: scissors}
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.checks.base import Check, Look
from builder.findings import Finding, Severity
from builder.guide.cautions import cautions_of
from builder.guide.model import Action
from builder.trade.gear import gear_kind
from builder.trade.tools import tool_kind
from builder.trade.usual import usual


def find(look: Look) -> Iterator[Finding]:
    """Every material, tool and part on a list is used by some step, or is left over on purpose."""
    used = used_things(look)
    left = {ref.id for ref in look.guide.finished.left_over} if look.guide.finished is not None else set()
    for thing in look.guide.things.values():
        if thing.sort == "assembly" or thing.blank_of or thing.id in used or thing.id in left:
            continue
        yield CHECK.finding(thing.at, f"the {thing.sort} \"{thing.name}\" is never used",
                            rests_on={f"item:{thing.id}", f"placed:{thing.id}"}, suspects={f"unused:{thing.id}"})


def used_things(look: Look) -> set[str]:
    """Every thing that a step names, uses up by what it names, or usually takes."""
    used: set[str] = set()
    kinds: set[str] = set()
    gear: set[str] = set()
    for step in look.guide.every_step():
        for action in step.each_action():
            used |= _named(action)
            for what in _narrowed(action, look):
                row = usual(action.verb.word, what)
                kinds |= {key for group in (row.tools if row is not None else ()) for key in group}
        gear |= {key for caution in cautions_of(step, look.guide) for key in caution.gear}
    for name in list(used):
        thing = look.guide.things.get(name.partition(".")[0])
        if thing is not None:
            if name.endswith(".blank"):
                used.add(thing.id)
            used |= {ref.id for ref in thing.refs.values()}
    for thing in look.guide.things.values():
        if thing.sort != "tool":
            continue
        protective = gear_kind(thing.name)
        kind = tool_kind(thing.name)
        if (protective is not None and protective.key in gear) or (kind is not None and kind.key in kinds):
            used.add(thing.id)
    return used


def _named(action: Action) -> set[str]:
    names: set[str] = set()
    for value in action.fields.values():
        for each in value if isinstance(value, tuple) else (value,):
            names |= {n for n in (getattr(each, "id", ""), *getattr(each, "names", ())) if n}
    names |= set(action.words("through"))
    return names


def _narrowed(action: Action, look: Look) -> list[str]:
    found = [""]
    for ref in action.refs("with"):
        thing = look.guide.things.get(ref.id)
        if thing is not None:
            found += [w for w in (thing.words.get("adhesive", ""), thing.words.get("paint", "")) if w]
    return found


CHECK = Check(
    "never-used", Severity.ERROR, "guide",
    why="A class buys what nobody needs, or a step that needed it has been lost.",
    mend="Use it, delete it, or name it under `finished: {left over: [...]}`.",
    find=find, source="common practice",
)  # fmt: skip
