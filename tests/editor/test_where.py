"""What stands under a cursor, and what is being typed at it, in texts that are YAML and that are not yet."""

from __future__ import annotations

from pathlib import Path

import pytest

from builder.dryrun.kinds import VERBS
from builder.editor.tables import field_at, fields_of, holder_at
from builder.editor.where import name_at, scalars, typing, under
from builder.guide.own_verbs import of_folder
from builder.guide.plain import strict

ROOT = Path(__file__).parents[2]
GUIDES = sorted((ROOT / "guides").glob("*/guide.yml"))

TEXT = """title: A cart
parts:
  ring: {form: ring, outside: 20 mm, inside: 6 mm}
  rod:
    form: rod
    length: 2 * ring.outside
steps:
  - id: one
    title: Do it
    actions:
      - {slide: ring, over: rod, to: start of stop}
      - {wait for: ring, until: cured}
"""


RING = "  ring: {form: ring, outside: 20 mm, inside: 6 mm}"
SLIDE = "      - {slide: ring, over: rod, to: start of stop}"
WAIT = "      - {wait for: ring, until: cured}"


def cut(marked: str) -> tuple[str, int]:
    """A text without its cursor `|`, and where the cursor was."""
    return marked.replace("|", "", 1), marked.index("|")


@pytest.mark.parametrize(
    ("word", "path", "is_key"),
    [
        ("A cart", ("title",), False),
        ("rod:", ("parts", "rod"), True),
        ("6 mm", ("parts", "ring", "inside"), False),
        ("length", ("parts", "rod", "length"), True),
        ("over", ("steps", 0, "actions", 0, "over"), True),
        ("cured", ("steps", 0, "actions", 1, "until"), False),
        ("wait for", ("steps", 0, "actions", 1, "wait for"), True),
    ],
)
def test_what_is_under_the_cursor(word: str, path: tuple[object, ...], is_key: bool) -> None:
    line = next(n for n, each in enumerate(TEXT.splitlines()) if word in each)
    found = under(TEXT, line, TEXT.splitlines()[line].index(word) + 1)
    assert found is not None and (found.path, found.is_key) == (path, is_key)


def test_nothing_is_under_it_in_an_empty_place() -> None:
    assert under(TEXT, 99, 0) is None
    assert under("", 0, 0) is None


@pytest.mark.parametrize(
    ("old", "marked", "path", "is_key", "typed"),
    [
        # old: the line of TEXT that is replaced; marked: by what, with the cursor
        ("title: A cart", "ti|", ("",), True, "ti"),
        ("title: A cart", "title: A cart\n|", ("",), True, ""),
        ("    form: rod", "    form: r|", ("parts", "rod", "form"), False, "r"),
        ("    form: rod", "    form: |", ("parts", "rod", "form"), False, ""),
        ("    form: rod", "    fo|", ("parts", "rod", ""), True, "fo"),
        ("2 * ring.outside", "2 * ring.out|", ("parts", "rod", "length"), False, "2 * ring.out"),
        (RING, "  ring: {form: ring, out|}", ("parts", "ring", ""), True,
         "out"),
        (RING, "  ring: {form: ring, out|", ("parts", "ring", ""), True,
         "out"),
        (RING, "  ring: {form: |", ("parts", "ring", "form"), False, ""),
        (SLIDE, "      - {slide: ring, over: rod, to: start of st|",
         ("steps", 0, "actions", 0, "to"), False, "start of st"),
        (SLIDE, "      - {|}", ("steps", 0, "actions", 0, ""), True, ""),
        (SLIDE, "      - {|", ("steps", 0, "actions", 0, ""), True, ""),
        (SLIDE, "      - sl|", ("steps", 0, "actions", 0, ""), True, "sl"),
        (SLIDE, "      - {wait fo|", ("steps", 0, "actions", 0, ""), True,
         "wait fo"),
        (SLIDE, "      - {slide: [ring, r|", ("steps", 0, "actions", 0, "slide", 1),
         False, "r"),
        (WAIT, "      - {wait for: ring, until: |}", ("steps", 0, "actions", 1, "until"),
         False, ""),
        ("  - id: one", "  - i|", ("steps", 0, ""), True, "i"),
        ("title: A cart", 'title: "A # c|', ("title",), False, "A # c"),  # a sign in quotes is no comment
        (SLIDE, '      - {slide: ring, say: "It\'s {w|', ("steps", 0, "actions", 0, "say"), False, "It's {w"),
        (SLIDE, "      - {slide: ring, say: 'a [b', o|", ("steps", 0, "actions", 0, ""), True, "o"),
    ],
)  # fmt: skip
def test_what_is_being_typed(
    old: str, marked: str, path: tuple[object, ...], is_key: bool, typed: str
) -> None:
    assert TEXT.count(old) == 1
    text, offset = cut(TEXT.replace(old, marked))
    found = typing(text, offset)
    assert found is not None
    assert (found.path, found.is_key, found.typed) == (path, is_key, typed)


