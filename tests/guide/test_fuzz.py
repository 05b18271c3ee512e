"""Broken and hostile guides: every one is borne, in bounded time, with every place inside its file."""

from __future__ import annotations

import time
from pathlib import Path

import pytest
import yaml

from builder.dryrun.kinds import VERBS
from builder.findings import Finding, Place, Severity
from builder.guide.desk import MOST_FINDINGS
from builder.guide.mending import _fault
from builder.guide.nodes import PlainLoader, plain_breaks
from builder.guide.reader import read_guide
from tests.guide.fuzz import (
    CORPORA,
    SMALL,
    Input,
    Texts,
    corpus,
    everything,
    inputs,
    only_reading,
    run_all,
)
from tests.guide.planting import misplaced, reading, texts_of

HEAD = "title: A\nunits: {first: mm, second: in, finest: 1 mm}\nsteps: []\n"

COUNT = 1000
SLOW = 8.0  # seconds of work for one input, on a slow machine


def test_chance_breaks_nothing() -> None:
    assert list(run_all(inputs(COUNT), only_reading)) == []


@pytest.mark.parametrize(("of", "count"), [("small", 300), ("guides", 15)])
def test_chance_breaks_nothing_of_all_that_follows(of: str, count: int) -> None:
    """Wording, dry run, checks and printing, on what chance makes of small guides and demonstrations."""
    assert list(run_all(inputs(count, of=of), everything)) == []


@pytest.mark.parametrize("of", CORPORA)
def test_what_is_broken_is_read_whole(of: str) -> None:
    """A guide that is refused at its first line would show nothing."""
    for texts, main in corpus(of):
        assert reading(texts, main).routes


def test_the_same_number_is_the_same_input() -> None:
    assert [i.texts for i in inputs(3, 40)] == [i.texts for i in inputs(3, 40)]
    assert len({i.texts[i.main] for i in inputs(40)}) > 30


def test_the_mill_notices() -> None:
    """An exception and a place outside its file are both failures."""

    def raises(_texts: Texts, _main: str) -> list[Finding]:
        raise KeyError("x")

    def outside(_texts: Texts, main: str) -> list[Finding]:
        return [Finding("x", Severity.ERROR, Place(main, 2, 1), "")]

    one = Input(7, {"a.yml": "title: x"}, "a.yml", "by hand")
    assert [(f.number, "KeyError" in f.what) for f in run_all(iter([one]), raises)] == [(7, True)]
    assert [(f.number, "outside" in f.what) for f in run_all(iter([one]), outside)] == [(7, True)]


STEPS = HEAD.replace("steps: []", "steps:")
ACTIONS = HEAD.replace("steps: []", "steps:\n  - id: a\n    title: A\n    actions:")


def many(count: int, line: str) -> str:
    """A line so many times, with N for its number and M for the next."""
    return "".join(line.replace("N", str(i)).replace("M", str(i + 1)) + "\n" for i in range(count))


def parts(count: int, body: str) -> str:
    """So many parts, each with this body."""
    return HEAD + "parts:\n" + many(count, f"  pN: {body}")


