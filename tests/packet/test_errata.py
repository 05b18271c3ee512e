"""Errata of printed packets: the pages by their marks, and slips that fit over the boxes that they mend."""

from __future__ import annotations

import io
from fractions import Fraction
from functools import cache
from pathlib import Path

import pdfplumber
import pytest

from builder.packet.blocks import Block, Box, Laid, lay_out
from builder.packet.codes import CURRENT, STOP, SUPERSEDED, Page, Pages, encode, in_its_place, table
from builder.packet.errata import Errata, errata
from builder.packet.mending import comparable, otherwise
from builder.packet.parts import builder_part
from builder.packet.pdf import to_pdf
from builder.packet.pictures import Drawn
from builder.packet.slips import slips_html
from builder.pages.book import Chapter
from builder.pages.render import render
from builder.plan.settings import Class, Spares
from builder.revisions import vault
from tests.revisions.rack import Edits, revised
from tests.revisions.shelf import lay_out as shelf
from tests.revisions.shelf import run, write

# -- by hand --------------------------------------------------------------------------------------


def block(step: str, page: int, shows: str, height: float = 50, whole: bool = True) -> Block:
    """A step on a page."""
    return Block(step, page, Box(15, 20, 180, height), shows, f"<p>{shows}</p>", whole)


def laid(*pages: tuple[str, str, tuple[Block, ...]]) -> Laid:
    """Pages as (mark, what stands round the steps, the steps)."""
    return Laid(
        b"",
        tuple(mark for mark, _, _ in pages),
        tuple(each for _, _, blocks in pages for each in blocks),
        tuple(frozenset({rest}) for _, rest, _ in pages),
    )


OLD = laid(
    ("aaa", "cover", ()),
    ("bbb", "head", (block("one", 2, "1"), block("two", 2, "2"))),
    ("ccc", "foot", (block("three", 3, "3"),)),
)


@pytest.mark.parametrize(
    ("new", "out", "come", "slips", "mended"),
    [
        (OLD, (), (), (), ()),
        # a step is worded otherwise, and no larger: one slip mends its page
        (laid(("aaa", "cover", ()), ("xxx", "head", (block("one", 2, "1"), block("two", 2, "2a"))),
              ("ccc", "foot", (block("three", 3, "3"),))), (2,), (2,), ("two",), (2,)),
        # larger by 1 mm: it does not go into its box
        (laid(("aaa", "cover", ()), ("xxx", "head", (block("one", 2, "1"), block("two", 2, "2a", 51))),
              ("ccc", "foot", (block("three", 3, "3"),))), (2,), (2,), (), ()),
        # what stands round the steps has changed as well
        (laid(("aaa", "cover", ()), ("xxx", "tail", (block("one", 2, "1"), block("two", 2, "2a"))),
              ("ccc", "foot", (block("three", 3, "3"),))), (2,), (2,), ("two",), ()),
        # a step is gone: a slip says so
        (laid(("aaa", "cover", ()), ("xxx", "head", (block("one", 2, "1"),)),
              ("ccc", "foot", (block("three", 3, "3"),))), (2,), (2,), ("two",), (2,)),
        # a step is new between two others: no slip shows it
        (laid(("aaa", "cover", ()), ("xxx", "head", (block("one", 2, "1a"), block("new", 2, "n"))),
              ("yyy", "foot", (block("two", 3, "2"), block("three", 3, "3")))), (2, 3), (2, 3), ("one",), ()),
        # only the pages have moved: the older ones stay
        (laid(("zzz", "more", ()), ("aaa", "cover", ()),
              ("bbb", "head", (block("one", 3, "1"), block("two", 3, "2"))),
              ("ccc", "foot", (block("three", 4, "3"),))), (), (1,), (), ()),
    ],
)  # fmt: skip
def test_pages_and_slips(new: Laid, out: tuple[int, ...], come: tuple[int, ...], slips: tuple[str, ...],
                         mended: tuple[int, ...]) -> None:  # fmt: skip
    found = errata(OLD, new, {})
    assert (found.out, found.come) == (out, come)
    assert tuple(slip.old.step for slip in found.slips) == slips
    assert found.mended == mended


