"""Words that part ways with what is done: typed numbers, wrong directions, instructions in notes."""

from __future__ import annotations

from collections.abc import Iterator

from builder.guide.model import Prose
from builder.guide.wording import Book, sentence
from builder.planting.ground import Ground, Spot, misspelt, quoted
from builder.planting.kind import Kind, Plant
from builder.planting.sheet import ScalarNode, SequenceNode, value_of
from builder.trade.ends import opposite

SIDES = {"inside": "outside", "outside": "inside"}


def _texts(ground: Ground, *fields: str) -> Iterator[tuple[Spot, str, ScalarNode]]:
    for spot in ground.spots:
        for field in fields:
            node = spot.value(field)
            if isinstance(node, ScalarNode) and not spot.step.shared:
                yield spot, field, node


def _notes(ground: Ground) -> Iterator[tuple[str, ScalarNode]]:
    """The notes of the guide's own steps, by step."""
    for step, node in ground.own_steps():
        actions = value_of(node, "actions")
        for each in actions.value if isinstance(actions, SequenceNode) else ():
            text = value_of(each, "note")
            if isinstance(text, ScalarNode):
                yield step.id, text


def _added(ground: Ground, text: str) -> Iterator[Plant]:
    for step, node in _notes(ground):
        edit = ground.main.replace(node, quoted(f"{node.value} {text}"))
        yield Plant(f"a note of {step}", (f"step {step}", f"note {step}"), (edit,))


def number_in_title(ground: Ground) -> Iterator[Plant]:
    """A number is typed into a title."""
    for step, node in ground.own_steps():
        title = value_of(node, "title")
        if isinstance(title, ScalarNode):
            edit = ground.main.replace(title, quoted(f"{title.value} for 3 builders"))
            yield Plant(f"the title of {step.id}", (f"step {step.id}",), (edit,))


def number_in_note(ground: Ground) -> Iterator[Plant]:
    """A number is typed into a note."""
    for step, node in _notes(ground):
        edit = ground.main.replace(node, quoted(f"{node.value} It is 12 mm off."))
        yield Plant(f"a note of {step}", (f"step {step}",), (edit,))


def number_in_else(ground: Ground) -> Iterator[Plant]:
    """A number is typed into what is done if a measure is off."""
    for spot, _, node in _texts(ground, "else"):
        edit = spot.sheet.replace(node, quoted(f"{node.value} It takes two tries."))
        yield Plant(f"the else of {spot.name}", spot.things, (edit,))


def number_in_missed(ground: Ground) -> Iterator[Plant]:
    """A number is typed into what is done if a wait was too long."""
    for spot, _, node in _texts(ground, "if missed"):
        edit = spot.sheet.replace(node, quoted(f"{node.value} Even 40 minutes do no harm."))
        yield Plant(f"the if missed of {spot.name}", spot.things, (edit,))


def _says(ground: Ground) -> Iterator[tuple[Spot, ScalarNode]]:
    for spot, _, node in _texts(ground, "say"):
        if not spot.shares_a_sentence and len(node.value.split()) < 19:  # longer is another fault
            yield spot, node


def number_in_say(ground: Ground) -> Iterator[Plant]:
    """A number is typed into a sentence of the writer's own."""
    for spot, node in _says(ground):
        if len(node.value.split()) > 15:  # a sentence that grows too long is another fault
            continue
        text = node.value.rstrip(".") + ", 5 mm deep."
        yield Plant(f"the say of {spot.name}", spot.things, (spot.sheet.replace(node, quoted(text)),))


def say_turned(ground: Ground) -> Iterator[Plant]:
    """A sentence names the other side than its action."""
    for spot, node in _says(ground):
        for side, other in SIDES.items():
            if side in spot.action.where and f" {side} " in node.value:
                text = node.value.replace(f" {side} ", f" {other} ", 1)
                yield Plant(f"the say of {spot.name}", spot.things, (spot.sheet.replace(node, quoted(text)),))
        for field in ("from", "towards"):
            end = spot.action.word(field)
            other_end = opposite(end) if end else None
            if other_end and "{" + field + "}" in node.value:
                text = node.value.replace("{" + field + "}", f"{other_end} end", 1)
                yield Plant(f"the say of {spot.name}", spot.things, (spot.sheet.replace(node, quoted(text)),))


def say_short(ground: Ground) -> Iterator[Plant]:
    """A sentence leaves out with what the work is done."""
    for spot, node in _says(ground):
        for tail in (" with {with}", " with the {with}"):
            if tail in node.value:
                text = node.value.replace(tail, "", 1)
                yield Plant(f"the say of {spot.name}", spot.things, (spot.sheet.replace(node, quoted(text)),))


def say_stranger(ground: Ground) -> Iterator[Plant]:
    """A sentence refers to what is not there."""
    for spot, node in _says(ground):
        text = node.value.rstrip(".") + ", by the {nothing_of_that_name}."
        yield Plant(f"the say of {spot.name}", spot.things, (spot.sheet.replace(node, quoted(text)),))


