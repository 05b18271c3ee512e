"""A library's own verbs: words for what the tool knows how to do, written in a shared file under `verbs`.

A kind of action is code; a verb is a row. So a workshop that says "press" where the tool says "slide, with a
tight fit" writes that row once, and every guide beside it may use the word. Bench, checks, sentences, schema
and editor then treat it as the verb that it stands for.
"""

from __future__ import annotations

import os
import re
from collections.abc import Mapping

import msgspec
from msgspec.structs import replace

from builder.findings import Finding, Place, Related
from builder.guide.actions import Verbs
from builder.guide.declared import ENTRY_WORDS, EVERY_ACTION, NOTE_WORDS, VERB
from builder.guide.desk import Pairs, cut
from builder.guide.fields import Field, Fields, Holds, by_name
from builder.guide.files import shared_texts
from builder.guide.library import Library
from builder.guide.model import Verb
from builder.guide.nodes import ScalarNode
from builder.guide.numbers import Numbers
from builder.guide.reading import READERS, Reading

_ROW = by_name(VERB)
_WORD = re.compile(r"[a-z]+(?: [a-z]+)*")
_SLOT = re.compile(r"\{([^{}]*)\}")
_NAMES = (Holds.THING, Holds.THINGS, Holds.NEW, Holds.AROUND, Holds.PROSE, Holds.SPECIAL, Holds.NESTED)


class OwnVerbs(msgspec.Struct, frozen=True):
    """The rows by word, as the tool's own stand in its table, and what each brings along: field -> text."""

    rows: Mapping[str, tuple[Verb, tuple[Field, ...]]]
    brought: Mapping[str, Mapping[str, str]]


NONE = OwnVerbs({}, {})


def own_verbs(library: Library, desk: Reading, verbs: Verbs) -> OwnVerbs:
    """The verbs of the shared files, with a finding for each that cannot be used."""
    rows: dict[str, tuple[Verb, tuple[Field, ...]]] = {}
    brought: dict[str, Mapping[str, str]] = {}
    taken = {field.name for _, spec in verbs.values() for field in spec}
    taken |= {field.name for field in EVERY_ACTION} | {*ENTRY_WORDS, *NOTE_WORDS, "repeat"}
    places: dict[str, Place] = {}
    for file in library.with_verbs:
        pairs, inner = library.file(file, desk)
        if "verbs" not in pairs:
            continue
        for word, (key, node) in inner.pairs(pairs["verbs"][1], "the verbs").items():
            if not _may_be_a_verb(word, key, inner, verbs, taken, places):
                continue
            places[word] = inner.place(key)
            row = inner.known(inner.pairs(node, f'the verb "{cut(word)}"'), _ROW, "a verb")
            inner.required(row, _ROW, node, f'the verb "{cut(word)}"')
            made = _row(word, row, inner, verbs, file)
            if made is not None:
                rows[word], brought[word] = made
    return OwnVerbs(rows, brought)


def of_folder(folder: str | os.PathLike[str], verbs: Verbs) -> tuple[OwnVerbs, list[Finding]]:
    """The verbs of a folder of shared files, for the schema; and what is wrong with them."""
    texts, findings = shared_texts(folder)
    numbers = Numbers(findings)
    desk = numbers.reading = Reading("", numbers, findings, {})
    return own_verbs(Library(texts, ""), desk, verbs), findings


def _may_be_a_verb(word: str, key: ScalarNode, desk: Reading, verbs: Verbs, taken: set[str],
                   places: Mapping[str, Place]) -> bool:  # fmt: skip
    if not _WORD.fullmatch(word) or len(word) > 30:
        desk.fault("bad-id", key, f'"{cut(word)}" cannot be a verb',
                   "A verb is read aloud as the first word of an action.",
                   "Use small letters, and spaces between several words.")  # fmt: skip
    elif word in verbs:
        desk.fault("duplicate-id", key, f'"{word}" is a verb that the tool has already',
                   "A guide could not say which it means.",
                   "Use the tool's verb, or another word.")  # fmt: skip
    elif word in places:
        desk.fault("duplicate-id", key, f'another file has a verb "{word}" too',
                   "A guide could not say which it means.", "Give one of them another word.",
                   (Related(places[word], "the other one"),))  # fmt: skip
    elif word in taken:
        desk.fault("duplicate-id", key, f'"{word}" is the name of a field of an action',
                   "An action that begins with it could not be told from one that has the field.",
                   "Use another word.")  # fmt: skip
    else:
        return True
    return False