@pytest.mark.parametrize("marked", ["title: A  # he|re\n", "# |\n"])
def test_nothing_is_typed_in_a_comment(marked: str) -> None:
    assert typing(*cut(marked)) is None


def test_a_text_that_is_broken_below_is_read_down_to_the_cursor() -> None:
    text, offset = cut('title: A cart\nparts:\n  rod: {form: |}\nsteps: [}"\n')
    found = typing(text, offset)
    assert found is not None and found.path == ("parts", "rod", "form")


@pytest.mark.parametrize(
    ("line", "column", "name"),
    [("to: rod.length", 6, "rod.length"), ("to: rod", 4, "rod"), ("2 * rod", 1, None), ("a.b.c d", 7, "d")],
)
def test_the_name_at_a_column(line: str, column: int, name: str | None) -> None:
    found = name_at(line, column)
    assert (found[0] if found else None) == name


FIELDS = """title: A
dimensions:
  gap: 1 mm
  play: {is: 1 mm}
cautions:
  sun: {level: danger}
accepted:
  - {check: fit}
steps:
  - id: one
    why: So.
    note: Look.
    cautions: [{level: danger}]
    without caution: {caution: blade}
    actions:
      - repeat: fin
        actions:
          - {glue: fin, gently: {why: So.}}
"""


@pytest.mark.parametrize(
    ("path", "about"),
    [
        (("dimensions", "play", "is"), "The number."),
        (("dimensions", "gap"), None),  # a name, not a field
        (("cautions", "sun", "level"), "How bad it can be."),
        (("steps", 0, "cautions", 0, "level"), "How bad it can be."),
        (("accepted", 0, "check"), "The name of the check, as the finding shows it."),
        (("steps", 0, "why"), "Why it is done."),
        (("steps", 0, "note"), "Informs, never instructs."),
        (("steps", 0, "without caution", "caution"), "The key of the hazard."),
        (("steps", 0, "actions", 0, "repeat"), "The part whose copies are taken in turn."),
        (("steps", 0, "actions", 0, "actions", 0, "glue"), "What the glue is laid on."),
        (
            ("steps", 0, "actions", 0, "actions", 0, "gently", "why"),
            "The reason, which is printed for the reviewer.",
        ),
        ((), None),
        (("steps", 0), None),
    ],
)
def test_the_field_at_a_path(path: tuple[str | int, ...], about: str | None) -> None:
    found = field_at(strict(FIELDS), path)
    assert (found.about if found else None) == about


def test_a_dimension_is_a_number_where_it_is_no_mapping() -> None:
    holder, _ = holder_at(strict(FIELDS), ("dimensions", "gap"))
    assert holder is not None and holder.field is not None and holder.field.name == "is"
    holder, _ = holder_at(strict(FIELDS), ("dimensions", "play"))
    assert holder is not None and holder.kind == "fields"


@pytest.mark.parametrize("guide", GUIDES, ids=lambda path: path.parent.name)
def test_every_key_of_a_guide_is_a_declared_field_or_a_name(guide: Path) -> None:
    """The way to a table leads to every field: what is no field stands where names stand."""
    root = strict(guide.read_text("utf-8"))
    verbs = {**VERBS, **of_folder(guide.parents[1] / "common", VERBS)[0].rows}
    strange = []
    for path, is_key, _ in scalars(root):
        if is_key and field_at(root, path, verbs) is None:
            holder, node = holder_at(root, path[:-1], verbs)
            if holder is None or (holder.kind != "ids" and "choose" not in fields_of(holder, node, verbs)):
                strange.append(path)
    assert strange == []
