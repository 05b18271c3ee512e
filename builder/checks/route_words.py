"""A text speaks of what only another route has.

What: A step that all routes share names no tool or part that only one option uses.

Why: A class that builds the other way reads of a jig that it has never seen.

Bad:
    - {id: fillets, actions: [{note: The fin jig leaves its marks here.}, ...]}  # in a step of all routes

Good:
    - {id: jig_off, actions: [{note: The fin jig leaves its marks here.}, ...]}  # in a step of its option
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.checks.base import Check, Look
from builder.checks.usage import named_things
from builder.findings import Finding, Severity
from builder.guide.model import Choose, Step, Thing
from builder.guide.wording.saying import place_in
from builder.guide.wording.written import written


def find(look: Look) -> Iterator[Finding]:
    """One finding for each text of a shared step that names a thing of one option."""
    guide = look.guide
    own: dict[str, str] = {}
    for entry in guide.entries:
        for option, steps in entry.options.items() if isinstance(entry, Choose) else ():
            for name in {
                name for step in steps for action in step.each_action() for name in named_things(action)
            }:
                own[name] = "" if own.setdefault(name, option) != option else option
    writing = written(look.book)
    alone = {
        thing.name.lower(): name
        for name, option in own.items()
        if option
        and (thing := guide.things.get(name)) is not None
        and _of_the_build(thing)
        and not writing.words.isdisjoint(thing.name.lower().split()[-1:])
    }
    if not alone:
        return
    everywhere = {entry.id: entry for entry in guide.entries if isinstance(entry, Step)}
    for step in everywhere.values():
        for action in step.each_action():
            used = named_things(action)
            alone = {name: id for name, id in alone.items() if id not in used}
    words = frozenset(name.rpartition(" ")[2] for name in alone)
    for text in writing.with_any(words):
        if text.step.id not in everywhere:
            continue
        lower = text.plain.lower()
        for name in alone:
            at = lower.find(name)
            if (
                at >= 0
                and not lower[at + len(name) : at + len(name) + 1].isalpha()
                and not lower[at - 1 : at].isalpha()
            ):
                yield CHECK.finding(
                    place_in(text.prose, at, len(name)),
                    f"every route reads this, but only one of them has the {name}",
                )


def _of_the_build(thing: Thing) -> bool:
    """A part, or a tool that takes part in the build; a pencil is in every room."""
    return thing.sort == "part" or (thing.sort == "tool" and thing.form not in ("tool", "gear"))


CHECK = Check(
    "route-words", Severity.ERROR, "guide",
    why="A class that builds the other way reads of a thing that it has never seen.",
    mend="Move the text to a step of the option, or say it without the thing.",
    find=find, source="US Department of Energy, DOE-STD-1029-92: alternative steps",
)  # fmt: skip