def _row(word: str, row: Pairs, desk: Reading, verbs: Verbs,
         file: str) -> tuple[tuple[Verb, tuple[Field, ...]], Mapping[str, str]] | None:  # fmt: skip
    if "stands for" not in row:
        return None
    meant = desk.word_text(row["stands for"][1], "`stands for`")
    if meant not in verbs:
        guess = desk.nearest(meant, verbs) if meant else None
        desk.fault("unknown-verb", row["stands for"][1], f'"{cut(meant)}" is not a verb of the tool',
                   "The dry run would not know what is done.",
                   f"Did you mean `{guess}`?" if guess else f"Known are: {', '.join(verbs)}.")  # fmt: skip
        if guess is None:
            return None
        meant = guess
    base, spec = verbs[meant]
    own = tuple(replace(f, name="*") if f.name == meant else f for f in spec)
    fields = by_name(tuple(f for f in own if f.name != "*"))
    brought = _brought(row, desk, fields, meant)
    says = desk.words(row["says"][1], "`says`") if "says" in row else ()
    verb = replace(
        base,
        word=word,
        phrase=_phrase(word, row, desk, base, fields),
        says=tuple(dict.fromkeys((word, *says))),
        about=desk.text(row["about"][1], "`about`") if "about" in row else base.about,
        source="the library",
        stands_for=meant,
        doing=desk.text(row["doing"][1], "`doing`") if "doing" in row else "",
        file=file,
    )
    settled = tuple(replace(f, required=False) if f.name in brought else f for f in own)
    return (verb, settled), brought


def _brought(row: Pairs, desk: Reading, fields: Fields, meant: str) -> dict[str, str]:
    """The fields that the verb brings along: words and numbers, no names, which only a guide has."""
    if "brings" not in row:
        return {}
    found: dict[str, str] = {}
    inner = desk.pairs(row["brings"][1], "`brings`")
    for name, (key, node) in desk.known(inner, fields, f'"{meant}"').items():
        field = fields[name]
        if field.holds in _NAMES:
            desk.fault("wrong-sort", key,
                       f'a verb cannot bring "{name}" along: it names what only a guide has',
                       "The verb serves every guide beside the file.",
                       "Write it in the action.")  # fmt: skip
        elif not isinstance(node, ScalarNode):
            desk.fault("shape", node, f'"{name}" is one word or number here', "The verb brings one along.",
                       "Write it without brackets.")  # fmt: skip
        else:
            before = len(desk.findings)
            READERS[field.holds](desk, field, node, f"verbs.{name}")
            if len(desk.findings) == before:
                found[name] = node.value
    return found


def _phrase(word: str, row: Pairs, desk: Reading, base: Verb, fields: Fields) -> str:
    """The skeleton of its sentence: as written, or that of the verb it stands for with its own word first."""
    own = f"{word} {base.phrase.partition(' ')[2]}"
    if "sentence" not in row:
        return own
    node = row["sentence"][1]
    text = desk.text(node, "`sentence`")
    slots = [slot.strip().replace(" ", "_") for slot in _SLOT.findall(text)]
    keys = ["what", *(field.key for field in fields.values())]
    for slot in dict.fromkeys(slots):
        if slot not in keys:
            guess = desk.nearest(slot, keys)
            desk.fault("unknown-name", node, f'`{base.word}` has no field "{cut(slot)}"',
                       "The sentence would have a hole there.",
                       f"Did you mean `{guess}`?" if guess else f"It has: {', '.join(keys)}.")  # fmt: skip
            return own
    if "what" not in slots or not _WORD.match(text):
        desk.fault("word", node, "a sentence begins with its verb and tells `{what}`",
                   "Otherwise nobody reads what is done, and to what.", f"Write `{own}`.")  # fmt: skip
        return own
    return _SLOT.sub(lambda m: "{" + m[1].strip().replace(" ", "_") + "}", text)