def test_pages_that_stay_know_their_new_number() -> None:
    assert errata(OLD, laid(("zzz", "more", ()), ("aaa", "cover", ())), {}).moved == {1: 2}


def test_a_step_that_goes_over_the_end_of_a_page_is_not_slipped() -> None:
    split = laid(("bbb", "head", (block("one", 1, "1", whole=False),)))
    new = laid(("xxx", "head", (block("one", 1, "1a"),)))
    assert errata(split, new, {}).slips == ()


def test_a_renamed_step_is_the_same_step() -> None:
    new = laid(("aaa", "cover", ()), ("xxx", "head", (block("one", 2, "1"), block("second", 2, "2b"))),
               ("ccc", "foot", (block("three", 3, "3"),)))  # fmt: skip
    (slip,) = errata(OLD, new, {"two": "second"}).slips
    assert slip.new is not None and slip.new.step == "second"


@pytest.mark.parametrize(
    ("printed", "changed"),
    [
        ((), False),  # nothing was kept
        ((Page("aaa"), Page("bbb"), Page("ccc")), False),
        ((Page("aaa"), Page("bbb"), Page("xxx")), True),
        ((Page("aaa"), Page("bbb")), True),
    ],
)
def test_pages_that_look_otherwise_by_now_are_noticed(printed: tuple[Page, ...], changed: bool) -> None:
    assert otherwise(OLD, printed) is changed


@pytest.mark.parametrize(
    ("part", "group", "same"),
    [
        ("jig-letter-builder", Class(7), True),
        ("jig-a4-teacher", Class(24, Spares(share=Fraction(1, 10)), "a4"), True),  # as kept when sealing
        ("jig-a4-teacher", Class(24, paper="a4"), False),
        ("jig-letter-teacher", Class(7), False),
    ],
)
def test_a_teachers_part_is_compared_with_what_was_kept_for_the_same_class(
    part: str, group: Class, same: bool
) -> None:
    assert comparable(part, group) is same


# -- on paper -------------------------------------------------------------------------------------

SHORTER: Edits = (("note: The grain runs lengthwise.", "note: Grain lengthwise."),)
LONGER: Edits = (
    ("note: The grain runs lengthwise.", "note: " + "The grain runs lengthwise and so on. " * 30),
)


@cache
def printed(edits: Edits) -> Laid:
    """The builder's part of the card rack after edits, on A4."""
    edition = revised(*edits)
    chapter = Chapter(edition.guide, edition.runs[0], Class(4, paper="a4"))
    return lay_out(render("print/builder.html", view=builder_part(chapter, Drawn(chapter, ""), "")))


def test_laying_out_finds_every_step_once_with_the_marks_of_the_packet() -> None:
    part = printed(())
    steps = [each.step for each in part.blocks]
    assert steps == [f"step-{step.id.replace('_', '-')}" for step in revised().guide.routes[0].steps]
    assert len(set(part.marks)) == len(part.marks) == len(part.rest)
    edition = revised()
    chapter = Chapter(edition.guide, edition.runs[0], Class(4, paper="a4"))
    html = render("print/builder.html", view=builder_part(chapter, Drawn(chapter, ""), ""))
    assert to_pdf(html)[1] == part.marks


def slip_of(edits: Edits) -> Errata:
    return errata(printed(()), printed(edits), {})


