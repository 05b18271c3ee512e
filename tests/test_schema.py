"""The schema of a guide: true to the declared fields, good guides pass, a fault blames its own property.

The validator is the `jsonschema` library, for the dialect 2020-12. Guides are given to it as an editor
would, typed by the core schema of YAML 1.2.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner
from jsonschema import Draft202012Validator

from builder.cli import main
from builder.dryrun.kinds import KINDS, VERBS, Kind, verbs_of
from builder.guide import declared
from builder.guide.fields import Field, Holds
from builder.guide.own_verbs import of_folder
from builder.guide.plain import plain_data
from builder.guide.reader import read
from builder.guide.schema import DIALECT, MARK, SPECIAL, as_json, property_of, schema
from builder.pages.manual import TEXT as MANUAL
from builder.quantities.sums import Sum, read_sum, read_toleranced
from builder.quantities.values import Refusal

ROOT = Path(__file__).parents[1]
FILE = ROOT / "guides" / "common" / "guide.schema.json"
GUIDES = sorted((ROOT / "guides").glob("*/guide.yml"))

TABLES: dict[str, tuple[Field, ...]] = {
    name: value
    for name, value in vars(declared).items()
    if isinstance(value, tuple) and value and isinstance(value[0], Field)
} | {f"verb {word}": fields for word, (_, fields) in VERBS.items()}
EVERY_VERB = {**VERBS, **of_folder(ROOT / "guides" / "common", VERBS)[0].rows}  # with the library's own


@cache
def made() -> Any:
    return json.loads(as_json(EVERY_VERB))


@cache
def validator(part: str = "") -> Draft202012Validator:
    """The validator of a guide, or of a part of it by name."""
    whole = made()
    return Draft202012Validator({"$ref": f"#/$defs/{part}", "$defs": whole["$defs"]} if part else whole)


def errors(data: object, part: str = "") -> list[Any]:
    """What the schema (or a part of it by name) says of data."""
    return list(validator(part).iter_errors(data))


def blamed(error: Any) -> Iterator[str]:
    """The properties that an error is about: `parts.ring.length`."""
    path = [str(each) for each in error.absolute_path]
    if error.validator == "required":
        words = re.findall(r"'([^']*)' is a required", error.message)
        yield ".".join([*path, *words])
    elif error.validator == "additionalProperties":
        known = error.schema.get("properties", {})
        patterns = list(error.schema.get("patternProperties", {}))
        for name in error.instance:
            if name not in known and not any(re.search(p, name) for p in patterns):
                yield ".".join([*path, name])
    elif error.parent is None and "propertyNames" in error.absolute_schema_path:
        yield ".".join([*path, str(error.instance)])
    else:
        yield ".".join(path)


# -- the file ---------------------------------------------------------------------------------------------


def test_the_file_is_what_the_declarations_make() -> None:
    """After a change of a field: `kitwright schema -o guides/common/guide.schema.json`."""
    assert FILE.read_text("utf-8") == as_json(EVERY_VERB)


def test_it_is_a_schema_of_its_dialect() -> None:
    assert made()["$schema"] == DIALECT == "https://json-schema.org/draft/2020-12/schema"
    Draft202012Validator.check_schema(made())


def test_the_command_prints_and_writes_it(tmp_path: Path) -> None:
    printed = CliRunner().invoke(main, ["schema"])
    assert printed.exit_code == 0 and printed.output == as_json(EVERY_VERB)
    target = tmp_path / "made.json"
    written = CliRunner().invoke(main, ["schema", "-o", str(target)])
    assert written.exit_code == 0 and written.output == ""
    assert target.read_text("utf-8") == as_json(EVERY_VERB)
    assert [path.name for path in tmp_path.iterdir()] == ["made.json"]


def test_a_file_that_cannot_be_written_is_said(tmp_path: Path) -> None:
    told = CliRunner().invoke(main, ["schema", "-o", str(tmp_path / "nowhere" / "made.json")])
    assert told.exit_code == 2 and "cannot be written" in told.output


@pytest.mark.parametrize("guide", GUIDES, ids=lambda path: path.parent.name)
def test_every_guide_names_it_in_its_first_line(guide: Path) -> None:
    first = guide.read_text("utf-8").splitlines()[0]
    assert first == MARK
    assert (guide.parent / first.partition("$schema=")[2]).resolve() == FILE


# -- fields -----------------------------------------------------------------------------------------------


def each_field(fields: tuple[Field, ...], where: str) -> Iterator[tuple[str, Field]]:
    for field in fields:
        yield f"{where}: {field.name}", field
        yield from each_field(field.inner, f"{where}: {field.name}")


FIELDS = [pair for name, table in TABLES.items() for pair in each_field(table, name)]


@pytest.mark.parametrize(("where", "field"), FIELDS, ids=[where for where, _ in FIELDS])
def test_a_field_has_a_description_and_an_example_that_it_may_hold(where: str, field: Field) -> None:
    shape = json.loads(json.dumps(property_of(field)))
    assert (
        shape["description"] == field.about
        and field.about.lstrip("`")[0].isalpha()
        and field.about.endswith(".")
    )
    (example,) = shape["examples"]
    assert [e.message for e in validator().evolve(schema=shape).iter_errors(example)] == []


@pytest.mark.parametrize(
    ("where", "field"), [pair for pair in FIELDS if pair[1].holds is Holds.NUMBER],
    ids=[where for where, field in FIELDS if field.holds is Holds.NUMBER],
)  # fmt: skip
def test_the_example_of_a_number_is_one_to_the_reader(where: str, field: Field) -> None:
    if "±" in field.example:
        assert not isinstance(read_toleranced(field.example, field.dimension), Refusal)
    else:
        assert isinstance(read_sum(field.example, field.dimension), Sum)


def test_every_property_of_the_schema_has_its_description_and_example() -> None:
    def walk(part: Any) -> Iterator[Any]:
        if isinstance(part, dict):
            yield part
            for inner in part.values():
                yield from walk(inner)
        elif isinstance(part, list):
            for inner in part:
                yield from walk(inner)

    for part in walk(made()):
        for name, shape in (
            part.get("properties", {}).items() if isinstance(part.get("properties"), dict) else ()
        ):
            if "$ref" in shape and "description" not in shape:
                shape = made()["$defs"][shape["$ref"].rpartition("/")[2]]
            assert "description" in shape, name
            assert "examples" in shape or name in EVERY_VERB, name  # a verb's example is in its own branch


def test_every_form_of_its_own_has_its_shape() -> None:
    special = {field.name for _, field in FIELDS if field.holds in (Holds.SPECIAL, Holds.TIME)}
    assert special == set(SPECIAL)


def test_every_verb_has_a_branch_with_all_its_fields() -> None:
    for word, (verb, fields) in VERBS.items():
        branch = made()["$defs"][f"verb-{word.replace(' ', '-')}"]
        named = {word if f.name in ("*", verb.word) else f.name for f in fields}
        assert named <= set(branch["properties"]), word
        assert set(branch["required"]) == {word if f.name == "*" else f.name for f in fields if f.required}


def test_a_verb_of_a_library_is_in_the_schema() -> None:
    """A verb is a row: another row of the same kind makes another branch, and nothing else changes."""
    kinds = tuple(
        Kind(k.name, k.fields, (*k.verbs, k.verbs[0].__class__("nudge", k.name, *_rest(k))), k.run)
        if k.name == "seat" else k
        for k in KINDS
    )  # fmt: skip
    more = json.loads(json.dumps(schema(verbs_of(kinds))))
    assert "verb-nudge" in more["$defs"] and "verb-nudge" not in made()["$defs"]
    action = {"nudge": "ring", "over": "rod", "fit": "sliding"}
    part = {"$ref": "#/$defs/action", "$defs": more["$defs"]}
    assert list(Draft202012Validator(part).iter_errors(action)) == []
    assert errors(action, "action") != []


def _rest(kind: Kind) -> tuple[Any, ...]:
    first = kind.verbs[0]
    return first.phrase, first.says, first.demand, first.about


# -- good guides --------------------------------------------------------------------------------------------


@pytest.mark.parametrize("guide", GUIDES, ids=lambda path: path.parent.name)
def test_a_good_guide_passes(guide: Path) -> None:
    assert [
        f"{list(e.absolute_path)}: {e.message}" for e in errors(plain_data(guide.read_text("utf-8")))
    ] == []


def blocks() -> list[str]:
    """Every example of the manual that stands in a block of its own."""
    return re.findall(r"```yaml\n(.*?)```", MANUAL.read_text("utf-8"), re.DOTALL)


WHOLE = next(block for block in blocks() if block.startswith("title:"))

KIT = """
title: A test
units: {first: in, second: mm, finest: 1/16 in}
cautions: {sun_in_tube: {level: danger, hazard: It burns., consequence: You go blind., avoidance: Look away.}}
dimensions: {gap: 1/8 in, DIMENSION}
materials:
  paper: {form: sheet, size: 14 in x 22 in, thickness: 0.010 in}
  pva: {form: adhesive, adhesive: pva, amount: 5 mL, label: {set: 30 min, full cure: 24 h}}
