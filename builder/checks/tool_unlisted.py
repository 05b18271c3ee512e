"""A tool that the work takes is not listed.

What: What a verb usually takes (a pencil to mark, a brush to glue) is on the tool list.

Why: The teacher lays out the tools by the list.

Bad:
    - {mark: line, onto: tube, at: 1 in from rear}   # and no pencil on the tool list

Good:
    tools: {pencil: {name: pencil}, ruler: {name: ruler}}
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.checks.base import Check, Look
from builder.findings import Finding, Related, Severity
from builder.guide.model import Action
from builder.trade.tools import tool_kind
from builder.trade.usual import usual


def find(look: Look) -> Iterator[Finding]:
    """What a verb usually takes (a pencil to mark, a brush to glue) is on the tool list."""
    listed = {
        kind.key
        for thing in look.guide.things.values()
        if thing.sort == "tool" and (kind := tool_kind(thing.name)) is not None
    }
    strange = [t for t in look.guide.things.values() if t.sort == "tool" and tool_kind(t.name) is None]
    missing: dict[tuple[str, ...], list[Action]] = {}
    for step in look.guide.every_step():
        for action in step.each_action():
            for group in _groups(action, look):
                if not any(key in listed for key in group):
                    missing.setdefault(group, []).append(action)
    for group, actions in missing.items():
        first = actions[0]
        also = tuple(Related(a.at, "wanted here too") for a in actions[1:3])
        yield CHECK.finding(
            first.at,
            f"to {first.verb.word} takes a {group[0]}, and the tool list has none",
            also=also,
            # one that nobody knows may be it, or a name that was not found
            rests_on={f"hazard:{thing.id}" for thing in strange} | {f"done:{first.verb.word}", "names:tool"},
        )


def _groups(action: Action, look: Look) -> tuple[tuple[str, ...], ...]:
    """The groups of tool kinds that an action takes beyond those that it names."""
    what = ""
    named = [look.guide.things[r.id] for r in action.refs("with") if r.id in look.guide.things]
    for thing in named:
        what = what or thing.words.get("adhesive", "") or thing.words.get("paint", "")
    if action.verb.root == "cut":
        source = action.ref("from") or next(
            (
                look.guide.things[r.id].refs.get("of")
                for r in action.refs("what")
                if r.id in look.guide.things
            ),
            None,
        )
        stock = look.guide.things.get(source.id) if source is not None else None
        what = stock.form if stock is not None else ""
    if action.verb.root == "mark" and action.ref("from") is not None:
        what = "from pattern"
    unread = "with" in action.where and not action.refs("with")
    unknown = any(t.sort == "tool" and t.form != "gear" and tool_kind(t.name) is None for t in named)
    if (action.verb.root == "glue" and not what) or unread or unknown:
        return ()  # a name that was not found, or a tool that nobody knows, has its own finding
    row = usual(action.verb.root, what)
    kinds = {
        kind.key for thing in named if thing.sort == "tool" and (kind := tool_kind(thing.name)) is not None
    }
    return tuple(g for g in (row.tools if row is not None else ()) if not kinds & set(g))


CHECK = Check(
    "tool-unlisted", Severity.ERROR, "guide",
    why="The teacher lays out the tools by the list.",
    mend="Add it to the tools, or name in `with` what is used instead.",
    find=find, source="common practice",
)  # fmt: skip
