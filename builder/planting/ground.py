"""A guide as a planter sees it: its files as sheets, its actions with their nodes, and its dry runs.

The dry runs serve to find places where a change is a fault; whether it is told is for the checks.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction
from typing import NamedTuple

from builder.dryrun.bench import Wet
from builder.dryrun.effects import Close
from builder.dryrun.run import DryRun, Frame, run_all
from builder.guide.model import Action, Guide, Repeat, Step, Thing
from builder.planting.sheet import (
    Edit,
    MappingNode,
    Node,
    ScalarNode,
    SequenceNode,
    Sheet,
    pair_of,
    value_of,
)
from builder.quantities.units import Dimension
from builder.quantities.values import Quantity

SECTIONS = ("materials", "tools", "parts")
INCH = Fraction(127, 5)  # mm


class Spot(NamedTuple):
    """An action as written: the node, and its place in the list of actions."""

    action: Action
    step: Step
    sheet: Sheet
    items: SequenceNode
    number: int  # in that list
    node: MappingNode
    repeat: Repeat | None

    @property
    def things(self) -> tuple[str, ...]:
        """What an edit of the action lies in."""
        return (f"step {self.step.id}",)

    def value(self, name: str) -> Node | None:
        """The value of a field, by the name that is typed."""
        return value_of(self.node, name)

    @property
    def shares_a_sentence(self) -> bool:
        """Whether one sentence tells it together with another action."""
        near = self.items.value[self.number : self.number + 2]
        return any(value_of(each, "told above") is not None for each in near)

    @property
    def name(self) -> str:
        """The verb and the step, for a person."""
        return f"{self.action.verb.word} in {self.step.id}"


class Written(NamedTuple):
    """A number as typed: the scalar, its value in base units, the unit that it is typed in."""

    node: ScalarNode
    base: Fraction
    unit: str
    sheet: Sheet

    def becomes(self, base: Fraction) -> Edit:
        """Another number in the same unit; a tolerance behind it stays."""
        behind = "".join(self.sheet.source(self.node).partition("±")[1:])
        text = number_text(base, self.unit)
        return self.sheet.replace(self.node, f"{text} {behind}" if behind else text)


def number_text(base: Fraction, unit: str) -> str:
    """A number as a writer would type it: whole and fraction for inches, decimals for the rest."""
    size = _SIZES[unit]
    value = base / size
    if unit == "in" and value.denominator in (2, 4, 8, 16, 32, 64):
        whole, rest = divmod(value, 1)
        return f"{whole} {rest} in" if whole and rest else f"{rest or whole} in"
    if value.denominator == 1:
        return f"{value} {unit}"
    whole, part = divmod(round(value * 1000), 1000)
    return f"{whole}.{part:03}".rstrip("0").rstrip(".") + f" {unit}"


_SIZES = {
    "mm": Fraction(1), "cm": Fraction(10), "m": Fraction(1000), "in": INCH, "ft": 12 * INCH,
    "s": Fraction(1), "min": Fraction(60), "h": Fraction(3600), "deg": Fraction(1), "mL": Fraction(1),
}  # fmt: skip


class Ground:
    """Where faults can be planted. `joints` pairs each bead of glue with the placing that it serves."""

    def __init__(self, guide: Guide) -> None:
        self.guide = guide
        self.sheets: dict[str, Sheet] = {}
        for file in _files_used(guide):
            self.sheets[file] = Sheet(file, guide.texts[file])
        self.main = self.sheets[guide.file]
        self.runs: tuple[DryRun, ...] = run_all(guide)
        self._listed = _places(self.sheets)
        self.spots = tuple(self._each_spot())
        self.by_path = {spot.action.path: spot for spot in self.spots}

    @property
    def finest(self) -> Fraction:
        """The smallest step of the ruler, mm."""
        fine = getattr(self.guide.units, "finest", None)
        return fine.base if fine is not None else Fraction(1)

    # -- things -----------------------------------------------------------------------------------

    def thing_nodes(self, *sections: str) -> Iterator[tuple[Thing, ScalarNode, MappingNode]]:
        """Every written thing with its node, in the order written."""
        for section in sections or SECTIONS:
            listed = value_of(self.main.node, section)
            for key, node in listed.value if isinstance(listed, MappingNode) else ():
                thing = self.guide.things.get(key.value)
                if thing is not None and isinstance(node, MappingNode):
                    yield thing, key, node

    def thing_node(self, id: str) -> MappingNode | None:
        """The node of a thing."""
        return next((node for thing, _, node in self.thing_nodes() if thing.id == id), None)

    def number(self, node: Node | None, base: Fraction | None) -> Written | None:
        """A scalar as a typed number of that value; None if it is a sum, or not typed in a known unit."""
        if not isinstance(node, ScalarNode) or base is None:
            return None
        head = node.value.partition("±")[0].strip()
        unit = head.rpartition(" ")[2]
        if unit not in _SIZES or not head[:1].isdigit() or any(sign in head for sign in "+*()"):
            return None
        return Written(node, base, unit, self.main)

    def written(self, thing: Thing, field: str) -> Written | None:
        """A typed number of a thing, by the field's name; of an outline's too."""
        node = self.thing_node(thing.id)
        key = field.replace(" ", "_")
        base = thing.mm(key)
        return self.number(value_of(node, field), base) or self.number(value_of(node, "outline", field), base)

    # -- actions ----------------------------------------------------------------------------------

    def _each_spot(self) -> Iterator[Spot]:
        seen: set[tuple[str, int, int]] = set()
        for step in self.guide.every_step():
            for entry in step.actions:
                repeat = entry if isinstance(entry, Repeat) else None
                for action in entry.actions if isinstance(entry, Repeat) else (entry,):
                    key = (action.at.file, action.at.line, action.at.column)
                    found = self._listed.get(key)
                    if found is not None and key not in seen:
                        seen.add(key)
                        sheet, items, index = found
                        yield Spot(action, step, sheet, items, index, items.value[index], repeat)

    def of(self, *kinds: str) -> Iterator[Spot]:
        """The actions of these kinds, as written."""
        return (spot for spot in self.spots if spot.action.verb.kind in kinds)

    def frames(self, spot: Spot) -> Iterator[tuple[DryRun, int, Frame]]:
        """Where an action was carried out: its run, its number there, its frame."""
        for run in self.runs:
            for number, frame in enumerate(run.frames):
                if frame.action.at == spot.action.at:
                    yield run, number, frame

    def beads(self) -> Iterator[tuple[Spot, Spot, Wet]]:
        """(glue, placing, the glue) of each bead that some placing met, once for each two actions."""
        seen: set[tuple[str, str]] = set()
        for run in self.runs:
            for frame in run.frames:
                for effect in frame.effects:
                    wet = effect.wet if isinstance(effect, Close) else None
                    if wet is None:
                        continue
                    paths = (wet.cause.action, frame.action.path)
                    glue, placing = (self.by_path.get(path) for path in paths)
                    if glue is not None and placing is not None and paths not in seen:
                        seen.add(paths)
                        yield glue, placing, wet

    # -- steps ------------------------------------------------------------------------------------

    def step_node(self, step: Step) -> MappingNode | None:
        """The node of a step."""
        for node in self.sheets[step.at.file].nodes():
            pair = pair_of(node, "id")
            if pair is not None and _is_at(pair[1], step.at.line, step.at.column):
                assert isinstance(node, MappingNode)
                return node
        return None

    def own_steps(self) -> Iterator[tuple[Step, MappingNode]]:
        """The steps that stand in the guide's own file, with their nodes."""
        for step in self.guide.every_step():
            node = self.step_node(step) if not step.shared else None
            if node is not None:
                yield step, node

    def entries(self, word: str) -> Iterator[tuple[MappingNode, SequenceNode, int]]:
        """Entries of the steps that begin with a structure word, in the guide's own file."""
        steps = value_of(self.main.node, "steps")
        if isinstance(steps, SequenceNode):
            for index, node in enumerate(steps.value):
                if isinstance(node, MappingNode) and pair_of(node, word) is not None:
                    yield node, steps, index