HOSTILE = {
    "brackets without end": "a: " + "[" * 200_000,
    "braces without end": "{" * 200_000,
    "dashes without end": "- " * 200_000,
    "questions without end": "? " * 200_000,
    "ever deeper lines": "\n".join(" " * i + f"a{i}:" for i in range(900)),
    "ever deeper lists": "\n".join(" " * i + "-" for i in range(900)),
    "one line of a million signs": "title: " + "a" * 900_000,
    "one line of a million spaces": "title: '" + " " * 900_000 + "'",
    "a million spaces for a number": HEAD + "cut tolerance: '± " + " " * 900_000 + "1 mm'",
    "a million plus signs": HEAD + "dimensions: {a: '" + "+" * 900_000 + "'}",
    "a million brackets in a sum": HEAD + "dimensions: {a: '" + "(" * 900_000 + "'}",
    "sums without end": HEAD + "dimensions: {a: " + "1 + " * 200_000 + "1}",
    "numbers without end": HEAD + "dimensions: {a: " + "9" * 900_000 + " mm}",
    "powers": HEAD + "dimensions:\n  a0: 99999999999 mm\n" + many(60, "  aM: aN / 1 mm * aN"),
    "a thousand million copies": parts(1, "{form: rod, length: 1 mm, diameter: 1 mm, count: 1000000000}"),
    "most copies": parts(300, "{form: rod, length: 1 mm, diameter: 1 mm, count: 9999}"),
    "the copies of another thing with the same id":
        HEAD + "tools:\n  p: {name: p}\nparts:\n  p: {form: cord, length: 1 mm, count: 9999}\n",
    "many parts": parts(4_000, "{form: cord, length: 1 mm}"),
    "many parts, each with a fault": parts(4_000, "{from: rod, lenght: 1, of: pM}"),
    "many materials that there are not": parts(2_500, "{form: slab, of: p0N0, thickness: xN.thicknes}"),
    "each like the next": parts(5_000, "{like: pM}"),
    "all like one another": parts(5_000, "{like: p1}").replace("p1: {like: p1}", "p1: {like: p2}"),
    "like what is no name": parts(2, "{like: {p1.ring}}") + "  p1: {like: [p0]}\n",
    "each of the next": parts(5_000, "{form: ring, of: pM}"),
    "each as long as the next": parts(5_000, "{form: cord, length: pM.length}"),
    "each twice as long as the next": parts(2_000, "{form: cord, length: pM.length + pM.length}"),
    "a ring of a thousand": parts(1_000, "{form: cord, length: pM.length}").replace("p1000.le", "p0.le"),
    "many dimensions without a value": HEAD + "dimensions:\n" + many(9_000, "  dN: eN"),
    "many keys twice": HEAD + "dimensions:\n" + "  d: 1 mm\n" * 15_000,
    "places of places": ACTIONS
    + many(300, f"      - {{insert: p, into: q, to: '{'1 in from 2 and ' * 24}'}}"),
    "many actions": ACTIONS + "      - {wait: x}\n" * 12_000,
    "many steps": STEPS + "  - {id: a}\n" * 9_000,
    "many choices": STEPS.replace("steps:", "choices:\n" + many(900, "  cN: {a: b, b: c}") + "steps:")
    + many(900, "  - {choose: cN, a: [], b: []}"),
    "a choice of many ways": STEPS.replace("steps:", "choices:\n  c:\n" + many(5_000, "    oN: x") + "steps:")
    + "  - choose: c\n" + many(5_000, "    oN: []"),
    "references without end": HEAD.replace("title: A", "title: '" + "{a}" * 6_000 + "'"),
    "braces that never close": HEAD.replace("title: A", "title: '" + "{" * 19_000 + "'"),
    "many slips": many(3_000, "aN: {b: [c"),
    "many quotation marks": many(3_001, "aN: 'b"),
    "many tabs": "a:\n" + "\tb: c\n" * 5_000,
    "many signs of aliases": many(5_000, "aN: &xN *yN"),
    "one anchor and many aliases": "a: &x b\n" + many(5_000, "bN: *x"),
    "many comments": many(5_000, "aN: fin #2"),
    "a code in a tag": "a: !!python/object/apply:os.system ['ls']",
    "many nodes on a line with a sign that is not seen": HEAD
    + "parts: {" + "".join(f"p{i}: b, " for i in range(12_000)) + "c: \u200bd}",
    "names of names": "a0: &a0 x\n" + many(90, f"aM: &aM [{', '.join(['*aN'] * 9)}]"),
    "a name of itself": "a: &a {b: *a, <<: *a}\nsteps: *a",
    "control signs": "".join(f"a{i}: {chr(i)}\n" for i in range(32)),
    "half a sign": "title: \udcff\n",
    "a mark in front": "\ufeff" + HEAD,
    "two marks in front": "\ufeff\ufeff" + HEAD,
    "other ends of lines": HEAD.replace("\n", "\r"),
    "mixed ends of lines": HEAD.replace("\n", "\r\n\r"),
    "no sign": "\0",
    "only a comment": "#" * 900_000,
    "only ends of lines": "\n" * 59_000,
    "only documents": "---\n" * 9_000,
}  # fmt: skip


