"""Whole sessions of an editor with the language server, over its pipes, by the client of another library."""

from __future__ import annotations

import os
from collections.abc import Sequence
from functools import cache
from pathlib import Path
from typing import Any

import pytest
from lsprotocol import types

from tests.editor.session import Session, with_session

ROCKET = "guides/rolled-rocket/guide.yml"
CART = "guides/sail-cart/guide.yml"
ROLL = "guides/common/roll_tube.yml"

ZONES = "outside from rear: [tail: 1/4 in, fin_root"
GLUE = "glue: motor_tube, outside: rear_seat"


def text_of(library: Path, name: str = ROCKET) -> str:
    return (library / name).read_text("utf-8")


def line_of(text: str, part: str) -> int:
    """The number (from 0) of the first line that holds a part."""
    return next(number for number, line in enumerate(text.splitlines()) if part in line)


def spot(text: str, line: str, word: str, into: int = 1) -> tuple[int, int]:
    """Line and column (from 0) of a word in the line that holds a part; `into` the word by so many signs."""
    number = line_of(text, line)
    return number, text.splitlines()[number].index(word) + into


def codes(found: list[types.Diagnostic]) -> list[Any]:
    return [each.code for each in found]


# -- the session --------------------------------------------------------------------------------------------


def test_the_server_says_what_it_can_do(tmp_path: Path) -> None:
    async def work(session: Session) -> None:
        made = await session.begin()
        able = made.capabilities
        assert made.server_info is not None and made.server_info.name == "kitwright"
        assert able.hover_provider and able.definition_provider and able.completion_provider
        assert able.position_encoding == types.PositionEncodingKind.Utf16
        assert await session.end() == 0

    import asyncio

    asyncio.run(work(Session(tmp_path)))


# -- findings -----------------------------------------------------------------------------------------------


def test_findings_come_while_typing_and_go_when_mended(library: Path) -> None:
    text = text_of(library)
    wrong = text.replace("lower: 1 1/2 in", "lower: 1 9/16 in")
    number = line_of(text, ZONES)

    async def work(session: Session) -> None:
        session.open(ROCKET)
        assert await session.diagnostics(ROCKET, 1) == []
        session.change(ROCKET, 2, wrong)  # typed, and not saved
        (found,) = await session.diagnostics(ROCKET, 2)
        assert (found.code, found.source, found.severity) == (
            "zone-sum",
            "kitwright",
            types.DiagnosticSeverity.Error,
        )
        assert found.range.start.line == number
        # 1/4 + 2 1/4 + 1 9/16 + 1 1/2 + 7 = 12 9/16
        assert found.message.startswith('the zones outside of "body" sum to 12 9/16 in')
        assert len(found.message.splitlines()) == 3  # what, why, mend
        session.change(ROCKET, 3, text)
        assert await session.diagnostics(ROCKET, 3) == []

    with_session(library, work)
    assert text_of(library) == text


def test_a_finding_points_at_its_other_places_and_at_what_may_follow(library: Path) -> None:
    """A ring that is too large leads; where it was meant to go is another place of the finding."""
    text = text_of(library).replace(
        "outside: body.inside - play, inside", "outside: body.inside + play, inside"
    )

    async def work(session: Session) -> None:
        session.open(ROCKET, text)
        (found,) = await session.diagnostics(ROCKET, 1)
        assert found.code == "fit" and found.related_information
        for other in found.related_information:
            assert other.location.uri == session.uri(ROCKET) and other.message

    with_session(library, work)


def test_a_change_of_a_stretch_is_put_in_its_place(library: Path) -> None:
    text = text_of(library)
    line, column = spot(text, ZONES, "lower: 1 1/2 in", len("lower: "))
    span = types.Range(types.Position(line, column), types.Position(line, column + len("1 1/2 in")))

    async def work(session: Session) -> None:
        session.open(ROCKET)
        await session.diagnostics(ROCKET, 1)
        session.client.text_document_did_change(types.DidChangeTextDocumentParams(
            types.VersionedTextDocumentIdentifier(2, session.uri(ROCKET)),
            [types.TextDocumentContentChangePartial(span, "1 9/16 in")]))  # fmt: skip
        assert codes(await session.diagnostics(ROCKET, 2)) == ["zone-sum"]

    with_session(library, work)