tools:
  dowel: {form: rod, diameter: 1 in, length: 14 in}
  thing: {TOOL}
parts:
  fin: {form: slab, source: bought, thickness: 1/16 in, outline: {root: 2 1/4 in, tip: 1 in, span: 2 in}}
  rear_ring: {form: ring, source: bought, outside: 1 in, inside: 1/2 in, length: 1/4 in}
  motor_tube: {form: tube, source: bought, outside: 1 in, inside: 3/4 in, length: 2 1/2 in}
  post: {form: rod, source: bought, count: 4, diameter: 1/4 in, length: 3 in}
  floor: {form: slab, source: bought, thickness: 1/8 in, outline: {rectangle: 4 in x 4 in}}
  block: {like: floor}
  cover: {like: floor}
  wall: {like: floor}
  wing: {form: rod, source: bought, diameter: 1 in, length: 1 in, PART}
BODY
steps:
  - {stage: One, STAGE}
  - id: first
    title: Do it
    STEP
    actions:
      - {wait for: body, until: set, FIELD}
      - {ACTION}
ENTRY"""
"""A guide with a slot for each kind of fragment that the manual shows."""

PLAIN = {
    "ENTRY": "",
    "DIMENSION": "", "TOOL": "", "PART": "", "STAGE": "", "FIELD": "", "STEP": "time: 1 min",
    "ACTION": "wait for: body, until: dry",
    "BODY": "  body: {form: tube, source: bought, outside: 1 in, inside: 3/4 in, length: 9 1/2 in}",
}  # fmt: skip

INLINE = {
    "count: 4": "PART",
    "like: rear_ring": "PART",
    'play: {is: 0.020 in, why: "slides by hand"}': "DIMENSION",
    "hazards: []": "TOOL",
    "form: gear": "TOOL",
    "who: teacher, per: class": "STAGE",
    "wait for: body, until: cured": "ACTION",
    "wait for: body, for: 20 min": "ACTION",
    "told above: yes": "FIELD",
    "cautions: [sun_in_tube]": "STEP",
    "without caution: {caution: blade, why: the blade is covered}": "STEP",
}
"""Every example that the manual gives in its running text, and the slot that it belongs to."""

WITHIN = {
    **{f"face: {face}": "glue: cover, {}, with: pva, for: floor" for face in ("top", "under")},
    **{f"face: {face}": "glue: body, {}, with: pva, for: floor" for face in ("inside", "outside")},
    "gently: {joints: [block], why: it is set straight down}": "attach: block, onto: floor, top: corner, {}",
    "wait for: cover, for: 8 min": "{}",
    "glue: wall, edge: bottom, with: pva, for: floor": "{}",
    "by: bottom": "attach: wall, onto: floor, top: corner, {}",
}
"""Every example that is a part of an action, and the action that it may be a part of."""


def kit(**slots: str) -> str:
    text = KIT.lstrip()
    for name, plain in PLAIN.items():
        text = text.replace(name, slots.get(name, plain))
    return text.replace(", }", "}")


def around(block: str) -> str:
    """A guide that holds a block of the manual: a whole guide, a section of one, fields of a part, a part."""
    first = block.partition(":")[0]
    if block == WHOLE or first == "verbs":
        return block
    if first.startswith("-"):
        return kit(ENTRY="".join(f"      {line}\n" for line in block.splitlines()))
    if first.startswith("#") or first in {field.name for field in declared.GUIDE}:
        return block + kit()
    indent = 2
    if first in {field.name for field in declared.PART}:
        indent, block = (
            4,
            f"form: tube\nsource: bought\ninside: 1 in\nwall: 1/16 in\nlength: 9 1/2 in\n{block}",
        )
    lines = "\n".join(" " * indent + line for line in block.splitlines())
    return kit(BODY=lines if indent == 2 else f"  body:\n{lines}")


def faults(text: str) -> list[str]:
    """What the schema and the reader say against a text: of a guide, or of a file of verbs beside one."""
    if text.startswith("verbs:"):
        texts = {"guide.yml": kit(), "verbs.yml": text}
        return [f"{f.place}: {f.message}" for f in read(texts, "guide.yml", VERBS, "example").findings]
    guide = read({"guide.yml": text}, "guide.yml", VERBS, "example")
    return [
        *(f"schema: {list(e.absolute_path)}: {e.message}" for e in errors(plain_data(text))),
        *(f"reader: {each.place}: {each.message}" for each in guide.findings),
    ]


def test_the_kit_of_the_fragments_passes() -> None:
    assert faults(kit()) == []


@pytest.mark.parametrize("block", blocks(), ids=lambda block: block.partition(":")[0])
def test_a_block_of_the_manual_passes_schema_and_reader(block: str) -> None:
    assert faults(around(block)) == []


@pytest.mark.parametrize(("snippet", "slot"), INLINE.items())
def test_an_example_in_the_text_of_the_manual_passes_schema_and_reader(snippet: str, slot: str) -> None:
    assert faults(kit(**{slot: snippet})) == []


@pytest.mark.parametrize(("snippet", "action"), WITHIN.items())
def test_an_example_of_a_part_of_an_action_passes_schema_and_reader(snippet: str, action: str) -> None:
    assert faults(kit(ACTION=action.replace("{}", snippet))) == []


def test_no_example_of_the_manual_is_left_out() -> None:
    prose = re.sub(r"```.*?```", "", MANUAL.read_text("utf-8"), flags=re.DOTALL)
    found = [text for text in re.findall(r"`([^`]+)`", prose) if re.match(r"[a-z][a-z ]*: \S", text)]
    assert [text for text in found if text not in (*INLINE, *WITHIN)] == []


# -- bad guides ---------------------------------------------------------------------------------------------

FAULTS = [
    # (the line as it is, as it is wrong, the property that is to blame)
    ("title: Stop ring on a rod\n", "", "title"),
    ("materials:", "material:", "material"),
    ("first: mm", "first: feet", "units.first"),
    ("finest: 1 mm", "finest: 1", "units.finest"),
    ("finest: 1 mm", "finest: 1 min", "units.finest"),
    ("{number: 1, dated", "{dated", "revision.number"),
    ("ages: 9-12", "age: 9-12", "audience.age"),
    ("form: adhesive", "form: glue", "materials.pva.form"),
    ("tack: 2 min", "tac: 2 min", "materials.pva.label.tac"),
    ("set: 30 min", "set: 30 mm", "materials.pva.label.set"),
    ("full cure: 24 h", "full cure: 24", "materials.pva.label.full cure"),
    ("amount: 5 mL", "amount: {5 mL}", "materials.pva.amount"),
    ("{name: ruler}", "{name: ruler, lenght: 30 cm}", "tools.ruler.lenght"),
    ("{name: ruler}", "{name: ruler, length: 30}", "tools.ruler.length"),
    ("{name: ruler}", "{name: ruler, one per: four}", "tools.ruler.one per"),
    ("form: rod\n", "form: bar\n", "parts.rod.form"),
    ("diameter: 6 mm", "diameter: {{ six }}", "parts.rod.diameter"),
    ("length: 200 mm", "length:", "parts.rod.length"),
    ("outside from rear:", "outside:", "parts.rod.zones.outside"),
    (
        "[handle: 120 mm, stop: ring.length, tip: 70 mm]",
        "{handle: 120 mm, stop: ring.length, tip: 70 mm}",
        "parts.rod.zones.outside from rear",
    ),
    ("tip: 70 mm", "tip: 70", "parts.rod.zones.outside from rear.2.tip"),
    ("form: ring, source: bought", "form: ring, source: shop", "parts.ring.source"),
    ("form: ring, source: bought", "form: ring, source: bought, count: two", "parts.ring.count"),
    ("form: ring, source: bought", "form: ring, source: bought, printed: perhaps", "parts.ring.printed"),
    ("  ring: {name", "  Ring: {name", "parts.Ring"),
    ("stage: The stop", "stage: [The stop]", "steps.0.stage"),
    ("base: rod", "bse: rod", "steps.0.bse"),
    ("  - id: ring_on\n    title", "  - title", "steps.2.id"),
    ("id: ring_on", "id: ring-on", "steps.2.id"),
    ("title: Glue the ring on", 'title: "Glue the {{ring}} on"', "steps.2.title"),
    ("time: 3 min", "tme: 3 min", "steps.2.tme"),
    ("time: 3 min", "time: 3", "steps.2.time"),
    ("mark: stop_line", "mark: stop-line", "steps.1.actions.0.mark"),
    ("around: yes", "around: [yes]", "steps.1.actions.0.around"),
    ("{glue: rod", "{gleu: rod", "steps.2.actions.0.gleu"),
    ("outside: stop", "outsde: stop", "steps.2.actions.0.outsde"),
    ("with: pva, ", "", "steps.2.actions.0.with"),
    ("for: ring}", "for: Ring!}", "steps.2.actions.0.for"),
    ("to: stop_line", "to: {stop_line}", "steps.2.actions.1.to"),
    ("{slide: ring, over: rod", "{over: rod", "steps.2.actions.1"),
    ("until: cured", "until: hard", "steps.2.actions.2.until"),
    ("{is: rod, holds", "{holds", "finished.is"),
]


@pytest.mark.parametrize(("old", "new", "property"), FAULTS, ids=[f"{new or old}" for old, new, _ in FAULTS])
def test_a_fault_blames_its_own_property_and_the_reader_sees_it_too(
    old: str, new: str, property: str
) -> None:
    assert WHOLE.count(old) >= 1
    text = WHOLE.replace(old, new, 1)
    found = errors(plain_data(text))
    assert {name for error in found for name in blamed(error)} == {property}
    assert read({"guide.yml": text}, "guide.yml", VERBS, "example").findings


def test_there_are_at_least_thirty_faults() -> None:
    assert len({new for _, new, _ in FAULTS}) >= 30


# -- plain data ---------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "data"),
    # YAML 1.2.2, section 10.3.2: the core schema.
    [("4", 4), ("-12", -12), ("1.5", 1.5), ("true", True), ("false", False), ("yes", "yes"),
     ("~", None), ("null", None),
     ("", None), ("'4'", "4"), ("12-15", "12-15"),
     ("2026-11-02", "2026-11-02"), ("1:30", "1:30"), ("5 mm", "5 mm"),
     ("[1, a]", [1, "a"]), ("{a: 1}", {"a": 1})],
)  # fmt: skip
def test_plain_data(text: str, data: object) -> None:
    assert plain_data(text) == data


def test_a_number_that_is_too_long_stays_text() -> None:
    assert plain_data("1" * 100) == int("1" * 100) and plain_data("1" * 101) == "1" * 101
    assert plain_data("." + "1" * 99) != "." + "1" * 99 and plain_data("." + "1" * 100) == "." + "1" * 100


def test_a_text_that_is_no_yaml_is_refused() -> None:
    with pytest.raises(ValueError, match="."):
        plain_data("{a: 1")