def _files_used(guide: Guide) -> list[str]:
    used = [guide.file]
    for step in guide.every_step():
        if step.at.file not in used:
            used.append(step.at.file)
    return used


def _is_at(node: Node, line: int, column: int) -> bool:
    return bool(node.start_mark.line + 1 == line and node.start_mark.column + 1 == column)


def _places(
    sheets: Mapping[str, Sheet],
) -> dict[tuple[str, int, int], tuple[Sheet, SequenceNode, int]]:
    """Where each mapping of a list stands: file, line, column -> its sheet, list and number."""
    found: dict[tuple[str, int, int], tuple[Sheet, SequenceNode, int]] = {}
    for file, sheet in sheets.items():
        for node in sheet.nodes():
            if not isinstance(node, SequenceNode):
                continue
            for index, item in enumerate(node.value):
                if isinstance(item, MappingNode):
                    mark = item.start_mark
                    found[file, mark.line + 1, mark.column + 1] = (sheet, node, index)
    return found


def misspelt(word: str, known: Sequence[str], way: int = 0) -> str:
    """A word with a slip of the finger in it, that is no other known word; `way` tells slips apart."""
    slips = (word + word[-1], word[:1] + word, word[:-1] + word[-1] * 3, word[:2] + word[1:])
    for slip in (*slips[way:], *slips[:way]):
        if slip not in known:
            return slip
    return word + "q"


def quoted(text: str) -> str:
    """A text as YAML reads it anywhere."""
    inner = text.replace("\\", "\\\\").replace('"', '\\"')
    return f'"{inner}"'


__all__ = ["Dimension", "Ground", "Quantity", "Spot", "Written", "misspelt", "number_text", "quoted"]
