"""Which fields belong where: the way from the head of a guide to the declared table of a mapping."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from builder.dryrun.kinds import VERBS
from builder.guide import declared
from builder.guide.actions import Verbs
from builder.guide.fields import Field, Holds
from builder.guide.model import Verb
from builder.guide.nodes import MappingNode, Node, ScalarNode, SequenceNode

Path = tuple[str | int, ...]


class Holder(NamedTuple):
    """What a node may hold. `kind` is fields, ids (a mapping from new names), list, entry, action, or a
    single field's value; `each` is what an id or an item holds."""

    kind: str
    fields: tuple[Field, ...] = ()
    each: Holder | None = None
    field: Field | None = None
    verb: Verb | None = None


def _ids(table: tuple[Field, ...]) -> Holder:
    return Holder("ids", each=Holder("fields", table))


def _list(holder: Holder) -> Holder:
    return Holder("list", each=holder)


ENTRY, ACTION = Holder("entry"), Holder("action")
NUMBER = Field("length", Holds.NUMBER, "The length of the zone; the lengths of a chain sum to the part's.",
               "ring.length")  # fmt: skip
PLACE = Field(
    "hole", Holds.PLACE, "Where the middle of the hole lies.", "20 mm from bottom and 90 mm from left"
)
CHOOSE = Field("choose", Holds.TEXT, "A choice: below it stands a list of steps for each of its options.",
               "fin_alignment")  # fmt: skip

_SPECIAL: Mapping[str, Holder] = {
    "dimensions": _ids(declared.DIMENSION),
    "materials": _ids(declared.MATERIAL),
    "tools": _ids(declared.TOOL),
    "parts": _ids(declared.PART),
    "terms": _ids(declared.TERM),
    "verbs": _ids(declared.VERB),
    "steps": _list(ENTRY),
    "actions": _list(ACTION),
    "outline": Holder("fields", declared.OUTLINE),
    "zones": Holder("ids", each=_list(Holder("ids", each=Holder("value", field=NUMBER)))),
    "diameters": Holder("ids", each=Holder("value", field=NUMBER)),
    "holes": Holder("ids", each=Holder("value", field=PLACE)),
    "takes": Holder("ids", each=Holder("value")),
    "choices": Holder("ids", each=Holder("ids", each=Holder("value"))),
    "with": Holder("ids", each=Holder("value", field=Field("with", Holds.THING, "What the parameter of the "
                                                           "shared step stands for.", "body"))),
}  # fmt: skip

_NOTES = tuple(
    Field(word, Holds.PROSE, "Informs, never instructs.", "A skewed ring shows as a gap of light.")
    for word in declared.NOTE_WORDS
)


def _of_field(field: Field, table: tuple[Field, ...]) -> Holder:
    """What the value of a field may hold."""
    if field.inner:  # one such mapping, or a list of them
        return Holder("fields", field.inner, each=Holder("fields", field.inner), field=field)
    if field.name == "cautions":
        whole = Holder("fields", declared.CAUTION, field=field)
        return Holder("list", each=whole, field=field) if table is declared.STEP else _ids(declared.CAUTION)
    if field.holds is Holds.SPECIAL and field.name in _SPECIAL:
        return _SPECIAL[field.name]._replace(field=field)
    return Holder("value", field=field, each=Holder("value", field=field))


def fields_of(holder: Holder, node: Node | None, verbs: Verbs = VERBS) -> dict[str, Field]:
    """The fields of a mapping by name: for an entry or an action, those that go with what it begins with."""
    words = _words(node)
    if holder.kind == "entry":
        table = _entry(words)
        return {field.name: field for field in table}
    if holder.kind == "action":
        return action_fields(verb_of(words, verbs), verbs)
    return {field.name: field for field in holder.fields}


def _entry(words: list[str]) -> tuple[Field, ...]:
    if "stage" in words:
        return declared.STAGE
    if "use" in words:
        return declared.USE
    if "choose" in words:
        return (CHOOSE,)
    starts = () if words else (declared.STAGE[0], declared.USE[0], CHOOSE)
    return (*declared.STEP, *(note for note in _NOTES if note.name != "why"), *starts)


def action_fields(word: str, verbs: Verbs = VERBS) -> dict[str, Field]:
    """The fields of an action with a verb; with no verb yet, the verbs, `repeat` and the words of a note."""
    if word == "repeat":
        return {f.name: f for f in (*declared.REPEAT, *_NOTES)}
    if word in verbs:
        verb, spec = verbs[word]
        named = {word if f.name in ("*", verb.word) else f.name: f for f in spec}
        return {**named, **{f.name: f for f in (*declared.EVERY_ACTION, *_NOTES)}}
    found: dict[str, Field] = {}
    for name, (verb, spec) in verbs.items():
        found[name] = next(f for f in spec if f.name in ("*", verb.word))
    return {**found, "repeat": declared.REPEAT[0], **{note.name: note for note in _NOTES}}


def verb_of(words: list[str], verbs: Verbs = VERBS) -> str:
    """The verb that an action's words begin with; empty if there is none."""
    return next((word for word in words if word in verbs or word == "repeat"), "")


def _words(node: Node | None) -> list[str]:
    if not isinstance(node, MappingNode):
        return []
    return [key.value for key, _ in node.value if isinstance(key, ScalarNode)]


def root_of(node: Node | None) -> Holder:
    """A guide, or a shared file."""
    words = _words(node)
    shared = "title" not in words and not {"shared", "takes", "verbs"}.isdisjoint(words)
    return Holder("fields", declared.SHARED if shared else declared.GUIDE)


def holder_at(root: Node | None, path: Path, verbs: Verbs = VERBS) -> tuple[Holder | None, Node | None]:
    """What the node at a path may hold, and the node. None where the way leads out of what is declared."""
    holder: Holder | None = root_of(root)
    node = root
    for step in path:
        inner = below(node, step)
        holder = None if holder is None else _inner(holder, node, step, inner, verbs)
        node = inner
    return holder, node


def below(node: Node | None, step: str | int) -> Node | None:
    """The value of a key, or the item of a list."""
    if isinstance(node, MappingNode):
        return next((v for k, v in node.value if isinstance(k, ScalarNode) and k.value == step), None)
    if isinstance(node, SequenceNode) and isinstance(step, int) and step < len(node.value):
        return node.value[step]  # type: ignore[no-any-return]
    return None


def _inner(
    holder: Holder, node: Node | None, step: str | int, inner: Node | None, verbs: Verbs
) -> Holder | None:
    if isinstance(step, int):
        return holder.each if holder.kind in ("list", "value", "fields") else None
    if holder.kind == "ids":
        if (
            holder.each is not None
            and holder.each.fields is declared.DIMENSION
            and not isinstance(inner, MappingNode)
        ):
            return Holder("value", field=declared.DIMENSION[0])
        return holder.each
    table = fields_of(holder, node, verbs)
    if step in table:
        owner = declared.STEP if holder.kind == "entry" else holder.fields
        return _of_field(table[step], owner)
    if holder.kind == "entry" and "choose" in _words(node):
        return _list(ENTRY)
    return None


def field_at(root: Node | None, path: Path, verbs: Verbs = VERBS) -> Field | None:
    """The field that the last key of a path is."""
    if not path or isinstance(path[-1], int):
        return None
    holder, node = holder_at(root, path[:-1], verbs)
    return None if holder is None else fields_of(holder, node, verbs).get(path[-1])
