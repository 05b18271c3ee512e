"""The manual: its example is a guide without a finding, and it leaves out no field and no verb."""

from __future__ import annotations

import re

import pytest

from builder.checks.judge import check
from builder.dryrun.kinds import KINDS, VERBS
from builder.guide import declared
from builder.guide.fields import Field
from builder.guide.reader import read
from builder.pages.manual import SPOKEN, TEXT, manual
from builder.trade.adhesives import ADHESIVES
from builder.trade.hazards import HAZARDS
from builder.trade.materials import MATERIALS
from builder.trade.paints import PAINTS
from builder.trade.tools import TOOLS

TABLES = [name for name, value in vars(declared).items()
          if isinstance(value, tuple) and value and isinstance(value[0], Field)]  # fmt: skip


def example() -> str:
    """The whole guide that the manual begins with."""
    found = re.search(r"```yaml\n(title:.*?)```", TEXT.read_text("utf-8"), re.DOTALL)
    assert found
    return found[1]


def test_the_example_is_a_guide_without_a_finding() -> None:
    guide = read({"guides/example/guide.yml": example()}, "guides/example/guide.yml", VERBS, "example")
    assert [(str(each.place), each.message) for each in check(guide)] == []


def test_the_example_with_its_glue_after_its_ring_is_not() -> None:
    lines = example().splitlines(keepends=True)
    glue = next(number for number, line in enumerate(lines) if "glue: rod" in line)
    lines[glue], lines[glue + 1] = lines[glue + 1], lines[glue]
    guide = read({"g/guide.yml": "".join(lines)}, "g/guide.yml", VERBS, "g")
    assert [each.check for each in check(guide)] == ["glue-order"]


@pytest.mark.parametrize("table", TABLES)
def test_every_declared_table_has_a_heading_and_stands_in_the_manual(table: str) -> None:
    shown = {each.id for section in manual(VERBS, {}).sections for each in section.tables}
    assert table in SPOKEN
    assert f"fields-{table.lower().replace('_', '-')}" in shown


def test_every_field_and_every_verb_is_told() -> None:
    sections = manual(VERBS, {}).sections
    fields = {row.name for section in sections for each in section.tables for row in each.rows}
    assert {
        "title",
        "units: finest",
        "working time",
        "across flats",
        "without caution",
        "told above",
    } <= fields
    verbs = {verb.word: {row.name for row in verb.rows} for section in sections for verb in section.verbs}
    assert verbs == {
        v.word: {v.word if f.name == "*" else f.name for f in kind.fields}
        for kind in KINDS
        for v in kind.verbs
    }


def test_the_manual_lists_every_word_that_the_trade_knows() -> None:
    (section,) = (each for each in manual(VERBS, {}).sections if each.id == "trade")
    kinds = [*(row.key for row in ADHESIVES), *(row.key for row in PAINTS)]
    for word in (*(kind.replace("_", " ") for kind in kinds), *(row.key for row in HAZARDS)):
        assert f"<code>{word}</code>" in section.html, word
    for known in (*(row.key for row in TOOLS), *(row.key for row in MATERIALS)):
        assert known in section.html, known
    assert "[[" not in section.html