@pytest.mark.parametrize("name", HOSTILE)
def test_hostile_guides_are_borne(name: str) -> None:
    texts = {"guide.yml": HOSTILE[name]}
    begin = time.process_time()
    findings = only_reading(texts, "guide.yml")
    took = time.process_time() - begin
    assert took < SLOW
    assert len(findings) <= MOST_FINDINGS + 20
    assert misplaced(findings, texts) == []


@pytest.mark.parametrize("holes", ["low: low", "low: {}.low", "low: high, high: low"])
def test_a_hole_that_is_placed_at_itself_has_no_place(holes: str) -> None:
    files = (SMALL / "board.yml", SMALL / "common" / "coil.yml")
    texts = {path.name: path.read_text("utf-8") for path in files}
    before = "holes: {low: 10 mm from root and 20 mm from rear}"
    assert texts["board.yml"].count(before) == 1
    texts["board.yml"] = texts["board.yml"].replace(before, f"holes: {{{holes.format('left_wing')}}}")
    assert "unknown-place" in {finding.check for finding in everything(texts, "board.yml")}


def test_a_shared_step_that_uses_itself() -> None:
    texts, main = texts_of("marble-run")
    texts["roll_it.yml"] = "shared: roll_it\ntakes: {}\nsteps:\n" + "  - {use: roll_it, as: a}\n" * 50
    texts[main] = texts[main].replace("- {use: roll_it,", "- {use: roll_it, as: b}\n      - {use: roll_it,")
    findings = reading(texts, main).findings
    assert {f.check for f in findings} == {"shape", "unknown-name"}
    assert misplaced(findings, texts) == []


def test_many_uses_of_a_long_shared_step() -> None:
    """A thousand uses of a thousand steps would be a million: the count of steps bounds them."""
    steps = many(1000, "  - {id: sN, title: Look, actions: []}")
    uses = many(1000, "  - {use: long, as: uN}")
    texts = {"guide.yml": STEPS + uses, "long.yml": f"shared: long\nsteps:\n{steps}"}
    begin = time.process_time()
    findings = reading(texts, "guide.yml").findings
    assert [f.check for f in findings] == ["too-many"]
    assert time.process_time() - begin < SLOW


@pytest.mark.parametrize(
    ("content", "checks"),
    [
        (b"title: \xff\xfe", ["unreadable"]),
        (b"", ["shape"]),
        (b"\xef\xbb\xbf" + HEAD.encode(), []),
        (HEAD.replace("\n", "\r\n").encode(), []),
        ("title: é".encode("latin-1"), ["unreadable"]),
        (HEAD.encode("utf-16"), ["unreadable"]),
        (b"a" * 5_000_000, ["too-large"]),
    ],
)
def test_files_of_all_sorts(tmp_path: Path, content: bytes, checks: list[str]) -> None:
    (tmp_path / "guide.yml").write_bytes(content)
    assert [f.check for f in read_guide(tmp_path, VERBS).findings] == checks


def test_a_byte_order_mark_is_not_shown(tmp_path: Path) -> None:
    (tmp_path / "guide.yml").write_bytes(b"\xef\xbb\xbf" + HEAD.encode())
    text, = read_guide(tmp_path, VERBS).texts.values()
    assert text == HEAD


