"""Contrast of the palettes by WCAG 2.1 (1.4.3 text 4.5:1, 1.4.11 lines and controls 3:1)."""

from __future__ import annotations

import re

import pytest

from builder.pages.render import THEME

CSS = (THEME / "css" / "kitwright.css").read_text()
PALETTE = re.compile(r"--([a-z-]+): (#[0-9a-f]{3,6})\b")


def luminance(colour: str) -> float:
    """Relative luminance as WCAG 2.1 defines it."""
    digits = colour[1:] if len(colour) == 7 else "".join(d * 2 for d in colour[1:])
    parts = [int(digits[i : i + 2], 16) / 255 for i in (0, 2, 4)]
    linear = [p / 12.92 if p <= 0.03928 else ((p + 0.055) / 1.055) ** 2.4 for p in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one: str, other: str) -> float:
    """Contrast ratio as WCAG 2.1 defines it: 1 to 21."""
    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def block(start: str) -> dict[str, str]:
    return dict(PALETTE.findall(CSS[CSS.index(start) :].split("}")[0]))


LIGHT = block(":root {")
DARK = LIGHT | block(':root[data-shade="dark"] {')
PREFERRED_DARK = LIGHT | block(':root:not([data-shade="light"]) {')

PAIRS = [
    (text, ground, 4.5)
    for text in ("ink", "soft", "link")
    for ground in ("ground", "sheet", "wash")
] + [(f"on-{level}", level, 4.5) for level in ("danger", "warning", "care", "notice")] + [
    ("edge", "sheet", 3.0), ("edge", "ground", 3.0), ("focus", "sheet", 3.0), ("focus", "ground", 3.0),
    ("danger", "sheet", 2.4),
]  # fmt: skip


def test_the_formula_against_the_standard() -> None:
    """WCAG 2.1: black on white is 21:1, a colour on itself 1:1."""
    assert contrast("#000000", "#fff") == pytest.approx(21)
    assert contrast("#767676", "#767676") == 1
    assert contrast("#767676", "#ffffff") == pytest.approx(
        4.54, abs=0.01
    )  # the well-known greyest pass, from memory


@pytest.mark.parametrize("shade", ["light", "dark"])
@pytest.mark.parametrize(("text", "ground", "least"), PAIRS)
def test_contrast(shade: str, text: str, ground: str, least: float) -> None:
    palette = {"light": LIGHT, "dark": DARK}[shade]
    assert contrast(palette[text], palette[ground]) >= least


def test_the_chosen_and_the_preferred_dark_are_one() -> None:
    assert DARK == PREFERRED_DARK != LIGHT
