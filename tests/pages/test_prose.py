"""Markdown of writers: what it may become, and what it may never."""

from __future__ import annotations

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.pages.prose import line, page_text, prose


@pytest.mark.parametrize(
    ("text", "html"),
    [
        ("one *two* **three**", "<p>one <em>two</em> <strong>three</strong></p>"),
        ("# Head", "<h2>Head</h2>"),
        ("- a\n- b", "<ul>\n<li>a</li>\n<li>b</li>\n</ul>"),
        ("[a](other.html)", '<p><a href="other.html">a</a></p>'),
        ("[a](https://example.org)", '<p><a href="https://example.org">a</a></p>'),
        ("![ring](ring.png)", '<p><img alt="ring" src="ring.png"></p>'),
        ("1 < 2 & 3", "<p>1 &lt; 2 &amp; 3</p>"),
        ("```yaml\na: {b: 1}\n```", "<pre><code>a: {b: 1}\n</code></pre>"),
    ],
)
def test_markdown(text: str, html: str) -> None:
    assert prose(text) == html


@pytest.mark.parametrize(
    ("text", "gone"),
    [
        ("<script>alert(1)</script>", "alert"),
        ("<style>p {color: red}</style>", "color"),
        ("<iframe src='x'></iframe>", "iframe"),
        ("<b onclick='x()'>b</b>", "onclick"),
        ("<svg><script>x</script></svg>", "svg"),
        ("[a](javascript:x)", "javascript"),
        ("[a](JaVaScRiPt:x)", "aVaScRiPt"),
        ("![a](https://example.org/a.png)", "example.org"),
        ("![a](//example.org/a.png)", "example.org"),
        ("<img src=data:image/png;base64,AAAA>", "data:"),
        ("<a href='file:///etc'>a</a>", "file:"),
    ],
)
def test_what_never_comes_through(text: str, gone: str) -> None:
    assert gone not in prose(text)


@given(st.text(alphabet="<>ab/='\" !-&;[](){}*_`#:\n", max_size=60))
def test_any_text_gives_clean_html(text: str) -> None:
    html = prose(text).lower()
    assert "<script" not in html and "<svg" not in html and "<iframe" not in html


def test_a_line_has_no_paragraph_and_keeps_several() -> None:
    assert line("a *b*") == "a <em>b</em>"
    assert line("a\n\nb").count("<p>") == 2


@pytest.mark.parametrize(
    ("typed", "levels"),
    [
        ("# One\n\n## Two\n", ["2", "3"]),
        ("## One\n\ntext\n\n## Two\n\n### Three\n", ["2", "2", "3"]),
        ("### One\n", ["2"]),
        ("No heading.\n", []),
    ],
)
def test_the_headings_of_a_page_begin_at_the_second_level(typed: str, levels: list[str]) -> None:
    """WCAG 2.1, 1.3.1: under the page's own heading of the first level none is left out."""
    html = page_text(typed)
    assert re.findall(r"<h(\d)", html) == levels == re.findall(r"</h(\d)", html)
