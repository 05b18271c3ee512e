"""The cautions of a step, and what its actions take without naming it: gear, a pencil, a brush."""

from __future__ import annotations

from collections.abc import Iterator

from markupsafe import escape

from builder.guide.cautions import cautions_of, hazard_keys
from builder.guide.model import Action, Guide, Step
from builder.guide.model import Caution as Written
from builder.pages.contexts import Caution
from builder.pages.numbering import names_in_action
from builder.trade.gear import gear_kind
from builder.trade.hazards import hazard
from builder.trade.signals import LEVELS, SIGNAL_WORD, Level, alert_symbol
from builder.trade.sources import source
from builder.trade.tools import tool_kind
from builder.trade.usual import usual


def cautions(step: Step, guide: Guide) -> tuple[Caution, ...]:
    """All cautions that stand before a step, worst first."""
    return tuple(caution_view(each) for each in cautions_of(step, guide))


def caution_view(own: Written) -> Caution:
    """A caution in words, with the titles of its sources."""
    level: Level = next((each for each in LEVELS if each == own.level), "warning")
    named = (found.title if (found := source(key)) else key for key in own.source.split(", "))
    return _caution(level, own.hazard, own.consequence, own.avoidance, "; ".join(filter(None, named)))


def _caution(level: Level, hazard: str, consequence: str, avoidance: str, source: str) -> Caution:
    return Caution(
        level=level,
        signal_word=SIGNAL_WORD[level],
        hazard=escape(hazard),
        consequence=escape(consequence),
        avoidance=escape(avoidance),
        symbol=alert_symbol(level),
        source=source,
    )


def gear_of_step(step: Step, guide: Guide) -> Iterator[str]:
    """Ids of the protective gear on the guide's list that the cautions of a step ask for."""
    asked = {kind.key for each in cautions_of(step, guide) for key in each.gear if (kind := gear_kind(key))}
    for thing in guide.things.values():
        kind = gear_kind(thing.name) if thing.form == "gear" else None
        if kind and kind.key in asked:
            yield thing.id


def needs_adult(step: Step, guide: Guide) -> tuple[str, ...]:
    """The hazards of a step at which an adult does it or stands beside the builder, in words."""
    rows = (hazard(key) for key in hazard_keys(step, guide))
    return tuple(row.hazard.rstrip(".") for row in rows if row and row.adult)


def taken(step: Step, guide: Guide) -> tuple[str, ...]:
    """Ids of the tools on the guide's list that the verbs of a step usually take and no action names."""
    found: dict[str, None] = {}
    for action in step.each_action():
        kinds = {
            id: kind.key for id in _tools_named(action, guide) if (kind := tool_kind(guide.things[id].name))
        }
        for group in _groups(action, guide):
            if not set(group) & set(kinds.values()):
                first = next((id for id, key in _tools(guide) if key in group), None)
                if first:
                    found[first] = None
    return tuple(found)


def _groups(action: Action, guide: Guide) -> tuple[tuple[str, ...], ...]:
    """The groups of tools that a verb usually takes, one of each."""
    what = ""
    for name in names_in_action(action):
        thing = guide.things.get(name)
        if thing is not None and (thing.words.get("adhesive") or thing.words.get("paint")):
            what = thing.words.get("adhesive") or thing.words["paint"]
    if not what and action.verb.word == "mark" and action.ref("from"):
        what = "from pattern"
    row = usual(action.verb.word, what)
    return row.tools if row else ()


def _tools_named(action: Action, guide: Guide) -> list[str]:
    things = (guide.things.get(name) for name in names_in_action(action))
    return [thing.id for thing in things if thing is not None and thing.sort == "tool"]


def _tools(guide: Guide) -> Iterator[tuple[str, str]]:
    """Each tool of the guide's list with the kind that the trade knows it by."""
    for thing in guide.things.values():
        kind = tool_kind(thing.name) if thing.sort == "tool" and thing.form != "gear" else None
        if kind:
            yield thing.id, kind.key
