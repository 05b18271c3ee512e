"""Broken and hostile guides: every one is borne, in bounded time, with every place inside its file."""

from __future__ import annotations

import time
from pathlib import Path

import pytest

from builder.dryrun.kinds import VERBS
from builder.findings import Finding, Place, Severity
from builder.guide.desk import MOST_FINDINGS
from builder.guide.reader import read_guide
from tests.guide.fuzz import Input, Texts, inputs, only_reading, run_all
from tests.guide.planting import misplaced, reading, texts_of

HEAD = "title: A\nunits: {first: mm, second: in, finest: 1 mm}\nsteps: []\n"

COUNT = 1500
SLOW = 8.0  # seconds of work for one input, on a slow machine


def test_chance_breaks_nothing() -> None:
    assert list(run_all(inputs(COUNT), only_reading)) == []


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


def parts(count: int, body: str) -> str:
    """So many parts."""
    return HEAD + "parts:\n" + "".join(f"  p{i}: {body.replace('N', str(i + 1))}\n" for i in range(count))


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
    "powers": HEAD + "dimensions:\n  a0: 99999999999 mm\n" + "".join(f"  a{i}: a{i - 1} / 1 mm * a{i - 1}\n" for i in range(1, 60)),
    "a thousand million copies": parts(1, "{form: rod, length: 1 mm, diameter: 1 mm, count: 1000000000}"),
    "most copies": parts(300, "{form: rod, length: 1 mm, diameter: 1 mm, count: 9999}"),
    "many parts": parts(4_000, "{form: cord, length: 1 mm}"),
    "many parts, each with a fault": parts(4_000, "{from: rod, lenght: 1, of: pN}"),
    "many materials that there are not": parts(2_500, "{form: slab, of: p0N0, thickness: xN.thicknes}"),
    "each like the next": parts(5_000, "{like: pN}"),
    "all like one another": parts(5_000, "{like: p1}").replace("p1: {like: p1}", "p1: {like: p2}"),
    "each of the next": parts(5_000, "{form: ring, of: pN}"),
    "each as long as the next": parts(5_000, "{form: cord, length: pN.length}"),
    "each twice as long as the next": parts(2_000, "{form: cord, length: pN.length + pN.length}"),
    "a ring of a thousand": parts(1_000, "{form: cord, length: pN.length}").replace("p1000.length", "p0.length"),
    "many dimensions without a value": HEAD + "dimensions:\n" + "".join(f"  d{i}: e{i}\n" for i in range(9_000)),
    "many keys twice": HEAD + "dimensions:\n" + "  d: 1 mm\n" * 15_000,
    "places of places": HEAD.replace("steps: []", "steps:\n  - id: a\n    title: A\n    actions:\n") + "".join(
        f"      - {{insert: p, into: q, to: '{'1 in from 2 and ' * 24}'}}\n" for _ in range(300)),
    "many actions": HEAD.replace("steps: []", "steps:\n  - id: a\n    title: A\n    actions:\n") + "      - {wait: x}\n" * 12_000,
    "many steps": HEAD.replace("steps: []", "steps:") + "  - {id: a}\n" * 9_000,
    "many choices": HEAD.replace("steps: []", "choices:\n" + "".join(f"  c{i}: {{a: b, b: c}}\n" for i in range(900)) + "steps:\n")
    + "".join(f"  - {{choose: c{i}, a: [], b: []}}\n" for i in range(900)),
    "a choice of many ways": HEAD.replace("steps: []", "choices: {c: {" + ", ".join(f"o{i}: x" for i in range(5_000)) + "}}\nsteps:")
    + "  - {choose: c, " + ", ".join(f"o{i}: []" for i in range(5_000)) + "}\n",
    "references without end": HEAD.replace("title: A", "title: '" + "{a}" * 6_000 + "'"),
    "braces that never close": HEAD.replace("title: A", "title: '" + "{" * 19_000 + "'"),
    "many slips": "".join(f"a{i}: {{b: [c\n" for i in range(3_000)),
    "many quotation marks": "".join(f"a{i}: 'b\n" for i in range(3_001)),
    "many tabs": "a:\n" + "\tb: c\n" * 5_000,
    "many signs of aliases": "".join(f"a{i}: &x{i} *y{i}\n" for i in range(5_000)),
    "one anchor and many aliases": "a: &x b\n" + "".join(f"b{i}: *x\n" for i in range(5_000)),
    "many comments": "".join(f"a{i}: fin #2\n" for i in range(5_000)),
    "a code in a tag": "a: !!python/object/apply:os.system ['ls']",
    "names of names": "\n".join(["a0: &a0 x"] + [f"a{i}: &a{i} [{', '.join([f'*a{i - 1}'] * 9)}]" for i in range(1, 90)]),
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


def test_a_shared_step_that_uses_itself() -> None:
    texts, main = texts_of("marble-run")
    texts["roll_it.yml"] = "shared: roll_it\ntakes: {}\nsteps:\n" + "  - {use: roll_it, as: a}\n" * 50
    texts[main] = texts[main].replace("- {use: roll_it,", "- {use: roll_it, as: b}\n      - {use: roll_it,")
    findings = reading(texts, main).findings
    assert {f.check for f in findings} == {"shape", "unknown-name"}
    assert misplaced(findings, texts) == []


def test_many_uses_of_a_long_shared_step() -> None:
    """A thousand uses of a thousand steps would be a million: the count of steps bounds them."""
    steps = "".join(f"  - {{id: s{i}, title: Look, actions: []}}\n" for i in range(1000))
    uses = "".join(f"  - {{use: long, as: u{i}}}\n" for i in range(1000))
    texts = {"guide.yml": HEAD.replace("steps: []", "steps:\n" + uses), "long.yml": f"shared: long\nsteps:\n{steps}"}
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
    finding, = read_guide(folder, VERBS).findings
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
    finding, = read_guide(os.fsdecode(raw), VERBS).findings
    assert finding.place.file.encode("utf-8")


def test_a_page_that_is_named_and_not_there(tmp_path: Path) -> None:
    (tmp_path / "guide.yml").write_text(HEAD + "overview: ../../secret.md\nscience: why.md\n", encoding="utf-8")
    (tmp_path / "why.md").write_text("# Why\n", encoding="utf-8")
    guide = read_guide(tmp_path, VERBS)
    assert [(f.check, f.place.line) for f in guide.findings] == [("unreadable", 4)]
    assert guide.prose == {"science": "# Why\n"}
