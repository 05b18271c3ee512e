"""Spaces that hold a number and its unit together, in what is read and never in what is typed."""

from __future__ import annotations

import pytest
from markupsafe import Markup

from builder.pages.spaces import NO_BREAK, dates_whole, shown, together, together_in


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("1/4 in (6.4 mm)", "1/4_in (6.4_mm)"),
        ("2 1/2 in", "2_1/2_in"),
        ("give or take 1/32 in.", "give or take 1/32_in."),
        ("1 h 30 min", "1_h 30_min"),
        ("12 1/2 in ± 1/32 in", "12_1/2_in ±_1/32_in"),
        ("14 in x 22 in", "14_in x 22_in"),
        ("21.00 USD", "21.00_USD"),
        ("8 days 3 h", "8_days 3_h"),
        ("step 7 and step 9", "step 7 and step 9"),
        ("4 fins", "4 fins"),
        ("2 inner rings", "2 inner rings"),
        ("4 minutes", "4 minutes"),
        ("", ""),
    ],
)
def test_together(text: str, told: str) -> None:
    assert together(text) == told.replace("_", NO_BREAK)


def test_a_tag_and_what_is_to_be_typed_stay_as_they_are() -> None:
    html = Markup('<p title="1 in">1 in, <b>2 in</b> <code>3 in <i>4 in</i></code> 5 in</p>')
    told = '<p title="1 in">1_in, <b>2_in</b> <code>3 in <i>4 in</i></code> 5_in</p>'
    assert together_in(html) == told.replace("_", NO_BREAK)


def test_only_plain_text_is_changed_where_a_template_prints() -> None:
    assert shown("1 in") == f"1{NO_BREAK}in"
    assert shown(Markup("1 in")) == "1 in"
    assert shown(3) == 3


def test_a_date_is_kept_on_one_line_and_all_else_is_text() -> None:
    assert dates_whole("2 of 2026-10-05 <b>") == '2 of <span class="whole">2026-10-05</span> &lt;b&gt;'
