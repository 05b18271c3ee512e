"""The read-back proof: faults planted in a small packet, each told by its own proof; and its parts by hand.

1 in is 25.4 mm (16 CFR 500.19) and 72 pt (ISO 32000-1).
"""

from __future__ import annotations

import json
import re
from collections import Counter
from collections.abc import Callable
from pathlib import Path

import msgspec
import pytest
from click.testing import CliRunner

from builder.cli import main
from builder.drawings.shapes import Arc, Polyline
from builder.packet import build
from builder.packet.pdf import to_pdf
from builder.packet.proofs import PROOFS, Proven, prove
from builder.packet.proofs.base import Known
from builder.packet.proofs.patterns import away, off_lines, on_arcs, vertices
from builder.packet.proofs.words_of import Told, but_added, some, words
from builder.packet.reading import Line, read_pdf
from tests.packet.conftest import Laid

# -- planted faults -------------------------------------------------------------------------------


@pytest.fixture(scope="module")
def small(small_laid: Laid) -> Laid:
    """Both parts of the small guide, without their fronts: steps and patterns are what is planted in."""
    made, known = small_laid
    return made, (bare(known[0]), bare(known[1]))


def bare(known: Known) -> Known:
    """A part whose HTML has only its steps, gauges and patterns."""
    html = known.html
    identity = re.search(r'<p class="identity">.*?</p>', html)
    parts = re.findall(r'<section class="(?:step|gauge|pattern)".*?</section>', html, re.DOTALL)
    sheets = [part + EMPTY if 'class="pattern"' in part else part for part in parts]
    head = html[: html.index("<body>")]
    body = f"<h2>Steps</h2>{identity[0] if identity else ''}{''.join(sheets)}"
    return msgspec.structs.replace(known, html=f'{head}<body class="cover">{body}</body></html>')


EMPTY = '<p class="empty-side">This side is left empty: what is on the other side is cut out.</p>'


def proved(known: Known, laid: str = "", **changes: object) -> Proven:
    """The proof of a part that was laid out from its own HTML or from another."""
    data, marks = to_pdf(laid or known.html)
    return prove(msgspec.structs.replace(known, **{"marks": marks, **changes}), data)


def without(pattern: str, by: str = "") -> Callable[[str], str]:
    """An edit: what a pattern finds first is replaced."""

    def edit(html: str) -> str:
        made, count = re.subn(pattern, by, html, count=1, flags=re.DOTALL)
        assert count == 1, f"the plant has no ground: {pattern}"
        return made

    return edit


def at_99(html: str) -> str:
    """Every pattern 1 % too small."""

    def less(found: re.Match[str]) -> str:
        return f"width: {float(found[1]) * 0.99:.3f}mm; height: {float(found[2]) * 0.99:.3f}mm"

    return re.sub(r"width: ([\d.]+)mm; height: ([\d.]+)mm", less, html)


def caution_after(html: str) -> str:
    """The first caution stands behind the lines of its step."""
    found = re.search(r'<div class="safety.*?</div>\s*</div>', html, re.DOTALL)
    assert found is not None
    rest = html[found.end() :]
    end = rest.index("</section>")
    return html[: found.start()] + rest[:end] + found[0] + rest[end:]


def step_before_caution(html: str) -> str:
    """The first caution stays where it is, and its step goes to the next page."""
    block = r'(?<=</div>\n</div>)(\s*)<div class="bench'
    return re.sub(block, r'\1<div style="break-before: page" class="bench', html, count=1)


def sheet_twice(html: str) -> str:
    """The first pattern sheet again at the end."""
    found = re.search(r'<section class="pattern".*?</section>', html, re.DOTALL)
    assert found is not None
    return html.replace("</body>", re.sub(' id="[^"]*"', "", found[0]) + "</body>")


