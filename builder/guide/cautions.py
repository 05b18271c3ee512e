"""The cautions of a step: computed from what its tools, materials and verbs can do, plus those added,
less those dropped with a reason.
"""

from __future__ import annotations

from builder.guide.model import Action, Caution, Guide, Ref, Step, Thing
from builder.trade.adhesives import adhesive
from builder.trade.hazards import hazard, uncovered
from builder.trade.materials import material_kind
from builder.trade.paints import paint
from builder.trade.tools import tool_kind
from builder.trade.usual import told_hazards, verb_hazards


def hazards_of(thing: Thing) -> tuple[str, ...] | None:
    """The hazard keys of a tool or a material: those stated and those that the trade knows of its kind; None
    if nobody knows. What is stated adds and never takes away; leaving a caution out needs a reason."""
    known = _known(thing)
    if thing.hazards is None or known is None:
        return thing.hazards if known is None else known
    return tuple(dict.fromkeys((*thing.hazards, *known)))


def _known(thing: Thing) -> tuple[str, ...] | None:
    if thing.sort == "part":
        return ()
    if thing.sort == "tool":
        if thing.form == "gear":
            return ()
        kind = tool_kind(thing.name)
        return kind.hazards if kind is not None else None
    if thing.form == "adhesive":
        row = adhesive(thing.words.get("adhesive", ""))
        return row.needs if row is not None else None
    if thing.form == "paint":
        coat = paint(thing.words.get("paint", ""))
        return coat.needs if coat is not None else None
    material = material_kind(thing.name)
    return material.hazards if material is not None else None


def things_of(action: Action, guide: Guide) -> list[Thing]:
    """The tools and materials that an action names, and the parts that state a hazard."""
    found = []
    for value in action.fields.values():
        for ref in value if isinstance(value, tuple) else (value,):
            thing = guide.things.get(ref.id) if isinstance(ref, Ref) else None
            stated = thing is not None and thing.sort == "part" and bool(thing.hazards)
            if thing is not None and (stated or thing.sort in ("tool", "material")) and thing not in found:
                found.append(thing)
    return found


def hazard_keys(step: Step, guide: Guide) -> tuple[str, ...]:
    """The hazards of a step, each once, the worst that says the same instead of the lesser."""
    keys: list[str] = []
    for action in step.each_action():
        for field in ("else", "if_missed"):  # what mends it is work at the bench too
            prose = action.prose(field)
            keys += [k for k in told_hazards(prose.text) if k not in keys] if prose is not None else []
        if action.verb.kind in ("wait", "verify", "remove"):
            continue
        for thing in things_of(action, guide):
            keys += [k for k in hazards_of(thing) or () if k not in keys]
        keys += [k for k in verb_hazards(action.verb.root) if k not in keys]
    return uncovered(keys)


def of_trade(key: str) -> Caution | None:
    """The caution that the trade's table has for a hazard, which stands nowhere in a guide; None if it has
    none."""
    row = hazard(key)
    if row is None:
        return None
    return Caution(row.key, row.level, row.hazard, row.consequence, row.avoidance, None, row.gear,
                   ", ".join(row.sources))  # fmt: skip


def cautions_of(step: Step, guide: Guide) -> tuple[Caution, ...]:
    """Every caution that stands before a step, the most severe first."""
    covered = {key for caution in step.cautions for key in (caution.id, caution.covers)}
    dropped = {d.hazard for d in step.dropped if d.why}
    out = list(step.cautions)
    for key in hazard_keys(step, guide):
        caution = guide.cautions.get(key) or of_trade(key)
        if caution is not None and key not in covered and key not in dropped:
            out.append(caution)
    rank = {"danger": 0, "warning": 1, "caution": 2, "notice": 3}
    return tuple(sorted(out, key=lambda c: rank.get(c.level, 2)))
