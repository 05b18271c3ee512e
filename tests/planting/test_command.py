"""The command `kitwright plant`."""

from __future__ import annotations

import json
from pathlib import Path

from click.testing import CliRunner

from builder.cli import main

ROOT = Path(__file__).parents[2]
CART = str(ROOT / "guides" / "sail-cart")


def run(*arguments: str) -> tuple[int, str]:
    result = CliRunner().invoke(main, ["plant", *arguments])
    return result.exit_code, result.output


def test_a_caught_fault_ends_with_zero() -> None:
    status, text = run(CART, "--kind", "remainder")
    assert status == 0
    assert "remainder a step of the ruler off" in text
    assert "Sail cart: 1 planted, 1 caught" in text


def test_json_holds_the_findings() -> None:
    status, text = run(CART, "--kind", "unit left out", "--format", "json")
    assert status == 0
    (data,) = json.loads(text)
    assert [row["findings"][0]["check"] for row in data["rows"]] == ["number"]


def test_all_plants_at_every_place() -> None:
    once, every = (json.loads(run(CART, "--kind", "ruler longer", "--format", "json", *more)[1])
                   for more in ((), ("--all",)))  # fmt: skip
    assert len(once[0]["rows"]) == 1
    zones = 5 + 2 + 2  # typed: all of the deck, the gaps of an axle, two of the mast
    assert len(every[0]["rows"]) == zones


def test_a_kind_that_there_is_not_stops() -> None:
    status, text = run(CART, "--kind", "xylophone")
    assert status == 2
    assert "no guide has a place" in text


def test_pairs_are_planted_together() -> None:
    status, text = run(CART, "--kind", "remainder", "--kind", "misspelt", "--pairs", "--format", "json")
    rows = json.loads(text)[0]["rows"]
    assert status == 0
    assert all(len(row["kinds"]) == 2 for row in rows)
    assert rows