BLANK = "data:image/svg+xml,%3Csvg xmlns=%22http://www.w3.org/2000/svg%22 width=%2210%22 height=%2210%22/%3E"
BACK, CAUTION = '<p class="empty-side">.*?</p>', r'<div class="safety.*?</div>\s*</div>'
USED = '<p style="break-before: page">List</p>'
BUILDER, TEACHER = 0, 1

# (name, part, edit, check, words of the finding)
Plant = tuple[str, int, Callable[[str], str], str, str]
PLANTS: tuple[Plant, ...] = (
    ("patterns at 99 %", TEACHER, at_99, "patterns", "drawn at 99.00% across and 99.00% down"),
    ("bars at 99 %", TEACHER, at_99, "bars", "bar of 100 mm is 99.00 mm long"),
    ("a back that is used", TEACHER, without(BACK, USED), "duplex", "lost when that is cut out"),
    ("a sheet on a left-hand page", TEACHER,
     without('<section class="pattern"', '<section class="pattern" style="break-before: verso"'),
     "duplex", "is on the back of page"),
    ("a sheet printed twice", TEACHER, sheet_twice, "patterns", "printed 2 times"),
    ("gauges at 99 %", BUILDER, at_99, "patterns", "drawn at 99.00% across and 99.00% down"),
    ("a gauge left out", BUILDER, without('<section class="gauge"( id="[^"]*").*?</section>', r"<p\1></p>"),
     "patterns", "printed 0 times"),
    ("a sheet left out", TEACHER, without('<section class="pattern".*?</section>'),
     "patterns", "printed 0 times"),
    ("a caution dropped", BUILDER, without(CAUTION), "cautions", "does not stand before it"),
    ("a caution after its step", BUILDER, caution_after, "cautions", "does not stand before it"),
    ("a caution on the page before", BUILDER, step_before_caution, "cautions", "step 1"),
    ("half a caution", BUILDER, without('<p class="avoidance">.*?</p>'), "cautions", "is not whole: “Keep"),
    ("a split step", BUILDER,
     without('<ol class="lines"', '<ol style="break-before: page" class="lines"'), "whole", "is split"),
    ("a step left out", BUILDER, without('<section class="step" id="step-line".*?</section>'),
     "whole", "step 2 (Draw a line) is not printed"),
    ("a picture dropped", BUILDER, without('<figure class="picture">.*?</figure>'),
     "figures", "without its picture"),
    ("a blank picture", BUILDER, without('src="data:[^"]*"', f'src="{BLANK}"'),
     "figures", "without its picture"),
    ("a missing word", BUILDER, without('(?<=told">)Thread the', "Thread"), "words", "lacks “the”"),
    ("another word", BUILDER, without('(?<=told">)Thread', "Tie"), "words", "lacks “Thread”"),
    ("a word too many", BUILDER, without('(?<=told">)Thread', "Thread all"), "words", "says “all”"),
    ("a number that parts ways", BUILDER, without(r"(?<=<b>2.in.\()50.8", "50.9"), "words", "lacks “8”"),
    ("another foot", BUILDER, without("revision 1", "revision 2"), "feet", "ought to say"),
    ("a colour", BUILDER, without("<h2>", '<h2 style="color: #c00">'), "file", "coloured"),
    ("no title", BUILDER, without("<title>.*?</title>", "<title>X</title>"), "file", "title is “X”"),
)  # fmt: skip


@pytest.mark.parametrize("plant", PLANTS, ids=lambda plant: plant[0])
def test_a_planted_fault_is_told(
    small: Laid,
    plant: Plant,
) -> None:
    """The fault is in the template, so that what is laid out has it too."""
    _, part, edit, check, said = plant
    known = small[1][part]
    html = edit(known.html)
    assert html != known.html
    found = proved(known, html, html=html)
    told = [finding.message for finding in found.findings if finding.check == f"packet-{check}"]
    assert any(said in message for message in told), [str(f) for f in found.findings]
    assert all(re.match(r"on page \d+: ", finding.message) for finding in found.findings)