def test_many_changes_are_told_once(library: Path) -> None:
    """What is typed while a guide is checked is checked together."""
    text = text_of(library)

    async def work(session: Session) -> int:
        session.open(ROCKET)
        await session.diagnostics(ROCKET, 1)
        before = len(session.told[session.uri(ROCKET)])
        for number in range(2, 42):
            session.change(ROCKET, number, text.replace("lower: 1 1/2 in", f"lower: {number} in"))
        found = await session.diagnostics(ROCKET, 41)
        assert codes(found) == ["zone-sum"]
        return len(session.told[session.uri(ROCKET)]) - before

    assert with_session(library, work) < 20


def test_a_text_that_is_no_yaml_is_told_at_its_line(library: Path) -> None:
    text = text_of(library)
    number = line_of(text, GLUE)
    broken = text.replace("with: pva, for: rear_ring}", "with: pva, for: rear_ring", 1)

    async def work(session: Session) -> None:
        session.open(ROCKET, broken)
        found = await session.diagnostics(ROCKET, 1)
        assert codes(found) == ["yaml"] and found[0].range.start.line == number

    with_session(library, work)


def test_a_shared_file_is_checked_with_the_guides_that_use_it(library: Path) -> None:
    shared = text_of(library, ROLL)

    async def work(session: Session) -> None:
        session.open(ROLL, shared.replace("until: set", "until: sett"))
        found = await session.diagnostics(ROLL, 1)
        assert codes(found) == ["word"] and found[0].range.start.line == line_of(shared, "until: set")
        session.open(ROCKET)  # the guide is read with the text on the screen
        assert await session.diagnostics(ROCKET) == []
        session.change(ROLL, 2, shared)
        assert await session.diagnostics(ROLL, 2) == []

    with_session(library, work)


def test_a_fault_on_the_disk_is_seen_when_the_file_is_saved(tmp_path: Path, library: Path) -> None:
    import shutil

    shutil.copytree(library / "guides", tmp_path / "guides")
    text = text_of(library)

    async def work(session: Session) -> None:
        session.open(ROCKET)
        session.open(ROLL)
        assert await session.diagnostics(ROCKET, 1) == []
        wrong = text_of(library, ROLL).replace("until: set", "until: sett")
        session.change(ROLL, 2, wrong)
        assert codes(await session.diagnostics(ROLL, 2)) == ["word"]
        # the document is closed unsaved: what the disk holds counts again
        session.client.text_document_did_close(types.DidCloseTextDocumentParams(
            types.TextDocumentIdentifier(session.uri(ROLL))))  # fmt: skip
        while await session.diagnostics(ROLL):
            session.told[session.uri(ROLL)].clear()
        (tmp_path / ROLL).write_text(wrong, "utf-8")
        session.told.clear()
        session.client.text_document_did_save(types.DidSaveTextDocumentParams(
            types.TextDocumentIdentifier(session.uri(ROCKET))))  # fmt: skip
        assert codes(await session.diagnostics(ROLL)) == ["word"]

    with_session(tmp_path, work)
    assert (tmp_path / ROCKET).read_text("utf-8") == text


def test_a_closed_document_is_told_clean(library: Path) -> None:
    async def work(session: Session) -> None:
        session.open(ROCKET, text_of(library).replace("lower: 1 1/2 in", "lower: 9 in"))
        assert await session.diagnostics(ROCKET, 1)
        session.told.clear()
        session.client.text_document_did_close(types.DidCloseTextDocumentParams(
            types.TextDocumentIdentifier(session.uri(ROCKET))))  # fmt: skip
        assert await session.diagnostics(ROCKET) == []

    with_session(library, work)


