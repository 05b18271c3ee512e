"""What a writer is told of the word under the cursor, as Markdown."""

from __future__ import annotations

from builder.dryrun.kinds import VERBS
from builder.dryrun.run import DryRun
from builder.editor.lookup import names_beside
from builder.editor.tables import field_at
from builder.editor.where import Under, name_at, under
from builder.explain import Explained, explained, numbers_of
from builder.findings import Place
from builder.guide.actions import Verbs
from builder.guide.fields import Field, type_words
from builder.guide.model import Guide, Thing
from builder.guide.nodes import place_of

MOST = 6
"""How many steps or numbers are listed."""


def hover(guide: Guide, runs: tuple[DryRun, ...], file: str, text: str, line: int,
          column: int) -> tuple[str, Place] | None:  # fmt: skip
    """What is told at a line and column (from 0), and the place that it is about. None for nothing."""
    spot = under(text, line, column)
    if spot is None:
        return None
    place = place_of(spot.node, file)
    verbs = {**VERBS, **guide.own_verbs}
    field = field_at(spot.root, spot.path, verbs)
    if spot.is_key:
        if field is not None:
            return of_field(str(spot.path[-1]), field, verbs), place
        thing = guide.thing(str(spot.path[-1]))
        return (of_thing(thing), place) if thing is not None else None
    return of_value(guide, runs, spot, place, file, text, line, column) or (
        (of_field(_last_key(spot), owner, verbs), place)
        if (owner := _owner(spot, verbs)) is not None
        else None
    )


def _last_key(spot: Under) -> str:
    return next((str(step) for step in reversed(spot.path) if isinstance(step, str)), "")


def _owner(spot: Under, verbs: Verbs) -> Field | None:
    """The field that a value belongs to: the last key of its way."""
    path = spot.path
    while path and isinstance(path[-1], int):
        path = path[:-1]
    return field_at(spot.root, path, verbs)


def of_field(name: str, field: Field, verbs: Verbs = VERBS) -> str:
    """A field's description, what may be typed, its example; a verb's own words before it."""
    lines = [f"**{name}**"]
    if name in verbs:
        lines.append(verbs[name][0].about)
    lines += [field.about, f"*{type_words(field)}*" + (", needed" if field.required else "")]
    return "\n\n".join([*lines, f"Example: `{field.example}`"])


def of_thing(thing: Thing) -> str:
    """A thing in a few words."""
    form = f", {thing.form}" if thing.form != thing.sort else ""
    count = f", {thing.count} of them" if thing.count > 1 else ""
    return f"**{thing.id}**: {thing.name} ({thing.sort}{form}{count})"


def of_value(guide: Guide, runs: tuple[DryRun, ...], spot: Under, place: Place, file: str, text: str,
             line: int, column: int) -> tuple[str, Place] | None:  # fmt: skip
    """A number, or the thing or number that is named under the cursor."""
    lines = text.splitlines()
    named = name_at(lines[line], column) if line < len(lines) else None
    numbers = numbers_of(guide)
    if named is not None:
        name, start, end = named
        here = Place(file, line + 1, start + 1, end - start)
        if name in numbers and name != _path_at(guide, place):
            return of_number(explained(guide, runs, numbers, name)), here
        for beside in names_beside(spot):  # a zone of what the same action names
            if f"{beside}.{name}" in numbers:
                return of_number(explained(guide, runs, numbers, f"{beside}.{name}")), here
        thing = guide.thing(name) or guide.thing(name.partition(".")[0])
        if thing is not None:
            return of_thing(thing), here
    path = _path_at(guide, Place(file, line + 1, column + 1))
    found = next((n for n, value in numbers.items() if value.path == path), None) if path else None
    return (of_number(explained(guide, runs, numbers, found)), guide.paths[path]) if found else None


def _path_at(guide: Guide, place: Place) -> str:
    """The number that is written at a place; the shortest one, where one lies in another."""
    found = [
        (written.length, path)
        for path, written in guide.paths.items()
        if (written.file, written.line) == (place.file, place.line)
        and written.column <= place.column <= written.column + written.length
    ]
    return min(found)[1] if found else ""


def of_number(about: Explained) -> str:
    """Where a number comes from, and where it is read."""
    lines = [f"**{about.name}**: {about.shown}"]
    if about.written:
        lines.append(f"written as `{about.value.text}`")
    terms = about.terms or (() if about.written else about.grounds)
    if terms:
        lines.append("comes from " + ", ".join(f"`{t.name}` ({t.shown})" for t in terms[:MOST]))
    if about.value.why:
        lines.append(f"because {about.value.why}")
    if about.feeds:
        lines.append("worked out from it: " + _some([f"`{name}`" for name in about.feeds]))
    if about.steps:
        lines.append("read in " + _some([f"`{used.step}`" for used in about.steps]))
    return "\n\n".join(lines)


def _some(names: list[str]) -> str:
    more = f" and {len(names) - MOST} more" if len(names) > MOST else ""
    return ", ".join(names[:MOST]) + more