@pytest.mark.parametrize("part", [0, 1])
def test_without_a_fault_nothing_is_told(small: Laid, part: int) -> None:
    made, known = small
    assert proved(known[part]).findings == ()
    whole = prove(msgspec.structs.replace(known[part], html="", marks=made[part].marks), made[part].data)
    # the whole part, whose HTML was cut down for the tests, lacks nothing but that
    assert {finding.check for finding in whole.findings} <= {"packet-words"}


def test_what_the_engine_loses_is_told(small: Laid) -> None:
    """Laid out, and not in the file."""
    known = small[1][BUILDER]
    found = proved(known, without("<h2>", '<h2 style="display: none">')(known.html)).findings
    assert [finding.check for finding in found] == ["packet-words"]
    assert "not all in the file: “Steps”" in found[0].message


def test_another_paper_is_told(small: Laid) -> None:
    found = proved(small[1][0], paper="letter")
    assert {finding.check for finding in found.findings} == {"packet-paper"}
    assert "210.0 by 297.0 mm; letter paper is 215.9 by 279.4 mm" in found.findings[0].message


def test_a_torn_file_is_told(small: Laid) -> None:
    made, known = small
    (torn,) = prove(known[0], made[0].data[:400]).findings
    assert "cannot be opened again" in torn.message
    with pytest.raises(ValueError, match="cannot be opened again"):
        read_pdf(b"no file")


def test_a_step_is_told_of_once(small: Laid) -> None:
    """A dropped caution takes words away as well: that is one fault."""
    html = without(r'<div class="safety.*?</div>\s*</div>')(small[1][0].html)
    found = proved(small[1][0], html, html=html).findings
    assert [finding.check for finding in found] == ["packet-cautions"]
    assert found[0].safety


# -- the rocket: what the table says --------------------------------------------------------------


def test_the_rocket_holds(rocket_laid: Laid) -> None:
    made, known = rocket_laid
    found = [prove(each, sheaf.data) for each, sheaf in zip(known, made, strict=True)]
    assert [str(finding) for part in found for finding in part.findings] == []
    rows = {(row.part, row.proof, row.what): row for part in found for row in part.measures}
    assert all(row.holds for row in rows.values())
    steps = rows["builder", "Steps on one page", "steps whole on one page"]
    assert (steps.wanted, steps.found) == ("50", "50")
    # fin and mask together, the canopy in 2 x 2 tiles, the gauges, and the long gauge
    patterns = ("builder", "Patterns and gauges at true size")
    sheets = [row for key, row in rows.items() if key[:2] == patterns]
    assert len(sheets) == 7
    for row in sheets:
        assert float(re.findall(r"off by ([\d.]+) mm", row.found)[0]) <= 0.05


# -- by hand --------------------------------------------------------------------------------------


def test_words_are_letters_and_digits() -> None:
    assert words("Cut it: 2 1/4\u00a0in (57.2\u00a0mm), \u201cﬁn\u201d ± 1°.") == [
        "Cut", "it", "2", "1", "4", "in", "57", "2", "mm", "fin", "±", "1", "°",
    ]  # fmt: skip


def test_what_only_a_screen_has_is_not_compared() -> None:
    told = Told(
        "<head><title>No</title></head><nav><a href='#x'>One</a></nav>"
        "<section class='step' id='step-x'><svg><title>No</title></svg>Two<br>three"
        "<p class='done'><label>No</label></p></section><table><thead><tr><th>Head</th></tr></thead></table>"
        "<a class='to-page' href='#x'>Four</a><p><b>Five</p> six"
    )
    assert told.all == Counter(["One", "Two", "three", "Four", "Five", "six"])
    assert told.steps == {"step-x": Counter(["Two", "three"])}
    assert (told.heads, told.turned) == (Counter(["Head"]), 2)


