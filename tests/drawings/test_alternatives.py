"""Text alternatives: whoever cannot see a drawing is told every part, place and dimension that it shows."""

from __future__ import annotations

import re

import pytest

from builder.drawings.captions import LEGEND
from builder.drawings.shapes import Drawing
from builder.guide.model import Thing
from tests.drawings import guides

MEASURE = re.compile(r"\d[\d ./]*(?:in|mm)\b|\d[\d.]*\N{DEGREE SIGN}")
"""A length with its unit, or an angle."""

QUIET = {word for word, _ in LEGEND} | {"first", "then", "last"}
"""Words that explain the picture itself: the legend, and the order of several pictures."""


def plain(text: str) -> str:
    return text.replace("\N{NO-BREAK SPACE}", " ")


def untold(drawing: Drawing) -> list[str]:
    """What is written in a drawing and not in its alternative: measures, and names as a whole."""
    alt = plain(drawing.alt)
    low = alt.lower()
    found: list[str] = []
    for text in drawing.texts():
        words = plain(text.text)
        measures = MEASURE.findall(words)
        found += [m for m in measures if m not in alt]
        name = words.lower().removeprefix("to ").removesuffix(" about").rstrip(",:")
        if not measures and words not in QUIET and not re.search(r"\d", words) and name not in low:
            found.append(words)
    return found


@pytest.mark.parametrize(("name", "route"), guides.ROUTES)
def test_all_that_is_written_in_a_drawing_is_told(name: str, route: int) -> None:
    for step, drawing in guides.drawings(name, route).items():
        assert untold(drawing) == [], (step, drawing.alt)


@pytest.mark.parametrize(("name", "route"), guides.ROUTES)
def test_a_dimension_left_out_is_noticed(name: str, route: int) -> None:
    """Cut the one sentence with the dimensions, or the measure itself, out of any alternative: it is told."""
    for step, drawing in guides.drawings(name, route).items():
        drawn = [m for t in drawing.texts() for m in MEASURE.findall(plain(t.text))]
        for measure in drawn:
            without = drawing._replace(alt=plain(drawing.alt).replace(measure, ""))
            assert measure in untold(without), (step, measure)


def _base(thing: Thing) -> str:
    """The part that a sub-assembly is built on; it goes by the sub-assembly's name once that is made."""
    base = thing.refs.get("base") if thing.form == "assembly" else None
    return "" if base is None else base.id


@pytest.mark.parametrize(("name", "route"), guides.ROUTES)
def test_what_is_new_is_told(name: str, route: int) -> None:
    guide = guides.guide(name)
    for step_id, step in guides.steps(name, route).items():
        alt = guides.drawings(name, route)[step_id].alt.lower()
        for item in (*step.seated, *step.made):
            thing = guide.things.get(item) or guide.things[item.rpartition(" ")[0]]
            names = [thing.name, *(a.name for a in guide.things.values() if _base(a) == item)]
            assert any(n.lower() in alt for n in names), (step_id, item)


@pytest.mark.parametrize(
    ("name", "step", "words"),
    [
        # the block is 30 mm long and its middle is 80 mm from the front: it is told by the mark, not a number
        ("sail-cart", "block_on", "on top of the deck, at the mast spot"),
        # 140 mm of axle, 120 mm of straw in the middle of it: 10 mm stand out
        ("sail-cart", "axles_in", "10 mm (about 3/8 in) of it out at the left end"),
        ("sail-cart", "last_wheels", "flush with the right end"),
        ("sail-cart", "lines", "First turn it over: its underside is up."),
        ("sail-cart", "first_roll", "First turn it over: its top is up."),
        ("sail-cart", "bearings", "the underside of the deck is up"),
        ("rolled-rocket", "wadding_in", "New in this step: flame-resistant recovery wadding."),
        ("rolled-rocket", "jig_fins", "at 0\N{DEGREE SIGN}, 90\N{DEGREE SIGN}, 180\N{DEGREE SIGN} and 270"),
    ],
)
def test_where_things_sit(name: str, step: str, words: str) -> None:
    assert words in plain(guides.drawings(name, 0)[step].alt)


def test_a_turn_is_told_once() -> None:
    """Only the first step of a stage in which the work lies the other way up says so."""
    told = [s for s, d in guides.drawings("sail-cart", 0).items() if "turn it over" in d.alt]
    assert told == ["lines", "first_roll"]
