"""The mark of a page: its own content decides, and nothing else."""

from __future__ import annotations

import pytest

from builder.packet.marks import LENGTH, LETTERS, mark_of, own_content
from builder.packet.pdf import LayoutTrouble, to_pdf

SVG = (
    '<svg xmlns="http://www.w3.org/2000/svg" width="40mm" height="20mm" viewBox="0 0 40 20">'
    '<title>A bar</title><path d="M1 1H{0}" stroke="#000"/></svg>'
)
PAGE = (
    '<!doctype html><html lang="en"><head><title>T</title>'
    "<style>body {{ margin: 0 }} section {{ break-after: page }}</style></head><body>{0}</body></html>"
)


def marks(*sections: str) -> tuple[str, ...]:
    body = "".join(f"<section>{each}</section>" for each in sections)
    return to_pdf(PAGE.format(body))[1]


def picture(to: int) -> str:
    return f'<div role="img" aria-label="A bar">{SVG.format(to)}</div>'


def test_only_the_page_that_changes_gets_another_mark() -> None:
    before = marks("<p>One</p>", "<p>Two</p>", "<p>Three, and four</p>")
    after = marks("<p>One</p>", "<p>Too</p>", "<p>Three, and four</p>")
    assert before[0] == after[0] and before[2] == after[2]
    assert before[1] != after[1]
    assert len(set(before)) == 3


def test_a_new_letter_on_one_page_leaves_the_others_alone() -> None:
    """The font that is put into the file holds other letters then; what the others draw is the same."""
    before = marks("<p>aab</p>", "<p>bba</p>", "<p>xyz</p>")
    after = marks("<p>aab</p>", "<p>QWERTY € fi <b>bold</b></p>", "<p>xyz</p>")
    assert (before[0], before[2]) == (after[0], after[2])


def test_a_drawing_counts_and_its_place_in_the_file_does_not() -> None:
    one = marks(picture(30), picture(20))
    assert marks(picture(30), picture(21)) == (one[0], marks(picture(21))[0])
    assert one[1] != marks(picture(21))[0]
    assert marks(picture(20), picture(30)) == (one[1], one[0])


def test_the_footer_does_not_count() -> None:
    """Pages before it, and how many there are, change a page's number and nothing that it shows."""
    long = marks("<p>One</p>", "<p>Two</p>", "<p>Three</p>")
    assert marks("<p>Two</p>", "<p>Three</p>") == long[1:]


def test_a_mark_is_short_and_even() -> None:
    found = [mark_of(str(n).encode()) for n in range(2000)]
    assert len(set(found)) == len(found)
    assert {len(mark) for mark in found} == {LENGTH}
    assert set("".join(found)) == set(LETTERS)


@pytest.mark.parametrize(
    ("one", "other", "same"),
    [
        (b"/F1 9 Tf <01> Tj", b"/F2 9 Tf <01> Tj", True),
        (b"/F1 9 Tf <01> Tj", b"/F1 9 Tf <02> Tj", False),
        (b"/x1 Do", b"/x2 Do", False),  # the forms below differ
        (b"/x1 Do", b"/x3 Do", True),
    ],
)
def test_names_do_not_count_but_what_they_stand_for_does(one: bytes, other: bytes, same: bool) -> None:
    forms = {"x1": b"0 0 m", "x2": b"1 1 m", "x3": b"0 0 m"}
    assert (own_content(one, forms) == own_content(other, forms)) is same


def test_what_the_engine_complains_of_is_a_fault() -> None:
    with pytest.raises(LayoutTrouble, match="no-such-picture"):
        to_pdf(PAGE.format('<img src="no-such-picture.png" alt="none">'))
    with pytest.raises(LayoutTrouble):
        to_pdf(PAGE.format('<img src="https://example.org/x.png" alt="none">'))