def test_what_was_accepted_is_not_shown(library: Path) -> None:
    text = text_of(library).replace("lower: 1 1/2 in", "lower: 1 9/16 in")
    head = "accepted:\n  - {check: zone-sum, at: body, why: The tail is cut to fit.}\nchoices:"

    async def work(session: Session) -> None:
        session.open(ROCKET, text.replace("choices:", head, 1))
        (found,) = await session.diagnostics(ROCKET, 1)
        told = [other.message for other in found.related_information or ()]
        assert any("does not say which facts" in each for each in told)
        from builder.checks.judge import check
        from builder.dryrun.kinds import VERBS
        from builder.guide.reader import read

        texts = {
            p.relative_to(library).as_posix(): p.read_text("utf-8")
            for p in library.rglob("*.*")
            if p.parent.parent == library / "guides" and p.parent.name in ("common", "rolled-rocket")
        }
        guide = read({**texts, ROCKET: text.replace("choices:", head, 1)}, ROCKET, VERBS, "rolled-rocket")
        mend = check(guide)[0].follows[0].mend
        sign = mend.partition("`facts: ")[2][:8]
        signed = head.replace("to fit.}", f"to fit., facts: {sign}}}")
        session.change(ROCKET, 2, text.replace("choices:", signed, 1))
        assert await session.diagnostics(ROCKET, 2) == []

    with_session(library, work)


@pytest.mark.parametrize("encodings", [None, [types.PositionEncodingKind.Utf32]])
def test_columns_are_counted_as_the_client_counts(tmp_path: Path, encodings: Any) -> None:
    """Before the fault stands a sign that UTF-16 writes in two units."""
    line = 'title: "\U0001f680"\nunits: {first: mm, second: in, finest: 1 mm}\nsteps: []\n'
    line += 'parts: {rod: {name: "\U0001f680", form: bar}}\n'
    want = line.splitlines()[3].index("bar") + (0 if encodings else 1)

    async def work(session: Session) -> int:
        session.open("guide.yml", line)
        found = await session.diagnostics("guide.yml", 1)
        return next(each.range.start.character for each in found if each.code == "word")

    assert with_session(tmp_path, work, encodings=encodings) == want


# -- hover --------------------------------------------------------------------------------------------------

HOVERS = [
    # (a part of the line, the word under the cursor, what is told)
    (ZONES, "fin.root", ["**fin.root**: 2 1/4 in (57.2 mm)", "read in", "`jig_fins`"]),
    (ZONES, "1/4 in", ["**body.tail**: 1/4 in (6.4 mm)", "worked out from it: `body.fin_root.start`"]),
    ("length: 12 1/2 in ±", "12 1/2 in", ["**body.length**: 12 1/2 in (318 mm)"]),
    ("outside: body.inside - play", "play", ["**play**: 0.020 in (0.51 mm)", "because slides by hand"]),
    (GLUE, "outside", ["Where outside.", "Example: `rear_seat`"]),
    (GLUE, "glue", ["Adhesive is laid for one part", "What the glue is laid on."]),
    (GLUE, "pva", ["**pva**: white PVA glue (material, adhesive)"]),
    (GLUE, "rear_seat", ["**motor_tube.rear_seat**: 1/8 in (3.2 mm)", "comes from `rear_ring.length`"]),
    ("units: {first: in", "finest", ["The smallest step of the ruler.", "Example: `1/16 in`"]),
    ("form: turned", "form", ["Its solid."]),
    ("form: turned", "turned", ["Its solid."]),
]


@cache
def hovers(library: Path) -> list[str]:
    text = text_of(library)

    async def work(session: Session) -> list[str]:
        session.open(ROCKET)
        return [await session.hover(ROCKET, *spot(text, line, word)) for line, word, _ in HOVERS]

    return with_session(library, work)


@pytest.mark.parametrize(("line", "word", "told"), HOVERS)
def test_hover_says_where_a_number_comes_from_and_what_a_field_is(line: str, word: str, told: list[str],
                                                                  library: Path) -> None:  # fmt: skip
    words = hovers(library)[HOVERS.index((line, word, told))]
    assert [part for part in told if part not in words] == [], words


def test_hover_over_nothing_says_nothing(library: Path) -> None:
    async def work(session: Session) -> str:
        session.open(ROCKET)
        return await session.hover(ROCKET, 0, 0) + await session.hover(ROCKET, 99_999, 3)

    assert with_session(library, work) == ""


# -- definition ---------------------------------------------------------------------------------------------


