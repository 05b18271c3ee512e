"""The produced pages, read back: sizes, footers, what stays together, tags, what a route may say."""

from __future__ import annotations

import re
from io import BytesIO
from typing import Any

import pypdf
import pytest

from builder.packet.build import Sheaf
from builder.packet.marks import LETTERS
from builder.pages.book import Book, Chapter
from builder.pages.chapter import caution_groups
from builder.plan.used import used
from tests.packet.read_back import elements, sizes, texts

PARTS = (0, 1)
HEADING = r"^ ?Step (\d+):"


@pytest.fixture(scope="session")
def packets(
    rocket_packet: tuple[Sheaf, Sheaf], small_packet: tuple[Sheaf, Sheaf]
) -> tuple[tuple[Sheaf, Sheaf], ...]:
    return rocket_packet, small_packet


@pytest.fixture(scope="session")
def pages(packets: tuple[tuple[Sheaf, Sheaf], ...]) -> dict[tuple[int, int], list[str]]:
    return {(n, part): texts(packet[part].data) for n, packet in enumerate(packets) for part in PARTS}


# ISO 216: A4 is 210 x 297 mm. ANSI/ASME Y14.1: size A (letter) is 8 1/2 x 11 in, 215.9 x 279.4 mm.
@pytest.mark.parametrize(("guide", "size"), [(0, (215.9, 279.4)), (1, (210.0, 297.0))])
def test_paper(packets: tuple[tuple[Sheaf, Sheaf], ...], guide: int, size: tuple[float, float]) -> None:
    for part in packets[guide]:
        assert sizes(part.data) == {size}


@pytest.mark.parametrize(
    ("guide", "identity"),
    [(0, "Rolled-paper rocket, With the jig, revision 3"), (1, "A test kit, By hand, revision 1")],
)
def test_every_page_says_what_it_is(
    packets: tuple[tuple[Sheaf, Sheaf], ...],
    pages: dict[tuple[int, int], list[str]],
    guide: int,
    identity: str,
) -> None:
    for part in PARTS:
        found = pages[guide, part]
        for number, text in enumerate(found, 1):
            foot = f"{identity} {packets[guide][part].marks[number - 1]} page {number} of {len(found)}"
            assert text.splitlines()[-1] == foot


def test_marks_are_six_letters_that_nobody_mistakes(packets: tuple[tuple[Sheaf, Sheaf], ...]) -> None:
    marks = [mark for packet in packets for part in packet for mark in part.marks]
    assert all(re.fullmatch(f"[{LETTERS}]{{6}}", mark) for mark in marks)
    assert not set(LETTERS) & set("0o1liaeu")


def test_marks_of_different_pages_differ(
    packets: tuple[tuple[Sheaf, Sheaf], ...], pages: dict[tuple[int, int], list[str]]
) -> None:
    for (guide, part), found in pages.items():
        own: dict[str, set[str]] = {}
        for mark, text in zip(packets[guide][part].marks, found, strict=True):
            own.setdefault(mark, set()).add("\n".join(text.splitlines()[:-1]))
        assert all(len(contents) == 1 for contents in own.values())


@pytest.mark.parametrize("guide", [0, 1])
def test_a_step_stays_together(pages: dict[tuple[int, int], list[str]], guide: int) -> None:
    """Its heading and all its numbered lines are on one page, in order."""
    found = pages[guide, 0]
    steps = [number for text in found for number in re.findall(HEADING, text, re.MULTILINE)]
    assert len(steps) == len(set(steps)) == (50, 4)[guide]
    for text in found:
        begun = re.findall(HEADING, text, re.MULTILINE)
        labels = re.findall(r"^ ?(\d+)\.\d+ [A-Z]", text, re.MULTILINE)  # a dimension is followed by its unit
        assert list(dict.fromkeys(labels)) == begun


@pytest.mark.parametrize(("guide", "too_high"), [(0, ["6"]), (1, [])])
def test_a_stage_opens_with_its_first_step(
    pages: dict[tuple[int, int], list[str]], guide: int, too_high: list[str]
) -> None:
    """No opening stands alone, but where it and its step are together higher than a page: the three pictures
    that open the rocket's stage 6 are 76 mm high, and its first step takes about 210 of letter's 251 mm."""
    opened = [
        (found[1], re.search(HEADING, text[found.end() :], re.MULTILINE) is not None)
        for text in pages[guide, 0][1:]
        for found in re.finditer(r"^ ?Stage (\d+):", text, re.MULTILINE)
    ]
    assert opened
    assert [stage for stage, together in opened if not together] == too_high


@pytest.mark.parametrize("guide", [0, 1])
@pytest.mark.parametrize("part", PARTS)
def test_no_heading_ends_a_page(
    packets: tuple[tuple[Sheaf, Sheaf], ...],
    pages: dict[tuple[int, int], list[str]],
    guide: int,
    part: int,
) -> None:
    headings = {"Waits", "Where an adult helps", "Tools by sharing", "Time", "Periods", "Before the class"}
    for text in pages[guide, part]:
        assert text.splitlines()[-2].strip() not in headings


