"""The cautions of a step as they stand before it."""

from __future__ import annotations

from collections.abc import Mapping

from markupsafe import escape

from builder.guide.cautions import cautions_of
from builder.guide.model import Caution as Written
from builder.guide.model import Guide, Step
from builder.pages.contexts import Caution
from builder.pages.spaces import together_in
from builder.trade.signals import LEVELS, SIGNAL_WORD, Level, alert_symbol
from builder.trade.sources import source

Stood = Mapping[str, tuple[Written, ...]]
"""The cautions that were printed before each step when a revision was sealed, by the step's id."""


def cautions(step: Step, guide: Guide, stood: Stood | None = None) -> tuple[Caution, ...]:
    """All cautions that stand before a step, worst first: as they `stood`, or as the trade has them now."""
    found = cautions_of(step, guide) if stood is None else stood.get(step.id, ())
    return tuple(caution_view(each) for each in found)


def caution_view(own: Written) -> Caution:
    """A caution in words, with the titles of its sources."""
    level: Level = next((each for each in LEVELS if each == own.level), "warning")
    named = (found.title if (found := source(key)) else key for key in own.source.split(", "))
    return _caution(level, own.hazard, own.consequence, own.avoidance, "; ".join(filter(None, named)))


def _caution(level: Level, hazard: str, consequence: str, avoidance: str, source: str) -> Caution:
    return Caution(
        level=level,
        signal_word=SIGNAL_WORD[level],
        hazard=together_in(escape(hazard)),
        consequence=together_in(escape(consequence)),
        avoidance=together_in(escape(avoidance)),
        symbol=alert_symbol(level),
        source=source,
    )