def test_paths_of_all_sorts(tmp_path: Path) -> None:
    assert [f.check for f in read_guide(tmp_path / "nothing", VERBS).findings] == ["unreadable"]
    assert [f.check for f in read_guide(tmp_path, VERBS).findings] == ["unreadable"]
    assert [f.check for f in read_guide(str(tmp_path / "a\0b"), VERBS).findings] == ["unreadable"]
    folder = tmp_path / "guide.yml"
    folder.mkdir()
    assert [f.check for f in read_guide(tmp_path, VERBS).findings] == ["unreadable"]


@pytest.mark.parametrize("name", ["a b", "a\nb", "ä", "[x]", "%s", "{x}", "-rf", "a\u202eb", "a;b"])
def test_folders_of_all_names(tmp_path: Path, name: str) -> None:
    folder = tmp_path / name
    folder.mkdir()
    (folder / "guide.yml").write_text(HEAD.replace("first: mm", "first: mn"), encoding="utf-8")
    (finding,) = read_guide(folder, VERBS).findings
    assert finding.check == "word" and finding.place.file.isprintable()


def test_names_that_are_no_text(tmp_path: Path) -> None:
    import os

    raw = os.fsencode(tmp_path) + b"/\xff"
    try:
        os.mkdir(raw)
    except OSError:
        pytest.skip("such names are not on this system")
    with open(raw + b"/guide.yml", "wb") as stream:
        stream.write(HEAD.replace("first: mm", "first: mn").encode())
    (finding,) = read_guide(os.fsdecode(raw), VERBS).findings
    assert finding.place.file.encode("utf-8")


def test_a_page_that_is_named_and_not_there(tmp_path: Path) -> None:
    (tmp_path / "guide.yml").write_text(HEAD + "overview: ../../secret.md\nscience: why.md\n", "utf-8")
    (tmp_path / "why.md").write_text("# Why\n", encoding="utf-8")
    guide = read_guide(tmp_path, VERBS)
    assert [(f.check, f.place.line) for f in guide.findings] == [("unreadable", 4)]
    assert guide.prose == {"science": "# Why\n"}


def test_an_alias_behind_a_slip_is_borne() -> None:
    """Taking the alias out bares a second slip of the text; found by chance once."""
    text = (Path(__file__).parents[1] / "fixtures" / "alias_behind_slip.yml").read_text("utf-8")
    assert only_reading({"guide.yml": text}, "guide.yml")


def test_slips_are_looked_for_without_composing(monkeypatch: pytest.MonkeyPatch) -> None:
    """Each mend that is tried costs a look at the signs; the nodes of a long text are made twice at most."""
    composed: list[str] = []
    compose = PlainLoader.get_single_node

    def counted(loader: PlainLoader) -> object:
        composed.append("")
        return compose(loader)

    monkeypatch.setattr(PlainLoader, "get_single_node", counted)
    slips = "".join(f"  - {{id: s{n}, title: A, actions: [{{note: x}}\n" for n in range(15))
    findings = only_reading({"guide.yml": STEPS + slips}, "guide.yml")
    assert len([f for f in findings if f.check == "yaml"]) >= 10
    assert len(composed) <= 2


def test_looking_for_slips_finds_what_composing_finds() -> None:
    """The same sign at the same place, in whatever chance makes of small guides; aliases apart."""
    slips = 0
    for each in inputs(400, 700, "small"):
        text = plain_breaks(each.texts[each.main]).encode("utf-8", "replace").decode("utf-8")
        told: yaml.YAMLError | None = None
        try:
            PlainLoader(text).get_single_node()
        except yaml.YAMLError as fault:
            told = fault
        if "anchor" not in str(told) and "alias" not in str(told):
            assert str(_fault(text)) == str(told)
            slips += told is not None
    assert slips > 50


def test_a_sentence_of_many_numbers_is_read_once() -> None:
    """Each of them is a finding, and asks what stands before it."""
    note = "1 mm - " * 1_300 + "1 mm"
    text = f"{STEPS}  - {{id: a, title: A, actions: [{{note: '{note}'}}]}}\n"
    begin = time.process_time()
    everything({"guide.yml": text}, "guide.yml")
    assert time.process_time() - begin < 2