def test_a_slip_covers_its_box_within_half_a_millimetre() -> None:
    """Read back from both PDF files: the box on the old page, the cutting line on the sheet of slips."""
    found = slip_of(SHORTER)
    (slip,) = found.slips
    assert slip.old.step == "step-cut-back" and slip.old.page in found.mended
    data, _ = to_pdf(slips_html(found.slips, "Card rack", "builder", "a4"))
    with pdfplumber.open(io.BytesIO(data)) as sheet:
        width, height = max(
            ((r["width"], r["height"]) for r in sheet.pages[0].rects), key=lambda size: size[0] * size[1]
        )
        text = sheet.pages[0].extract_text()
    mm = 25.4 / 72
    assert "Grain lengthwise." in text and slip.mark in text
    box = slip.old.box
    assert abs(width * mm - box.width) <= 0.5 and abs(height * mm - box.height) <= 0.5
    # the box on the old page, found by its own words: its first and last line of text lie within it
    with pdfplumber.open(io.BytesIO(printed(()).data)) as old:
        page = old.pages[slip.old.page - 1]
        # its caution stands first; its note stands last, beside the foot of its drawing
        found_lines = page.extract_text_lines()
        first, last = (
            next(line for line in found_lines if words in line["text"])
            for words in ("The blade is very sharp", "The grain runs lengthwise")
        )
    assert box.y - 0.5 <= first["top"] * mm and last["bottom"] * mm <= box.y + box.height + 0.5
    assert first["top"] * mm - box.y < 6 and box.y + box.height - last["bottom"] * mm < 20


Word = tuple[str, float, float]


def words_in(data: bytes, page: int, x: float, y: float, wide: float, high: float) -> list[Word]:
    """The words of a page of a PDF that lie in a box, each with its place from the corner of the box; mm."""
    mm = 25.4 / 72
    with pdfplumber.open(io.BytesIO(data)) as file:
        words = file.pages[page - 1].extract_words()
    placed = [(w["text"], w["x0"] * mm - x, w["top"] * mm - y) for w in words]
    return [w for w in placed if -0.5 <= w[1] <= wide and -0.5 <= w[2] <= high]


def far(words: list[Word], others: list[Word]) -> list[str]:
    """The words of one page that do not stand on the other within 0.5 mm."""
    return [
        word
        for word, x, y in words
        if not any(word == o and abs(x - a) <= 0.5 and abs(y - b) <= 0.5 for o, a, b in others)
    ]


def test_a_slip_laid_on_its_box_is_the_newer_page() -> None:
    """Every word of the slip, measured from the corner of its cutting line, stands where the newer page has
    it, measured from the corner of that step; and the words that have not changed stand where the older page
    has them. All three are read back from their PDF files."""
    found = slip_of(SHORTER)
    (slip,) = found.slips
    data, _ = to_pdf(slips_html(found.slips, "Card rack", "builder", "a4"))
    with pdfplumber.open(io.BytesIO(data)) as sheet:
        cut = max(sheet.pages[0].rects, key=lambda r: r["width"] * r["height"])
    mm = 25.4 / 72
    old, new = slip.old.box, slip.new.box if slip.new is not None else slip.old.box
    assert slip.new is not None
    on_slip = words_in(data, 1, cut["x0"] * mm, cut["top"] * mm, cut["width"] * mm, cut["height"] * mm)
    on_new = words_in(printed(SHORTER).data, slip.new.page, new.x, new.y, new.width, new.height)
    on_old = words_in(printed(()).data, slip.old.page, old.x, old.y, old.width, old.height)
    assert len(on_slip) > 50
    # but for the page of the step's gauge, which may be another one in the packet that is mended
    gauge, page = ["at", "the", "end"], ["page"]
    assert far(on_slip, on_new) == gauge
    assert [word for word in far(on_new, on_slip) if not word.isdigit()] == page
    assert far(on_slip, on_old) == [*gauge, "Grain", "lengthwise."]
    gone = [word for word in far(on_old, on_slip) if not word.isdigit()]
    assert gone == [*page, "The", "grain", "runs", "lengthwise."]


def test_a_step_that_has_grown_is_printed_again() -> None:
    found = slip_of(LONGER)
    assert "step-cut-back" not in [slip.old.step for slip in found.slips]
    assert printed(()).blocks[0].page in found.unmended


# -- codes ----------------------------------------------------------------------------------------


