"""The writers' manual: prose from manual.md, tables from the one declaration of each field and verb."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from pathlib import Path

from msgspec.structs import replace

from builder.guide import declared
from builder.guide.actions import Verbs
from builder.guide.fields import Field, type_words
from builder.pages.prose import line, prose
from builder.pages.reference import FieldRow, FieldTable, ManualSection, ManualView, VerbRow
from builder.pages.trade_words import filled

TEXT = Path(__file__).with_name("manual.md")
HEADING = re.compile(r"^# (?P<heading>.+?) \{(?P<id>[a-z]+)(?:: (?P<tables>[A-Z_, ]+))?\}$", re.MULTILINE)
SPOKEN = {
    "DIMENSION": "A dimension", "VERB": "A verb of your own",
    "SHARED": "A shared step, in its own file",
    "GUIDE": "The guide", "TERM": "A word in terms",
    "MATERIAL": "A material", "LABEL": "Its label", "SOLD": "How it is sold",
    "TOOL": "A tool",
    "PART": "A part", "OUTLINE": "An outline", "STAGE": "A stage", "STEP": "A step", "REPEAT": "A repeat",
    "USE": "The use of a shared step", "CAUTION": "A caution", "EVERY_ACTION": "Every action",
}  # fmt: skip
"""The tables of `declared` that the manual prints, and their headings."""


def field_rows(fields: Iterable[Field], above: str = "") -> list[FieldRow]:
    """A row for each field; the fields of a nested one follow it, named with it."""
    rows: list[FieldRow] = []
    for field in fields:
        name = f"{above}{field.name}"
        rows.append(
            FieldRow(
                name=name,
                type=type_words(field).replace("`", ""),  # it is set as text, not as Markdown
                needed="yes" if field.required else "",
                description=line(field.about),
                example=field.example,
            )
        )
        rows += field_rows(field.inner, f"{name}: ")
    return rows


def by_verb(word: str, fields: Iterable[Field]) -> Iterator[Field]:
    """The fields of a verb; the first, which each verb of its kind calls by its own word, by that word."""
    for field in fields:
        yield replace(field, name=word) if field.name == "*" else field


def field_table(name: str) -> FieldTable:
    """The table of one kind of entry, by its name in `declared`."""
    heading = SPOKEN[name]
    return FieldTable(
        id=f"fields-{name.lower().replace('_', '-')}",
        heading=heading,
        rows=tuple(field_rows(getattr(declared, name))),
    )


def verb_rows(verbs: Verbs, sentences: Mapping[str, str]) -> list[VerbRow]:
    """A row for each verb. `sentences` holds, by verb, what a guide of this site says with it."""
    return [
        VerbRow(
            word=verb.word,
            others=", ".join(word for word in verb.says if word != verb.word),
            says=sentences.get(verb.word, ""),
            needs=verb.about + (f" At the bench it is: {verb.stands_for}." if verb.stands_for else ""),
            demand=verb.demand,
            rows=tuple(field_rows(by_verb(verb.word, fields))),
        )
        for verb, fields in verbs.values()
    ]


def manual(verbs: Verbs, sentences: Mapping[str, str]) -> ManualView:
    """The whole manual. Raises KeyError if manual.md asks for a table that `SPOKEN` does not name."""
    text = TEXT.read_text("utf-8")
    heads = list(HEADING.finditer(text))
    sections = []
    ends = [*(head.start() for head in heads[1:]), len(text)]
    for head, end in zip(heads, ends, strict=True):
        body = text[head.end() : end]
        names = [name.strip() for name in (head["tables"] or "").split(",") if name.strip()]
        sections.append(
            ManualSection(
                id=head["id"],
                heading=head["heading"],
                html=prose(filled(body)),
                tables=tuple(field_table(name) for name in names),
                verbs=tuple(verb_rows(verbs, sentences)) if head["id"] == "verbs" else (),
            )
        )
    return ManualView(sections=tuple(sections))
