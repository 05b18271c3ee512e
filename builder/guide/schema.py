"""The JSON Schema of a guide (2020-12), made from the one declaration of every field and verb.

An editor that knows it completes fields and marks faults while a guide is typed. What a field may hold
follows from its `Holds`; what an action may have follows from its verb, by `if` and `then`, so that the
right property is blamed and not the whole action. The reader has the last word: what the schema refuses
the reader refuses too, and the reader knows much more.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping

import msgspec
from msgspec.structs import replace

from builder.guide import declared
from builder.guide.actions import Verbs
from builder.guide.fields import Field, Holds
from builder.guide.model import Verb
from builder.guide.plain import plain_data
from builder.guide.shaped import SIDES
from builder.quantities.units import UNITS, Dimension

Schema = dict[str, object]

DIALECT = "https://json-schema.org/draft/2020-12/schema"
MARK = "# yaml-language-server: $schema=../common/guide.schema.json"
"""The first line of a guide, by which an editor finds the schema."""

_TEXT = ("string", "number", "boolean")
_ID = "^[a-z][a-z0-9_]*$"
_REFERENCE = r"^[a-z][a-z0-9_]*(\.[a-z][a-z0-9_]*)?( [0-9][0-9, and]*)?$"
_NO_BRACES = "^[^{}]*$"
_NO_DOUBLED = r"^(?![\s\S]*(\{\{|\}\}))"
_SIZE = r"\s(x|×|by)\s"
_TOLERANCE = r"^\s*(±|\+/[-−]|\+[-−])"
_WINDOW = r"\b(up to|from|to|any time)\b"
_PER = "^(builder|each builder|class|[1-9][0-9]{0,2} builders?)$"
_DIMENSIONS = (Dimension.LENGTH, Dimension.TIME, Dimension.ANGLE, Dimension.MONEY)


def schema(verbs: Verbs) -> Schema:
    """The schema of a guide that may use these verbs (a library's own among them)."""
    return {
        "$schema": DIALECT,
        "title": "A build guide",
        "description": "A guide is written as data, built on paper, checked, drawn and printed.",
        **_table(declared.GUIDE),
        "$defs": _definitions(verbs),
    }


def as_json(verbs: Verbs) -> str:
    """The schema as the text of a file."""
    return msgspec.json.format(msgspec.json.encode(schema(verbs)), indent=1).decode() + "\n"


def _table(fields: Iterable[Field]) -> Schema:
    """A mapping with these fields and no others."""
    all_fields = tuple(fields)
    required = [field.name for field in all_fields if field.required]
    return {
        "type": "object",
        "properties": {field.name: property_of(field) for field in all_fields},
        **({"required": required} if required else {}),
        "additionalProperties": False,
    }


def property_of(field: Field) -> Schema:
    """What one field may hold, with its description and its example."""
    return {"description": field.about, "examples": [example_of(field)], **_shape(field)}


def example_of(field: Field) -> object:
    """The example of a field as data. ValueError if its declaration gives none that can be read."""
    return plain_data(field.example)


def _shape(field: Field) -> Schema:
    if field.holds in (Holds.SPECIAL, Holds.TIME):
        return SPECIAL[field.name](field)
    return _SHAPES[field.holds](field)


def _ref(name: str) -> Schema:
    return {"$ref": f"#/$defs/{name}"}


def _number(field: Field) -> Schema:
    if field.dimension in _DIMENSIONS:
        return _ref(field.dimension.value.replace(" ", "-"))
    return {"type": ["string", "number"], "pattern": _NO_BRACES, "minLength": 1}


def _several(pattern: str) -> Callable[[Field], Schema]:
    def shape(_: Field) -> Schema:
        one = {"type": "string", "pattern": pattern, "minLength": 1}
        return {"type": ["string", "array"], "pattern": pattern, "minLength": 1, "items": one}

    return shape


def _fixed(**shape: object) -> Callable[[Field], Schema]:
    return lambda _: dict(shape)


_SHAPES: Mapping[Holds, Callable[[Field], Schema]] = {
    Holds.TEXT: _fixed(type=_TEXT),
    Holds.PROSE: _fixed(type=_TEXT, pattern=_NO_DOUBLED),
    Holds.WORD: lambda field: {"enum": list(field.words)} if field.words else {"type": _TEXT},
    Holds.YES: _fixed(enum=["yes", "no", True, False]),
    Holds.COUNT: _fixed(
        type=["integer", "string"], minimum=1, maximum=9999, pattern="^0*[1-9][0-9]{0,3}$"
    ),
    Holds.NUMBER: _number,
    Holds.SIZE: _fixed(type="string", pattern=_SIZE),
    Holds.SIZES: lambda _: {"type": ["string", "array"], "pattern": _measured(Dimension.LENGTH),
                            "items": _ref("length")},
    Holds.TOLERANCE: _fixed(type="string", pattern=_TOLERANCE),
    Holds.THING: _fixed(type="string", pattern=_REFERENCE),
    Holds.THINGS: _several(_REFERENCE),
    Holds.NEW: _fixed(type="string", pattern=_ID),
    Holds.PLACE: _several(_NO_BRACES),
    Holds.PLACES: _several(_NO_BRACES),
    Holds.AROUND: _fixed(type=["string", "boolean"], pattern=_NO_BRACES, minLength=1),
    Holds.ANGLE: lambda _: _ref("angle"),
    Holds.WINDOW: _fixed(type="string", pattern=_WINDOW),
    Holds.PER: _fixed(type="string", pattern=_PER),
    Holds.WORDS: lambda _: {"type": ["string", "array"], "items": {"type": ["string", "number"]}},
    Holds.NESTED: lambda field: _table(field.inner),
}  # fmt: skip


# -- the forms of their own ---------------------------------------------------------------------------


def _by_id(value: Schema) -> Schema:
    """A mapping from new ids."""
    return {"type": "object", "propertyNames": {"pattern": _ID}, "additionalProperties": value}


def _also_inside(*types: str) -> Callable[[Field], Schema]:
    """The fields inside, or the short form in which they are one of the other types."""
    return lambda field: {**_table(field.inner), "type": [*types, "object"]}


def _list_of(name: str) -> Callable[[Field], Schema]:
    return lambda _: {"type": "array", "items": _ref(name)}


def _zones(_: Field) -> Schema:
    zone = {"type": "object", "minProperties": 1, "maxProperties": 1, "propertyNames": {"pattern": _ID},
            "additionalProperties": _ref("length")}  # fmt: skip
    return {
        "type": "object",
        "patternProperties": {f"^({'|'.join(SIDES)}) from .+$": {"type": "array", "items": zone}},
        "additionalProperties": False,
    }


def _cautions(field: Field) -> Schema:
    """In the head cautions stand by id; in a step they are named, or written whole."""
    if field in declared.STEP:
        return {"type": ["array", "string", "object"], "items": _ref("named-caution")}
    return _by_id(_ref("caution"))


SPECIAL: Mapping[str, Callable[[Field], Schema]] = {
    "choices": lambda _: _by_id(_by_id({"type": _TEXT})),
    "dimensions": lambda _: _by_id(_ref("dimension")),
    "materials": lambda _: _by_id(_ref("material")),
    "tools": lambda _: _by_id(_ref("tool")),
    "parts": lambda _: _by_id(_ref("part")),
    "cautions": _cautions,
    "terms": lambda _: {"type": "object", "propertyNames": {"pattern": r"^\S"},  # words, not ids
                        "additionalProperties": _table(declared.TERM)},
    "accepted": lambda field: {"type": "array", "items": _table(field.inner)},
    "signed": lambda field: {"type": "array", "items": _table(field.inner)},
    "steps": _list_of("entry"),
    "zones": _zones,
    "diameters": lambda _: _by_id(_ref("length")),
    "outline": lambda _: _ref("outline"),
    "holes": lambda _: _by_id({"type": "string", "pattern": _NO_BRACES, "minLength": 1}),
    "knots take": lambda _: {"type": "string", "pattern": " each end$"},
    "points": lambda _: {
        "type": "array",
        "minItems": 3,
        "items": {"type": "array", "minItems": 2, "maxItems": 2, "items": _ref("length")},
    },
    "time": lambda field: {**_table(field.inner), "type": ["string", "object"],
                           "pattern": _measured(Dimension.TIME)},
    "without caution": _also_inside("string", "array"),
    "with": lambda _: _by_id({"type": "string", "pattern": _REFERENCE}),
    "takes": lambda _: _by_id({"type": "string"}),
    "gently": lambda field: _table(field.inner),
    "verbs": lambda _: {"type": "object", "additionalProperties": _table(declared.VERB)},
    "brings": lambda _: {"type": "object", "additionalProperties": {"type": _TEXT}},
    "actions": _list_of("action"),
}  # fmt: skip


def _measured(dimension: Dimension) -> str:
    """Anything but a lone number without a unit, or with a unit that measures something else."""
    others = [unit for unit in UNITS if unit.dimension is not dimension]
    words = (word for unit in others for word in (unit.symbol, *unit.words))
    units = "|".join(re.escape(word).replace(r"\ ", " ") for word in words)
    return rf"^(?!\s*[-+]?[0-9./¼-¾⅐-⅞][0-9./¼-¾⅐-⅞ ]*({units})?\s*$)[^{{}}]+$"


def _definitions(verbs: Verbs) -> Schema:
    notes = tuple(_note(word) for word in declared.NOTE_WORDS)
    any_note: Schema = {note.name: _ref(f"any-{note.name}") for note in notes}
    every = (*declared.EVERY_ACTION, *notes)
    any_field: Schema = {field.name: _ref(f"any-{field.key}") for field in every}
    measures: Schema = {
        each.value.replace(" ", "-"): {"type": "string", "pattern": _measured(each)} for each in _DIMENSIONS
    }
    dimension = _table(declared.DIMENSION)
    dimension.update(type=["string", "number", "object"], pattern=_NO_BRACES, minLength=1)
    tool, part = _table(declared.TOOL), _table(declared.PART)
    tool["type"] = part["type"] = ["object", "null"]
    named = {**_table(declared.CAUTION), "type": ["object", "string"]}
    return {
        **measures,
        "dimension": dimension,
        "material": _table(declared.MATERIAL),
        "tool": tool,
        "part": part,
        "outline": _table(declared.OUTLINE),
        "caution": _table(declared.CAUTION),
        "named-caution": named,
        "stage": _table(declared.STAGE),
        "use": _table(declared.USE),
        "choose": _choose(),
        "step": _table([*declared.STEP, *(note for note in notes if note.name != "why")]),
        "entry": _entry(),
        "action": {
            "type": "object",
            "properties": {"repeat": _told(declared.REPEAT[0])},
            **_if("repeat", "repeat", _ref("single-action")),
        },
        "single-action": _action(verbs, any_note),
        "word-of-an-action": _words(verbs, any_field),
        "repeat": _repeat(any_note),
        **{f"any-{field.key}": property_of(field) for field in every},
        **{
            f"verb-{word.replace(' ', '-')}": _verb(word, verb, spec, any_field)
            for word, (verb, spec) in verbs.items()
        },
    }


def _note(word: str) -> Field:
    return Field(word, Holds.PROSE, "Informs, never instructs.", "A skewed ring shows as a gap of light.")


def _if(word: str, then: str, otherwise: Schema | None = None) -> Schema:
    out: Schema = {"if": {"required": [word]}, "then": _ref(then)}
    return out if otherwise is None else {**out, "else": otherwise}


def _entry() -> Schema:
    """A step, or one of the structure words; the words stand in `properties` so that they are offered."""
    words = (declared.STAGE[0], declared.USE[0], _CHOOSE, declared.STEP[0])
    steps = _if("stage", "stage", _if("use", "use", _if("choose", "choose", _ref("step"))))
    return {
        "type": "object",
        "minProperties": 1,
        "properties": {field.name: _told(field) for field in words},
        **steps,
    }


_CHOOSE = Field("choose", Holds.NEW, "A choice: below it stands a list of steps for each of its options.",
                "fin_alignment")  # fmt: skip


def _told(field: Field) -> Schema:
    return {"description": field.about, "examples": [example_of(field)]}


def _choose() -> Schema:
    return {
        "type": "object",
        "properties": {"choose": property_of(_CHOOSE)},
        "propertyNames": {"pattern": _ID},
        "additionalProperties": {"type": "array", "items": _ref("entry")},
    }


def _verb(word: str, verb: Verb, spec: tuple[Field, ...], any_field: Schema) -> Schema:
    """An action with this verb: the first field is called by the verb, the rest by their names."""
    fields = [replace(f, name=word, about=f"{f.about} {verb.about}") if f.name in ("*", word) else f
              for f in spec]  # fmt: skip
    return _with(_table(fields), any_field)


def _repeat(any_note: Schema) -> Schema:
    table = _with(_table(declared.REPEAT), any_note)
    properties = table["properties"]
    assert isinstance(properties, dict)
    properties["actions"] = {**properties["actions"], "items": _ref("single-action")}
    return table


def _with(table: Schema, more: Schema) -> Schema:
    """A mapping with further properties."""
    properties = table["properties"]
    assert isinstance(properties, dict)
    return {**table, "properties": {**properties, **more}}


def _action(verbs: Verbs, any_note: Schema) -> Schema:
    """By the verb, what else may stand in the action. A word that no action has is blamed by itself, and a
    mapping without a verb as a whole. The verbs stand in `properties` so that they are offered."""
    words = {word: {"description": verb.about} for word, (verb, _) in verbs.items()}
    begins: Schema = {"anyOf": [{"required": [word]} for word in (*verbs, *any_note)]}
    known: Schema = {"propertyNames": _ref("word-of-an-action")}
    branches = [_if(word, f"verb-{word.replace(' ', '-')}") for word in verbs]
    alone: Schema = {"if": {"not": begins}, "then": {"if": known, "then": begins, "else": known}}
    return {
        "type": "object",
        "minProperties": 1,
        "properties": {**words, **any_note},
        "allOf": [*branches, alone],
    }


def _words(verbs: Verbs, any_field: Schema) -> Schema:
    """Every word that an action may have."""
    fields = (f.name for _, spec in verbs.values() for f in spec if f.name != "*")
    return {"enum": [*dict.fromkeys((*verbs, *fields, *any_field))]}
