"""What a comparison looks up while it words its changes: names, step numbers, shown values, of both sides."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cached_property

from builder.dryrun.run import DryRun
from builder.guide.model import Step, Thing, Value
from builder.quantities.exact import Exact
from builder.quantities.show import Units, show_toleranced, tell
from builder.quantities.units import Dimension
from builder.quantities.values import Quantity
from builder.revisions.change import NOTHING
from builder.revisions.edition import Edition
from builder.revisions.edits import Rename
from builder.revisions.facts import Path
from builder.revisions.match import Matched
from builder.revisions.waits import Waiting, waitings


class Desk:
    """Both editions and how their names meet. Ids are the older ones unless a method says otherwise."""

    def __init__(self, old: Edition, new: Edition, pairs: Matched) -> None:
        self.old, self.new, self.pairs = old, new, pairs
        self.forth: dict[tuple[str, str], str] = {
            (rename.path[0], rename.path[1]): rename.name for rename in pairs.renames if len(rename.path) == 2
        }

    @property
    def renames(self) -> tuple[Rename, ...]:
        """What got another name."""
        return self.pairs.renames

    def name(self, kind: str, id: str) -> str:
        """The newer id."""
        return self.forth.get((kind, id), id)

    @cached_property
    def back(self) -> Mapping[tuple[str, str], str]:
        """(kind, newer id) -> older id, for what was renamed."""
        return {(kind, name): id for (kind, id), name in self.forth.items()}

    # -- routes -----------------------------------------------------------------------------------

    def option(self, choice: str, option: str) -> str:
        """The newer id of an option of a choice."""
        return next((r.name for r in self.renames if r.path == ("choice", choice, option)), option)

    @cached_property
    def routes(self) -> tuple[tuple[DryRun, DryRun], ...]:
        """The dry runs before and after that agree in every choice that both guides leave open."""
        found = []
        for old in self.old.runs:
            made = {self.name("choice", c): self.option(c, option) for c, option in old.route.options.items()}
            for new in self.new.runs:
                if all(new.route.options.get(choice, option) == option for choice, option in made.items()):
                    found.append((old, new))
        return tuple(found)

    # -- things -----------------------------------------------------------------------------------

    def thing(self, id: str) -> tuple[Thing | None, Thing | None]:
        """A thing before and after."""
        return self.old.guide.things.get(id), self.new.guide.things.get(self.name("thing", id))

    def called(self, id: str) -> str:
        """What a reader calls a thing now."""
        before, after = self.thing(id)
        thing = after or before
        return thing.name if thing is not None else id

    def hazards(self, id: str) -> tuple[tuple[str, ...], tuple[str, ...]]:
        """What a thing can do to a person, before and after."""
        return self.old.hazards.get(id, ()), self.new.hazards.get(self.name("thing", id), ())

    # -- steps ------------------------------------------------------------------------------------

    def step(self, id: str) -> tuple[Step | None, Step | None]:
        """A step before and after."""
        return self.old.steps.get(id), self.new.steps.get(self.name("step", id))

    def at(self, id: str) -> str:
        """`Step 7, Glue the fins`; of a step that is gone, `Step 7 of revision 3, Glue the fins`."""
        name = self.name("step", id)
        side, step, of = self.new, name, ""
        if name not in self.new.steps:
            side, step, of = self.old, id, f" of {self.old.label}"
        route = f" ({side.only[step]})" if step in side.only else ""
        return f"Step {side.numbers.get(step, '?')}{of}{route}, {side.title(step)}"

    @cached_property
    def waits(self) -> tuple[Mapping[str, Waiting], Mapping[str, Waiting]]:
        """Every wait by the path of its action, before and after."""
        return waitings(self.old.guide, self.old.runs), waitings(self.new.guide, self.new.runs)

    # -- values -----------------------------------------------------------------------------------

    def values(self, path: Path) -> tuple[Value | None, Value | None]:
        """The number behind a fact, before and after."""
        return self.old.facts.values.get(path), self.pairs.new.values.get(path)

    def shown(self, path: Path, before: str | None, after: str | None) -> tuple[str, str]:
        """A fact before and after as a reader sees it: numbers in both units, else its text."""
        old, new = self.values(path)
        return (
            show(old, self.old, before) if before is not None else NOTHING,
            show(new, self.new, after) if after is not None else NOTHING,
        )


def capital(text: str) -> str:
    """The text with a capital at its beginning."""
    return text[:1].upper() + text[1:]


def show(value: Value | None, edition: Edition, text: str = "") -> str:
    """A number as it is printed; the text as it was written if it has no value."""
    if value is None or value.quantity is None or value.text.startswith("±"):
        return text
    units = edition.guide.units
    assert isinstance(units, Units)
    quantity = value.quantity
    if value.plus_minus is not None:
        off = Quantity(Exact.of(value.plus_minus), quantity.dimension, quantity.unit)
        return show_toleranced(quantity, off, units, typed=value.typed)
    if quantity.dimension in (Dimension.COUNT, Dimension.NUMBER):
        return str(quantity.base)
    return tell(quantity, units, typed=True)
