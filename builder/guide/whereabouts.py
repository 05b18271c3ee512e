"""What stands at a place of a guide, by name: the number, the action, the step or the thing, the section."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterator

from builder.findings import Place
from builder.guide.model import Guide


class Whereabouts:
    """Names of the places of one guide. A step of a shared file stands there under the id of each use."""

    def __init__(self, guide: Guide) -> None:
        self.guide = guide
        self._anchors: dict[str, list[tuple[int, int, str]]] = {}
        for place, name in _anchors(guide):
            self._anchors.setdefault(place.file, []).append((place.line, place.column, name))
        for anchors in self._anchors.values():
            anchors.sort(key=lambda a: a[:2])
        self._written: dict[str, list[tuple[Place, str]]] = {}
        for name, place in _written(guide):
            self._written.setdefault(f"{place.file}:{place.line}", []).append((place, name))

    def at(self, place: Place) -> tuple[str, ...]:
        """What a place belongs to, the innermost first: `body.length`, `body`."""
        inner = [
            (found.length, name)
            for found, name in self._written.get(f"{place.file}:{place.line}", ())
            if found.column <= place.column < found.column + found.length
        ]
        names = [name for _, name in sorted(inner, key=lambda each: each[0])]
        return tuple(dict.fromkeys((*names, *self._owners(place))))

    def _owners(self, place: Place) -> list[str]:
        """The step, thing or section that begins last before a place; several for a shared step."""
        anchors = self._anchors.get(place.file, [])
        number = bisect_right(anchors, (place.line, place.column), key=lambda a: a[:2])
        if not number:
            return []
        line, column, _ = anchors[number - 1]
        return [name for at, there, name in anchors if (at, there) == (line, column)]

    def names(self) -> Iterator[str]:
        """Every name that `at` may give, sections and things first."""
        for anchors in self._anchors.values():
            yield from (name for _, _, name in anchors)
        for written in self._written.values():
            yield from (name for _, name in written)


def _anchors(guide: Guide) -> Iterator[tuple[Place, str]]:
    """Where each section, thing and step begins. What stands before it on its line belongs to it too."""
    for name, place in guide.where.items():
        yield place, name.replace(" ", "_")
    for thing in guide.things.values():
        if not thing.blank_of:
            yield thing.at, thing.id
    for choice in guide.choices.values():
        yield choice.at, choice.id
    for step in guide.every_step():
        first = min((step.at, *step.where.values()))
        yield Place(first.file, first.line, 1), step.id


def _written(guide: Guide) -> Iterator[tuple[str, Place]]:
    """The places of numbers and actions: what begins and ends on one line."""
    yield from guide.paths.items()
    for step in guide.every_step():
        for action in step.each_action():
            yield action.path, action.at
            for field, place in action.where.items():
                yield f"{action.path}.{field}", place