def test_what_only_paper_has_is_told_apart() -> None:
    told = Told(
        "<section class='step' id='step-x'>Two <p class='only-paper'>Gauge "
        "<a class='page-of' href='#g'>page</a></p>three</section>"
    )
    assert told.steps == {"step-x": Counter(["Two", "three"])}
    assert told.all == Counter(["Two", "Gauge", "page", "three"])
    added = told.added["step-x"]
    assert not but_added(Counter(["Gauge", "page", "7"]), added)
    assert but_added(Counter(["Gauge", "page", "7", "8"]), added) == Counter(["7", "8"])  # one link
    assert but_added(Counter(["Gauge", "page", "7", "glue"]), added) == Counter(["glue"])


def test_some_words_of_many() -> None:
    assert some(Counter(["a", "b", "b"])) == "“a”, “b” (2 times)"
    assert some(Counter("abcdefghij"), most=2) == "“a”, “b” and 8 more"


def test_points_are_measured_to_what_was_read() -> None:
    square = Polyline(((0, 0), (10, 0), (10, 10)), "cut", closed=True)
    read = [Line(((0, 0), (10, 0), (10, 10.03), (0, 0)), ((0, 0), (10, 0), (10, 10.03), (0, 0)))]
    assert away(vertices([square]), read) == pytest.approx([0, 0, 0.03])
    assert away([(5, 5)], read) == [float("inf")]  # no corner within reach
    # a half circle in one cubic curve with handles of 4/3 of its radius bulges at 45 degrees: for r = 10 the
    # curve's point at t = 1/4 is ((1-t)^3 + 3t(1-t)^2 - 3t^2(1-t) - t^3) 10 = 6.875, 3t(1-t) 40/3 = 7.5;
    # its distance from the centre is sqrt(47.27 + 56.25) = 10.174
    flat = tuple(_half_circle(n / 64) for n in range(65))
    arc = Arc((0, 0), 10, 10, "cut", sweep=180)
    assert max(off_lines(on_arcs([arc]), [Line((), flat)])) == pytest.approx(0.174, abs=0.02)


def _half_circle(t: float) -> tuple[float, float]:
    u = 1 - t
    return (10 * (u**3 + 3 * t * u * u - 3 * t * t * u - t**3), 40 * t * u)


# -- the build ------------------------------------------------------------------------------------


def test_each_proof_has_its_own_words() -> None:
    assert len({proof.id for proof in PROOFS}) == len({proof.title for proof in PROOFS}) == len(PROOFS)
    assert all(proof.why.endswith(".") and proof.mend.endswith(".") for proof in PROOFS)


def test_the_table_lies_beside_the_packet_and_a_fault_stops_it(
    small_guide: Path, small_laid: Laid, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    made, known = small_laid
    monkeypatch.setattr(build, "laid_out", lambda *_, **__: (made, known))
    command = ["packet", str(small_guide), "-n", "3", "--paper", "a4", "--route", "by_hand"]
    command += ["-o", str(tmp_path)]
    run = CliRunner().invoke(main, command)
    assert run.exit_code == 0, run.output
    (written,) = tmp_path.glob("*-proof.json")
    table = json.loads(written.read_bytes())
    assert {row["part"] for row in table["measures"]} == {"builder", "teacher"}
    assert all(row["holds"] for row in table["measures"])
    # the same packet, where the drawing says that the patterns are 1 % larger
    drawn = known[1].sheets[0]
    shapes = [shape._replace(points=tuple((x * 1.01, y) for x, y in shape.points))
              if isinstance(shape, Polyline) else shape for shape in drawn.shapes]  # fmt: skip
    larger = msgspec.structs.replace(known[1], sheets=(drawn._replace(shapes=tuple(shapes)),))
    monkeypatch.setattr(build, "laid_out", lambda *_, **__: (made, (known[0], larger)))
    for each in tmp_path.iterdir():
        each.unlink()
    run = CliRunner().invoke(main, command)
    assert run.exit_code == 1
    assert "Nothing of it was written" in run.output and "packet-patterns" in run.output
    assert list(tmp_path.iterdir()) == []
