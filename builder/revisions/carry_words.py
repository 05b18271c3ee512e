"""The plan for a half-made kit, in words for the person who has it in hand."""

from __future__ import annotations

from builder.quantities.show import show_time
from builder.revisions.carry_over import Plan
from builder.revisions.edition import Edition
from builder.revisions.in_hand import item_name


def as_text(plan: Plan, old: Edition, new: Edition, step: str, *, stands: bool) -> str:
    """The plan. `stands` tells whether the older revision's packet may still be worked from."""
    guide = new.guide

    def at(id: str) -> str:
        return f"step {new.numbers.get(id, '?')}, {new.title(id)}"

    last = f"step {old.numbers.get(step, '?')}, {old.title(step)}"
    out = [f"{guide.title}: a kit of {old.label}, done until {last}, to be finished by {new.label}"]
    if plan.begin_again:
        out.append("Begin again: nothing that was made so far can be kept.")
    elif plan.again:
        out.append("These cannot be kept:")
    out += [f"  {item_name(guide, each.item)}: {each.why}" for each in plan.again]
    if plan.begin_again:
        how = "It may also be finished by" if stands else "Nor may it be finished by"
        why = "no change since then is of safety" if stands else "what guards against harm has changed"
        return "\n".join([*out, f"{how} {old.label}: {why}."])
    if plan.apart:
        out.append("Take off or put aside:")
        out += [f"  {item_name(guide, item)}" for item in plan.apart]
    if plan.wait:
        out.append(f"Let the kit stand for {show_time(plan.wait, up=True)} more.")
    if plan.todo:
        out.append("Do first:")
        for each in plan.todo:
            out.append(f"  {at(each.step)}" + (" (again)" if each.again else ""))
    if plan.skip:
        out.append("Done already, to be passed over when you come to it:")
        out += [f"  {at(each)}" for each in plan.skip]
    out.append(f"Go on with {at(plan.go_on)}." if plan.go_on else "The kit is finished.")
    return "\n".join(out)