@pytest.mark.parametrize(("guide", "part", "least"), [(0, 0, 5), (0, 1, 1), (1, 0, 1)])
def test_a_step_that_cuts_names_the_page_of_its_gauge(
    pages: dict[tuple[int, int], list[str]], guide: int, part: int, least: int
) -> None:
    found = pages[guide, part]
    told = 0
    for text in found:
        steps = re.split(r"^ ?Step (P?\d+):", text, flags=re.MULTILINE)
        for number, own in zip(steps[1::2], steps[2::2], strict=True):
            named = re.search(r"Gauge: ((?:page\s\d+(?:,\s)?)+)", own)
            for page in re.findall(r"\d+", named[1]) if named is not None else []:
                assert re.search(rf"\bStep\s{number},", found[int(page) - 1])
                told += 1
    assert told >= least


def test_a_caution_is_on_its_steps_page_and_before_it(
    rocket: Book, pages: dict[tuple[int, int], list[str]]
) -> None:
    chapter = Chapter(rocket.guide, rocket.runs[0])
    for group in caution_groups(chapter, ""):
        for link in group.steps:
            number = link.text.removeprefix("step ")
            part = 1 if number.startswith("P") else 0
            # a heading, and its first line after it
            own = re.compile(rf"^ ?Step {number}:(?=.*^ ?{number}\.1 )", re.MULTILINE | re.DOTALL)
            page, at = next((t, m.start()) for t in pages[0, part] if (m := own.search(t)))
            before = re.sub(r"\b(DANGER|WARNING|CAUTION|NOTICE)\b", "", page[:at])
            assert group.caution.hazard.unescape() in " ".join(before.split())


def test_a_wait_has_blanks(pages: dict[tuple[int, int], list[str]]) -> None:
    told = "\n".join(pages[0, 0])
    waits = len(re.findall(r"^ ?Start\s+Ready", told, re.MULTILINE))
    assert waits == told.count("The time is from the label of") > 5


@pytest.mark.parametrize("guide", [0, 1])
@pytest.mark.parametrize("part", PARTS)
def test_contents_name_the_right_pages(
    pages: dict[tuple[int, int], list[str]], guide: int, part: int
) -> None:
    found = pages[guide, part]
    listed = re.findall(r"^ ?(.+?) ?\.{5,} ?(\d+)$", "\n".join(found[:3]), re.MULTILINE)
    assert len(listed) >= 3
    for title, number in listed:
        assert title.strip() in found[int(number) - 1]


@pytest.mark.parametrize("guide", [0, 1])
@pytest.mark.parametrize("part", PARTS)
def test_it_is_tagged(packets: tuple[tuple[Sheaf, Sheaf], ...], guide: int, part: int) -> None:
    """What ISO 14289-1 asks of the catalogue, and an alternative for every picture."""
    data = packets[guide][part].data
    reader = pypdf.PdfReader(BytesIO(data))
    root: Any = reader.trailer["/Root"]
    assert root["/MarkInfo"]["/Marked"].value is True
    assert root["/ViewerPreferences"]["/DisplayDocTitle"].value is True
    assert root["/Lang"] == "en"
    assert reader.metadata is not None and reader.metadata.title
    kinds: dict[str, int] = {}
    for element in elements(data):
        kind = str(element["/S"])
        kinds[kind] = kinds.get(kind, 0) + 1
        if kind == "/Figure":
            assert str(element.get("/Alt", "")).strip()
    assert kinds["/Figure"] >= 1 and kinds["/H1"] == 1 and kinds["/H2"] >= 4


def test_no_date_and_no_place_is_in_it(packets: tuple[tuple[Sheaf, Sheaf], ...]) -> None:
    for packet in packets:
        for part in packet:
            info: dict[str, Any] = pypdf.PdfReader(BytesIO(part.data)).metadata or {}
            assert not {"/CreationDate", "/ModDate"} & set(info)
            assert b"file://" not in part.data


def test_a_route_says_nothing_of_the_other(rocket: Book, pages: dict[tuple[int, int], list[str]]) -> None:
    """Names of the other route's option, of the steps and of the things that only it has."""
    this, other = (Chapter(rocket.guide, run) for run in rocket.runs)
    only = set(used(rocket.guide, rocket.runs[1])) - set(used(rocket.guide, rocket.runs[0]))
    words = {rocket.guide.things[id].name for id in only} | {other.name}
    own_titles = {this.telling.title(each.step) for each in this.steps}
    words |= {other.telling.title(each.step) for each in other.steps} - own_titles
    assert len(words) > 3
    told = "\n".join(text.lower() for part in PARTS for text in pages[0, part])
    assert [word for word in sorted(words) if word.lower() in told] == []


def test_nobody_claims_anything_safe(pages: dict[tuple[int, int], list[str]]) -> None:
    for (guide, part), found in pages.items():
        for number, text in enumerate(found, 1):
            for sentence in re.findall(r"[^.]*\bsafe\b[^.]*", text):
                raise AssertionError(f"guide {guide}, part {part}, page {number}: {sentence.strip()}")


def test_the_address_is_printed_and_in_the_code(pages: dict[tuple[int, int], list[str]]) -> None:
    assert "KW-rolled-rocket-3-jig" in pages[0, 0][0]
    assert "https://example.org/kits/small-kit/index.html" in pages[1, 0][0]
    assert "KW-small-kit-1-by-hand" in pages[1, 0][0]