def say_misspelt(ground: Ground) -> Iterator[Plant]:
    """A sentence misspells what it refers to."""
    for spot, node in _says(ground):
        prose: Prose | None = spot.action.say
        names = [p[0] for p in prose.pieces if isinstance(p, tuple)] if prose is not None else []
        for name in names:
            wrong = misspelt(name, list(ground.guide.things))
            text = node.value.replace("{" + name + "}", "{" + wrong + "}", 1)
            yield Plant(f"the say of {spot.name}", spot.things, (spot.sheet.replace(node, quoted(text)),))


def say_other_verb(ground: Ground) -> Iterator[Plant]:
    """A sentence tells another action than its own."""
    for spot, node in _says(ground):
        first = node.value.split(" ")[0]
        if first.lower() in spot.action.verb.says and " and " not in node.value:
            text = node.value.replace(first, "Admire", 1)
            yield Plant(f"the say of {spot.name}", spot.things, (spot.sheet.replace(node, quoted(text)),))


def say_as_generated(ground: Ground) -> Iterator[Plant]:
    """A sentence that the tool would have written itself."""
    book = Book(ground.guide)
    for spot in ground.spots:
        if spot.step.shared or spot.action.say is not None or not spot.node.flow_style:
            continue
        said = sentence(spot.action, book).text
        for field in spot.action.fields:
            for ref in spot.action.refs(field):
                name = ground.guide.things[ref.id].name if ref.id in ground.guide.things else ""
                word = spot.action.verb.word if field == "what" else field
                if name and said.count(f"the {name}") == 1:
                    said = said.replace(f"the {name}", f"the {{{word}}}")
        told = {"what", "into", "over", "onto", "from", "towards", "fit"} >= set(spot.action.fields)
        if told and said.count("{") == sum(len(spot.action.refs(f)) for f in spot.action.fields):
            edit = spot.sheet.with_pair(spot.node, f"say: {quoted(said)}")
            yield Plant(spot.name, spot.things, (edit,))


def order_in_note(ground: Ground) -> Iterator[Plant]:
    """A note tells the builder to do something."""
    return _added(ground, "Press it flat with both thumbs and turn it over.")


def warning_in_note(ground: Ground) -> Iterator[Plant]:
    """A warning is hidden in a note."""
    return _added(ground, "Careful, the blade is sharp and can cut a finger.")


def do_known_verb(ground: Ground) -> Iterator[Plant]:
    """A verb that the tool knows is told in free words."""
    for spot in ground.of("do"):
        node = spot.value("do")
        if isinstance(node, ScalarNode) and not spot.step.shared:
            first = node.value.split(" ")[0]
            edit = spot.sheet.replace(node, quoted(node.value.replace(first, "Glue", 1)))
            yield Plant(spot.name, spot.things, (edit,))


def do_too_often(ground: Ground) -> Iterator[Plant]:
    """Too much is told in free words."""
    items = next((s.items for s in ground.spots if not s.step.shared and not s.items.flow_style), None)
    if items is not None:
        sheet = next(s.sheet for s in ground.spots if s.items is items)
        line = '{do: "Look at the work from all sides"}'
        column = " " * (items.value[0].start_mark.column - 2)
        text = "".join(f"{column}- {line}\n" for _ in range(1 + len(ground.spots) // 7))
        step = next(s.step.id for s in ground.spots if s.items is items)
        yield Plant(step, (f"step {step}",), sheet.with_item(items, len(items.value), text))


def else_left_out(ground: Ground) -> Iterator[Plant]:
    """Nobody says what is done if a measure is off."""
    for spot in ground.of("verify"):
        if spot.value("else") is not None and not spot.step.shared:
            yield Plant(spot.name, spot.things, spot.sheet.without_pair(spot.node, "else"))


KINDS = (
    Kind("number typed in a title", ("say-number",), number_in_title),
    Kind("number typed in a note", ("say-number",), number_in_note),
    Kind("number typed in an else", ("say-number",), number_in_else),
    Kind("number typed in an if missed", ("say-number",), number_in_missed),
    Kind("number typed in a say", ("say-number",), number_in_say),
    Kind("say with the other side", ("say-direction",), say_turned),
    Kind("say that leaves out a tool", ("say-missing",), say_short),
    Kind("say that refers to nothing", ("say-reference",), say_stranger),
    Kind("say with a misspelt reference", ("say-reference",), say_misspelt),
    Kind("say with another verb", ("say-verb",), say_other_verb),
    Kind("say as the tool would word it", ("say-same",), say_as_generated, "note"),
    Kind("instruction in a note", ("note-instruction",), order_in_note, "warning"),
    Kind("warning in a note", ("note-warning",), warning_in_note),
    Kind("known verb in free words", ("do-share",), do_known_verb, "warning"),
    Kind("too much in free words", ("do-share",), do_too_often, "warning"),
    Kind("verify without an else", ("else-missing",), else_left_out, "warning"),
)
