"""Every table of the trade: sources exist, keys are unique, ranges run from low to high, references meet."""

from __future__ import annotations

import ast
import re
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any, get_args

import msgspec
import pytest

from builder.trade import (
    adhesives,
    ends,
    fits,
    gear,
    grain,
    hazards,
    materials,
    motors,
    paints,
    sheets,
    signals,
    sources,
    tools,
    usual,
    words,
)  # fmt: skip
from builder.trade.match import plain

TABLES: dict[str, tuple[Any, ...]] = {
    "adhesives": adhesives.ADHESIVES,
    "paints": paints.PAINTS,
    "hazards": hazards.HAZARDS,
    "gear": gear.GEAR,
    "grain": grain.GRAINS,
    "tools": tools.TOOLS,
    "materials": materials.MATERIALS,
    "fits": fits.FITS,
    "reaches": fits.REACHES,
    "sheets": sheets.SHEETS,
    "margins": sheets.MARGINS,
    "motor classes": motors.MOTOR_CLASSES,
    "motor cases": motors.MOTOR_CASES,
    "sites": motors.SITES,
    "code facts": motors.CODE_FACTS,
    "ends": ends.END_PAIRS,
    "usual": usual.USUAL,
}
KEYED = ("adhesives", "paints", "hazards", "gear", "tools", "materials", "sheets", "margins", "code facts")
KEYS = {name: [row.key for row in TABLES[name]] for name in KEYED}
SOURCE_KEYS = {row.key for row in sources.SOURCES}
ROOM = Path(sources.__file__).parent


def row_name(value: object) -> str:
    return str(value) if isinstance(value, str) else str(getattr(value, "key", value))[:40]


@pytest.mark.parametrize("table", TABLES)
def test_each_row_has_sources_that_exist(table: str) -> None:
    for row in TABLES[table]:
        assert row.sources, row
        assert [key for key in row.sources if key not in SOURCE_KEYS] == [], row
        assert len(set(row.sources)) == len(row.sources), row


def test_other_statements_have_sources_that_exist() -> None:
    used = [*words.WORD_SOURCES, *signals.SIGNAL_SOURCES, *tools.GEAR_TOOL.sources]
    used += [key for _, _, keys in motors.CODE_NOTES for key in keys]
    assert [key for key in used if key not in SOURCE_KEYS] == []


def test_each_source_is_used_and_named_without_an_address() -> None:
    text = "".join(path.read_text() for path in sorted(ROOM.glob("*.py")) if path.name != "sources.py")
    for row in sources.SOURCES:
        assert f'"{row.key}"' in text, row.key
        assert not re.search(r"https?:|www[.]|[.](com|org|gov|net|edu)\b", row.title), row.title
        assert sources.source(row.key) is row
    assert sources.source("hearsay") is None


@pytest.mark.parametrize("table", KEYED)
def test_keys_are_unique(table: str) -> None:
    assert len(set(KEYS[table])) == len(KEYS[table])


def test_source_keys_are_unique() -> None:
    assert len(SOURCE_KEYS) == len(sources.SOURCES)


def spans(row: Any) -> Iterator[tuple[str, Any]]:
    names = ("working", "tack", "set", "cure", "dry", "handle", "recoat_until", "recoat_from", "thickness")
    for name in names:
        span = getattr(row, name, None)
        if span is not None:
            yield name, span
    for low, high in (("low", "high"), ("over", "limit")):
        if hasattr(row, low):
            yield low, (getattr(row, low), getattr(row, high))


@pytest.mark.parametrize("table", TABLES)
def test_ranges_run_from_low_to_high(table: str) -> None:
    for row in TABLES[table]:
        for name, (low, high) in spans(row):
            assert low <= high, (row, name)


@pytest.mark.parametrize("row", adhesives.ADHESIVES, ids=row_name)
def test_an_adhesive_first_tacks_then_sets_then_cures(row: adhesives.Adhesive) -> None:
    ends_of = [span for span in (row.tack, row.set, row.cure) if span is not None]
    assert [low for low, _ in ends_of] == sorted(low for low, _ in ends_of)
    assert [high for _, high in ends_of] == sorted(high for _, high in ends_of)
    assert row.gap > 0