DEFINITIONS = [
    # (a part of the line, a word in it, how far into it, the file and the line that it leads to)
    (GLUE, "motor_tube", 1, ROCKET, "  motor_tube:"),
    (GLUE, "pva", 1, ROCKET, "  pva:"),
    (GLUE, "rear_seat", 1, ROCKET, "rear_seat: rear_ring.length"),
    (ZONES, "fin.root", 1, ROCKET, "  fin:"),
    (ZONES, "fin.root", 5, ROCKET, "outline: {root:"),
    ("outside: body.inside - play", "play", 1, ROCKET, "  play:"),
    ("to: rear_line", "rear_line", 1, ROCKET, "mark: rear_line"),
    ("use: roll_tube, as: body", "roll_tube", 1, ROLL, "shared: roll_tube"),
    ("choose: fin_alignment", "fin_alignment", 1, ROCKET, "  fin_alignment:"),
    ("cautions: [launch_day]", "launch_day", 1, "guides/common/cautions.yml", "  launch_day:"),
    ("round the inside of the {motor_tube}", "{motor_tube}", 2, ROCKET, "  motor_tube:"),
]


@cache
def definitions(library: Path) -> list[types.Location | None]:
    text = text_of(library)

    async def work(session: Session) -> list[types.Location | None]:
        session.open(ROCKET)
        return [await session.definition(ROCKET, *spot(text, *row[:3])) for row in DEFINITIONS]

    return with_session(library, work)


@pytest.mark.parametrize("row", DEFINITIONS, ids=lambda row: f"{row[1]}-{row[2]}")
def test_definition_goes_to_where_an_id_is_written(
    row: tuple[str, str, int, str, str], library: Path
) -> None:
    found = definitions(library)[DEFINITIONS.index(row)]
    file, target = row[3:]
    assert found is not None and found.uri == (library / file).as_uri()
    assert target in text_of(library, file).splitlines()[found.range.start.line]


def test_a_parameter_is_defined_in_its_own_file(library: Path) -> None:
    shared = text_of(library, ROLL)

    async def work(session: Session) -> types.Location | None:
        session.open(ROLL)
        return await session.definition(ROLL, *spot(shared, "around: dowel", "dowel"))

    found = with_session(library, work)
    assert found is not None and found.uri == (library / ROLL).as_uri()
    assert found.range.start.line == line_of(shared, "takes:")


def test_a_word_of_the_format_is_defined_nowhere(library: Path) -> None:
    text = text_of(library)

    async def work(session: Session) -> types.Location | None:
        session.open(ROCKET)
        return await session.definition(ROCKET, *spot(text, GLUE, "outside"))

    assert with_session(library, work) is None


# -- completion ---------------------------------------------------------------------------------------------


TYPED = [
    # what is typed instead of a line of the step that glues the rear ring; the cursor is at its end
    ("      - ", {"glue", "insert", "wait for", "repeat", "note"}, {"with", "form"}),
    ("      - ins", {"insert"}, {"glue"}),
    ("      - {gl", {"glue"}, {"insert"}),
    ("      - {glue: motor_tube, ", {"outside", "with", "for", "fillet to", "say"}, {"glue", "into"}),
    ("      - {glue: motor_tube, out", {"outside"}, {"inside"}),
    ("      - {glue: ", {"motor_tube", "body", "fin_jig"}, {"pva", "paper"}),
    ("      - {glue: motor_tube, with: ", {"pva", "brush"}, {"motor_tube"}),
    ("      - {glue: motor_tube, outside: ",
     {"rear_seat", "start of rear_seat", "rear_line", "flush with front"}, {"fin_root"}),
    ("      - {glue: motor_tube, outside: start of re",
     {"start of rear_seat"}, {"start of front_seat", "rear_seat"}),
    ("      - {slide: rear_ring, over: motor_tube, fit: ",
     {"tight", "running", "sliding", "loose"}, {"motor_tube"}),
    ("      - {wait for: motor_mount, until: ", {"set", "dry", "cured"}, {"motor_mount"}),
    ("      - {insert: dummy, leaving out: motor_tube.l", {"motor_tube.length"}, {"motor_tube.wall"}),
    ("      - {glue: motor_tube, with: pva, say: \"Run {wi", {"Run {with"}, {"with"}),
]  # fmt: skip


def typing(library: Path, put: Sequence[tuple[str, str, bool]]) -> list[list[types.CompletionItem]]:
    """What is offered at the end of each line that is typed: instead of the first line that holds a part,
    or after it."""
    lines = text_of(library).splitlines(keepends=True)

    async def work(session: Session) -> list[list[types.CompletionItem]]:
        session.open(ROCKET)
        found = []
        for version, (part, typed, after) in enumerate(put, 2):
            number = next(n for n, line in enumerate(lines) if part in line) + after
            session.change(
                ROCKET, version, "".join([*lines[:number], f"{typed}\n", *lines[number + (not after) :]])
            )
            found.append(await session.completion(ROCKET, number, len(typed)))
        return found

    return with_session(library, work)