@pytest.fixture
def rack(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A rack of two sealed revisions with pages that are written here; the second has a longer wait."""
    monkeypatch.chdir(tmp_path)
    rack = shelf(tmp_path)

    def sealed(number: int, pages: Pages) -> None:
        from builder.revisions.seal import prepare, seal

        prepared = prepare(rack, lambda _edition, _folder: {"pages.json": encode(pages)})
        assert not prepared.refused, prepared.refusals
        seal(rack, prepared)
        assert vault.numbers(rack)[-1] == number

    pages = (Page("aaaaaa"), Page("bbbbbb", ("cut_back",)), Page("cccccc", ("peg_on",)))
    first: Pages = {"block-a4-builder": (*pages, Page("dddddd", ("look",)))}
    last = Page("yyyyyy", ("peg_on", "look"))
    second: Pages = {"block-a4-builder": (Page("xxxxxx"), Page("bbbbbb", ("cut_back",)), last)}
    sealed(1, first)
    write(rack, ("for: 20 min}", "for: 25 min}"), ("tip: A rack that rocks", "tip: A rack which rocks"))
    sealed(2, second)
    return rack


@pytest.mark.parametrize(
    ("mark", "worth", "instead"),
    [
        ("bbbbbb", CURRENT, ""),
        ("yyyyyy", CURRENT, ""),
        ("aaaaaa", SUPERSEDED, "page 1 of revision 2"),  # the cover
        ("dddddd", SUPERSEDED, "page 3 of revision 2"),
        ("cccccc", STOP, "page 3 of revision 2"),
    ],
)
def test_what_a_page_is_worth(rack: Path, mark: str, worth: str, instead: str) -> None:
    (found,) = [each for each in table(rack) if each.mark == mark]
    assert (found.worth, found.instead) == (worth, instead)


STEPS = Page("s", ("one",))
BARE = Page("b")


@pytest.mark.parametrize(
    ("page", "old", "new", "place"),
    [
        # two sheets before the steps, one behind: counted from the first step and from the last
        (1, (BARE, BARE, STEPS, BARE), (BARE, BARE, STEPS, STEPS, BARE), [1]),
        (2, (BARE, BARE, STEPS, BARE), (BARE, STEPS, BARE), []),
        (3, (BARE, BARE, STEPS, BARE), (BARE, STEPS, STEPS, BARE), [2, 3]),
        (4, (BARE, BARE, STEPS, BARE), (BARE, BARE, STEPS, STEPS, BARE), [5]),
        (5, (STEPS, STEPS, STEPS, BARE, BARE), (STEPS, BARE), [2]),
        (4, (STEPS, STEPS, STEPS, BARE, BARE), (STEPS, BARE), []),
        # between steps nothing tells which is which
        (2, (STEPS, BARE, STEPS), (STEPS, BARE, STEPS), []),
        # no steps at all: by number
        (2, (BARE, BARE), (BARE, BARE, BARE), [2]),
        (2, (BARE, BARE), (BARE,), []),
    ],
)
def test_which_page_stands_in_its_place(
    page: int, old: tuple[Page, ...], new: tuple[Page, ...], place: list[int]
) -> None:
    assert in_its_place(page, old, new, {}) == place


@pytest.mark.parametrize(
    ("mark", "status", "said"),
    [
        ("BBBBBB", 0, "bbbbbb: current. Card rack, revision 2, block, a4, builder, page 2."),
        (
            "dddddd",
            1,
            "dddddd: superseded. Card rack, revision 1, block, a4, builder, page 4; page 3 of revision 2",
        ),
        ("cccccc", 1, "  Step 11, Glue the peg on: wait 25 min, was 20 min: strengthened"),
        ("qqqqqq", 2, "no sealed revision has printed a page with the letters qqqqqq"),
    ],
)
def test_the_command_page(rack: Path, mark: str, status: int, said: str) -> None:
    ran = run("page", mark)
    assert ran.exit_code == status and said in ran.output
