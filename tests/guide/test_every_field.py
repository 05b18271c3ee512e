"""Every field of the format is used by a demonstration guide: what no guide needs is not kept."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from pathlib import Path

import pytest
import yaml

from builder.dryrun.kinds import KINDS
from builder.guide import declared
from builder.guide.fields import Field

GUIDES = Path(__file__).resolve().parents[2] / "guides"

Used = tuple[str, str]  # (table, field)

UNUSED: dict[Used, str] = {}
"""Fields that stay though no guide of ours uses them, each with its reason."""


def inner(table: Iterable[Field], name: str) -> tuple[Field, ...]:
    return next(field.inner for field in table if field.name == name)


SHARED = [yaml.safe_load(file.read_text("utf-8")) for file in sorted(GUIDES.glob("common/*.yml"))]
KIND_OF = {verb.word: kind for kind in KINDS for verb in kind.verbs}
KIND_OF |= {
    word: KIND_OF[verb["stands for"]] for file in SHARED for word, verb in file.get("verbs", {}).items()
}
TABLES: dict[str, tuple[Field, ...]] = {
    "guide": declared.GUIDE,
    **{f"guide/{f.name}": f.inner for f in declared.GUIDE if f.inner},
    "term": declared.TERM,
    "dimension": declared.DIMENSION,
    "material": declared.MATERIAL,
    "material/label": declared.LABEL,
    "material/sold": declared.SOLD,
    "tool": declared.TOOL,
    "part": declared.PART,
    "part/rolled": inner(declared.PART, "rolled"),
    "part/outline": declared.OUTLINE,
    "caution": declared.CAUTION,
    "stage": declared.STAGE,
    "step": declared.STEP,
    "step/time": inner(declared.STEP, "time"),
    "step/without caution": inner(declared.STEP, "without caution"),
    "use": declared.USE,
    "shared": declared.SHARED,
    "verb": declared.VERB,
    "action": declared.EVERY_ACTION,
    "action/gently": inner(declared.EVERY_ACTION, "gently"),
    "repeat": declared.REPEAT,
    **{kind.name: kind.fields for kind in KINDS},
}
ALL = [(table, field.name) for table, fields in TABLES.items() for field in fields if field.name != "*"]
ALL += [("note", word) for word in declared.NOTE_WORDS]


def of_mapping(table: str, mapping: object) -> Iterator[Used]:
    """The fields of a mapping, and those of the mappings in it that have a table."""
    if not isinstance(mapping, dict):
        return
    for name, value in mapping.items():
        yield table, str(name)
        for each in value if isinstance(value, list) else [value]:
            if f"{table}/{name}" in TABLES:
                yield from of_mapping(f"{table}/{name}", each)


def of_guide(guide: dict[str, object]) -> Iterator[Used]:
    yield from of_mapping("guide" if "title" in guide else "shared", guide)
    for name, table in (("terms", "term"), ("dimensions", "dimension"), ("materials", "material"),
                        ("tools", "tool"), ("parts", "part"), ("cautions", "caution"),
                        ("verbs", "verb")):  # fmt: skip
        entries = guide.get(name, {})
        assert isinstance(entries, dict)
        for entry in entries.values():
            yield from of_mapping(table, entry)
    yield from of_entries(guide.get("steps", []))


def of_entries(entries: object) -> Iterator[Used]:
    assert isinstance(entries, list)
    for entry in entries:
        if "stage" in entry or "use" in entry:
            yield from of_mapping("stage" if "stage" in entry else "use", entry)
        elif "choose" in entry:
            for steps in entry.values():
                yield from of_entries(steps) if isinstance(steps, list) else ()
        else:
            yield from of_mapping("step", entry)
            for caution in entry.get("cautions", ()):
                yield from of_mapping("caution", caution)
            yield from of_actions(entry["actions"])


def of_actions(actions: list[dict[str, object]]) -> Iterator[Used]:
    for action in actions:
        word = next(iter(action))
        if word == "repeat":
            yield from of_mapping("repeat", action)
            inside = action["actions"]
            assert isinstance(inside, list)
            yield from of_actions(inside)
        elif word in declared.NOTE_WORDS:
            yield "note", word
        else:
            yield from of_mapping("action", action)
            yield from ((KIND_OF[word].name, name) for name in action)


def used() -> frozenset[Used]:
    """The fields that the demonstration guides, in all their revisions, and their shared steps use."""
    guides = [yaml.safe_load(file.read_text("utf-8")) for file in sorted(GUIDES.glob("**/guide.yml"))]
    return frozenset(each for guide in (*guides, *SHARED) for each in of_guide(guide))


@pytest.fixture(scope="module", name="used")
def _used() -> frozenset[Used]:
    return used()


@pytest.mark.parametrize("field", ALL, ids="/".join)
def test_a_guide_uses_it(used: frozenset[Used], field: Used) -> None:
    assert (field in used) != (field in UNUSED)


def test_no_reason_is_left_over() -> None:
    assert UNUSED.keys() <= set(ALL)