@pytest.mark.parametrize("row", paints.PAINTS, ids=row_name)
def test_a_paint_is_dry_then_handled_then_cured(row: paints.Paint) -> None:
    assert row.dry[0] <= row.handle[0] <= row.cure[0]
    assert row.dry[1] <= row.handle[1] <= row.cure[1]
    assert (row.recoat_until is None) == (row.recoat_from is None)
    if row.recoat_until is not None and row.recoat_from is not None:  # a forbidden interval, not an empty one
        assert row.dry[0] <= row.recoat_until[1] < row.recoat_from[0]


def test_what_a_row_refers_to_exists() -> None:
    known = set(KEYS["hazards"])
    for rows in (adhesives.ADHESIVES, paints.PAINTS):
        for needing in rows:
            assert set(needing.needs) <= known, needing.key
    for kinds in (tools.TOOLS, materials.MATERIALS):
        for kind in kinds:
            assert set(kind.hazards) <= known, kind.key
    for extra in (*tools.MODIFIERS.values(), *usual.VERB_HAZARDS.values()):
        assert set(extra) <= known
    for row in hazards.HAZARDS:
        assert set(row.gear) <= set(KEYS["gear"]), row.key
        assert set(row.covers) <= known - {row.key}, row.key
    for kind in materials.MATERIALS:
        assert set(kind.forms) <= set(materials.FORMS), kind.key


def test_the_usual_tools_exist() -> None:
    for row in usual.USUAL:
        for group in row.tools:
            assert group and set(group) <= set(KEYS["tools"]), row
    for kind, beside in usual.BESIDE.items():
        assert {kind, *beside} <= set(KEYS["tools"])


def test_no_row_holds_a_float() -> None:
    for path in sorted(ROOM.glob("*.py")):
        for node in ast.walk(ast.parse(path.read_text())):
            assert not (isinstance(node, ast.Constant) and isinstance(node.value, float)), path.name
            assert not (isinstance(node, ast.Name) and node.id == "float"), path.name


def test_rows_cannot_be_changed() -> None:
    for name, rows in TABLES.items():
        for row in rows:
            assert isinstance(row, msgspec.Struct), name
            assert type(row).__struct_config__.frozen, name


def test_names_that_a_guide_may_write_are_held_as_they_are_looked_up() -> None:
    for rows in (adhesives.ADHESIVES, paints.PAINTS, sheets.SHEETS):
        for row in rows:
            assert [name for name in row.aka if plain(name) != name] == [], row.key
    for what in (row.what for row in usual.USUAL):
        assert plain(what) == what


@pytest.mark.parametrize("rows", [adhesives.ADHESIVES, paints.PAINTS, sheets.SHEETS], ids=lambda r: r[0].key)
def test_no_name_stands_for_two_rows(rows: tuple[Any, ...]) -> None:
    names = [name for row in rows for name in dict.fromkeys((plain(row.key), *row.aka))]
    assert sorted(names) == sorted(set(names))


@pytest.mark.parametrize("rows", [tools.TOOLS, materials.MATERIALS, gear.GEAR], ids=lambda r: r[0].key)
def test_no_phrase_stands_for_two_kinds(rows: tuple[Any, ...]) -> None:
    phrases = [phrase for row in rows for phrase in row.match]
    assert sorted(phrases) == sorted(set(phrases))


def test_grades_are_reasoned() -> None:
    for row in (*adhesives.ADHESIVES, *paints.PAINTS):
        assert row.k6 in get_args(adhesives.Grade)
        assert row.k6_note.endswith(".")


def test_the_room_loads_nothing_heavy() -> None:
    """A cold check waits for this room: beyond the model library and fractions it may load itself alone."""
    modules = ", ".join(f"builder.trade.{path.stem}" for path in sorted(ROOM.glob("[a-z]*.py")))
    code = (
        "import sys, msgspec, fractions, typing; before = set(sys.modules); "
        f"import {modules}; new = set(sys.modules) - before; "
        "print(*sorted(name for name in new if not name.startswith('builder')))"
    )
    run = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, check=True, cwd=ROOM.parents[1]
    )
    assert run.stdout.strip() == ""