@cache
def in_an_action(library: Path) -> list[list[types.CompletionItem]]:
    return typing(library, [(GLUE, row[0], False) for row in TYPED])


@pytest.mark.parametrize("row", TYPED, ids=lambda row: row[0].strip())
def test_completion_in_an_action(row: tuple[str, set[str], set[str]], library: Path) -> None:
    typed, wanted, unwanted = row
    items = in_an_action(library)[TYPED.index(row)]
    labels = {item.label for item in items}
    assert wanted <= labels, labels
    assert not unwanted & labels
    number = line_of(text_of(library), GLUE)
    for item in items:  # taking one up gives a line that begins as it was typed
        assert isinstance(item.text_edit, types.TextEdit)
        start = item.text_edit.range.start.character
        assert typed[start:] == item.text_edit.new_text[: len(typed) - start]
        assert item.text_edit.range.end == types.Position(number, len(typed))


BELOW = [
    (
        "units: {first",
        "",
        {"cautions", "accepted"},
        {"title", "units", "parts"},
    ),
    ("parts:", "  wing: {fo", {"form", "folds to"}, {"count"}),
    ("parts:", "  wing: {form: ", {"tube", "slab", "cord"}, {"gear", "paper"}),
    ("parts:", "  wing: {form: slab, of: ", {"paper", "board"}, {"scissors", "body"}),
    ("parts:", "  wing: {form: rod, length: body.", {"body.length", "body.fin_root"}, {"fin.root"}),
    ("tools:", "  gauge: {", {"name", "reach", "one per"}, {"adhesive", "zones"}),
    ("materials:", "  wire: {form: cord, sold: {", {"pack", "price"}, {"form"}),
    ("steps:", "  - {use: ", {"roll_tube", "leave_to_cure", "print_patterns"}, {"body"}),
    ("steps:", "  - {choose: ", {"fin_alignment"}, {"jig"}),
    ("steps:", "  - {id: more, cautions: [", {"launch_day"}, {"blade"}),
    ("steps:", "  - ", {"id", "title", "stage", "use", "choose"}, {"glue"}),
]


@cache
def elsewhere(library: Path) -> list[list[types.CompletionItem]]:
    return typing(library, [(row[0], row[1], True) for row in BELOW])


@pytest.mark.parametrize("row", BELOW, ids=lambda row: row[1].strip() or "head")
def test_completion_elsewhere(row: tuple[str, str, set[str], set[str]], library: Path) -> None:
    labels = {item.label for item in elsewhere(library)[BELOW.index(row)]}
    assert row[2] <= labels, labels
    assert not row[3] & labels


def test_an_item_says_what_it_is(library: Path) -> None:
    ((item,),) = typing(library, [(GLUE, "      - {glue: motor_tube, fil", False)])
    assert isinstance(item.documentation, types.MarkupContent) and isinstance(item.text_edit, types.TextEdit)
    assert item.label == "fillet to" and item.text_edit.new_text == "fillet to: "
    assert "The part that a bead in the corner joins it to." in item.documentation.value
    assert "Example: `body`" in item.documentation.value


def test_nothing_is_offered_in_a_comment_or_in_another_kind_of_file(library: Path) -> None:
    text = text_of(library)

    async def work(session: Session) -> list[Any]:
        session.open(ROCKET, f"# he\n{text}")
        session.open("notes.txt", "he")
        return [*await session.completion(ROCKET, 0, 4), *await session.completion("notes.txt", 0, 2)]

    assert with_session(library, work) == []


def test_a_guide_that_is_only_on_the_screen(tmp_path: Path) -> None:
    """A file that was never saved, in a folder that is not there yet."""

    async def work(session: Session) -> list[Any]:
        session.open("new/guide.yml", "title: A cart\nunits: {first: mm, second: in, finest: 1 mm}\n")
        return codes(await session.diagnostics("new/guide.yml", 1))

    assert with_session(tmp_path, work) == ["missing-field"]
    assert os.listdir(tmp_path) == []
