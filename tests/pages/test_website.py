"""Ways between pages, and the frame round them."""

from __future__ import annotations

import pytest

from builder.pages.website import plain_frame, way


@pytest.mark.parametrize(
    ("target", "page", "address"),
    [
        ("index.html", "index.html", "index.html"),
        ("a/index.html", "index.html", "a/index.html"),
        ("index.html", "a/b/c.html", "../../index.html"),
        ("a/x/stage-2.html#step-glue", "a/x/stage-1.html", "stage-2.html#step-glue"),
        ("a/x/stage-1.html#step-glue", "a/x/stage-1.html", "#step-glue"),
        ("a/y/stage-1.html", "a/x/stage-1.html", "../y/stage-1.html"),
    ],
)
def test_way(target: str, page: str, address: str) -> None:
    assert way(target, page) == address


def test_a_frame_leads_from_its_page() -> None:
    frame = plain_frame(
        "a/x/stage-2.html", "Stage 2", [("A", "a/index.html")], following=("On", "a/x/stage-3.html")
    )
    assert frame.root == "../../"
    assert [(crumb.text, crumb.href) for crumb in frame.crumbs][1:] == [("A", "../index.html")]
    assert frame.next and frame.next.href == "stage-3.html"
    assert frame.title.startswith("Stage 2 · A · ")


def test_all_stages_of_a_route_are_one_tab() -> None:
    tabs = [("Build", "a/x/stage-1.html"), ("Patterns", "a/x/patterns.html"), ("Other", "a/y/stage-1.html")]
    frame = plain_frame("a/x/stage-12.html", "Stage 12", tabs=tabs)
    assert [tab.current for tab in frame.tabs] == [True, False, False]
