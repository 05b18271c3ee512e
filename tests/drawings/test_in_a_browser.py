"""Drawings of the guides in a real browser: no text on a text, on a line, or over the frame.

Every step drawing of every route as it is written, and a sample of everything else that pages and packets
show, in both units; with the site's own style sheet, light and dark, at 320 px, at 1000 px and in print.
`python -m tests.overlaps` measures all of it.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import islice
from pathlib import Path

import pytest

from tests.drawings import guides
from tests.overlaps.browser import Browser
from tests.overlaps.collect import PAGE, Job, Shown, jobs, shown
from tests.overlaps.looking import LOOKS, Told, looked, page_of

EACH = 23


def sample() -> list[Shown]:
    """The step drawings that other tests made already, and one in twenty-three of all the others."""
    steps = [
        Job(f"{name} {route} {step}", PAGE, lambda drawing=drawing: (drawing,))  # type: ignore[misc]  # bound at once
        for name, route in guides.ROUTES
        for step, drawing in guides.drawings(name, route).items()
    ]
    others = (islice(jobs(name), n, None, EACH) for n, name in enumerate(guides.NAMES))
    return shown([*steps, *(job for some in others for job in some)])


@pytest.fixture(scope="module")
def browser(chromium: str, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Browser]:
    with Browser(chromium, tmp_path_factory.mktemp("browser") / "profile") as opened:
        yield opened


@pytest.fixture(scope="module")
def told(browser: Browser, tmp_path_factory: pytest.TempPathFactory) -> dict[str, Told]:
    drawings = sample()
    page = tmp_path_factory.mktemp("drawings") / "drawings.html"
    page.write_text(page_of(drawings), encoding="utf-8")
    browser.open(page)
    found = {look.name: looked(browser, look) for look in LOOKS}
    assert {each.seen for each in found.values()} == {len(drawings)}
    return found


def test_no_text_meets_anything(told: dict[str, Told]) -> None:
    assert {name: each.bad for name, each in told.items() if each.bad} == {}


def test_all_lines_follow_the_page(told: dict[str, Told]) -> None:
    """Every line and letter has the colour of the text round it; nothing is filled white."""
    assert {name: each.colours for name, each in told.items() if each.colours} == {}


def test_the_looks_differ(told: dict[str, Told]) -> None:
    """The browser did what was asked: on a dark ground the ink is light, print is black, and letters keep
    their size in the narrowest window: 3 mm capitals at 0.75 are 2.25 mm, of 0.66 of their size, so 12.9 px
    a line; sheets shrink to the page, and are there to be printed."""

    def lightness(colour: str) -> int:
        return sum(
            int(n) for n in colour.removeprefix("rgba(").removeprefix("rgb(").rstrip(")").split(",")[:3]
        )

    light, dark = told["320 px, light"], told["320 px, dark"]
    assert lightness(light.ground) > 700 > 200 > lightness(light.ink)
    assert lightness(dark.ink) > 600 > 200 > lightness(dark.ground)
    assert lightness(told["printed on A4"].ink) == 0
    assert {each.font for each in told.values()} == {"Kitwright Sans"}


def test_the_count_can_fail(browser: Browser, tmp_path: Path) -> None:
    """A text that is moved onto another, a line through one, one beyond the frame, a white line."""
    svg = (
        '<svg xmlns="http://www.w3.org/2000/svg" width="60mm" height="20mm"'
        ' viewBox="0 0 60 20" fill="none" stroke="currentColor"><path d="M2 9L30 9" stroke-width="0.3"/>'
        '<path d="M2 19L30 19" stroke="#fff" stroke-width="0.3"/>'
        '<g font-family="sans-serif" font-size="4.5" fill="currentColor" stroke="none">'
        '<text x="2" y="10">one</text><text x="4" y="11">two</text><text x="55" y="18">three</text></g></svg>'
    )
    page = tmp_path / "bad.html"
    page.write_text(page_of([Shown("bad", svg, PAGE, 60.0)]), encoding="utf-8")
    browser.open(page)
    for look in LOOKS:
        told = looked(browser, look)
        assert any(what.startswith("bad: text on text: one / two") for what in told.bad), told.bad
        assert any(what.startswith("bad: line through text: one") for what in told.bad), told.bad
        assert any(what.startswith("bad: over the frame: three") for what in told.bad), told.bad
        assert told.colours == ("bad: rgb(255, 255, 255)",)
