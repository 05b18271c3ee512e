"""Shared files of guides/common/: steps that several guides use, cautions that they name, verbs of their own.

A file is looked at when a guide asks for what it holds; what it holds is told by its first words.
"""

from __future__ import annotations

from collections.abc import Mapping

from builder.findings import Place, Related
from builder.guide.declared import SHARED
from builder.guide.desk import MOST_FINDINGS, Pairs, cut
from builder.guide.fields import by_name
from builder.guide.nodes import Node, compose, plain_breaks
from builder.guide.reading import Reading

PARAMETER_SORTS = ("material", "tool", "part", "material|tool", "part|tool")

_SHARED = by_name(SHARED)


class Shared:
    """A shared step: its parameters by kind, its steps' nodes, the text that they point into."""

    __slots__ = ("at", "file", "lost", "name", "params", "source", "steps")

    def __init__(self, name: str, file: str, params: dict[str, str], steps: Node | None, at: Place,
                 source: str, lost: frozenset[str]) -> None:  # fmt: skip
        self.name, self.file, self.params, self.steps, self.at = name, file, params, steps, at
        self.source, self.lost = source, lost


class Library:
    """The shared files beside a guide. `shared` gives the file of each shared step by its name."""

    def __init__(self, texts: Mapping[str, str], main: str) -> None:
        self.texts = {name: text for name, text in texts.items() if name != main and name.endswith(".yml")}
        self.shared: dict[str, str] = {}
        self.with_cautions: list[str] = []
        self.with_verbs: list[str] = []
        self._steps: dict[str, Shared | None] = {}
        self._files: dict[str, tuple[Pairs, Reading]] = {}
        for file, text in self.texts.items():
            shared = _name_in(plain_breaks(text))
            if shared:
                self.shared.setdefault(shared, file)
            if "\ncautions:" in f"\n{text}":
                self.with_cautions.append(file)
            if text.startswith("verbs:") or "\nverbs:" in text:
                self.with_verbs.append(file)

    def file(self, name: str, desk: Reading) -> tuple[Pairs, Reading]:
        """The pairs of a file, and the desk that reads it."""
        if name not in self._files:
            read = compose(self.texts[name], name)
            desk.findings.extend(read.findings[:MOST_FINDINGS])
            inner = desk.for_shared(name, {}, read.lost, read.text)
            pairs = Pairs()
            if read.node is not None:
                pairs = inner.known(inner.pairs(read.node, "a shared file"), _SHARED, "a shared file")
            self._files[name] = (pairs, inner)
        return self._files[name]

    def step(self, name: str, desk: Reading) -> Shared | None:
        """A shared step by name; None if its file could not be read."""
        if name not in self._steps:
            self._steps[name] = self._read(name, desk)
        return self._steps[name]

    def _read(self, name: str, desk: Reading) -> Shared | None:
        file = self.shared[name]
        pairs, inner = self.file(file, desk)
        if "steps" not in pairs:
            if pairs and pairs.whole and "steps" not in pairs.spoiled:
                first = next(iter(pairs.values()))[0]
                inner.fault("missing-field", first, f'the shared step "{cut(name)}" has no "steps"',
                            "Nothing would be done.", "Write `steps:` with at least one step.")  # fmt: skip
            return None
        params: dict[str, str] = {}
        takes = inner.pairs(pairs["takes"][1], "`takes`") if "takes" in pairs else Pairs()
        for param, (key, value) in takes.items():
            inner.new_id(key, "the name of a parameter")
            sort = inner.word_text(value, f'"{cut(param)}"')
            if sort and sort not in PARAMETER_SORTS:
                inner.fault("word", value, f'"{cut(sort)}" is not a kind of parameter',
                            "A parameter stands for an id of a stated kind.",
                            f"Write one of: {', '.join(PARAMETER_SORTS)}.")  # fmt: skip
                sort = ""
            params[param] = sort
        at = inner.place(pairs["shared"][1] if "shared" in pairs else pairs["steps"][0])
        for other in self.texts:
            if other != file and _name_in(self.texts[other]) == name:
                inner.fault("duplicate-id", at, f'another file holds a shared step "{cut(name)}" too',
                            "A guide could not say which it means.", "Give one of them another name.",
                            (Related(Place(other, 1, 1), "the other file"),))  # fmt: skip
        return Shared(name, file, params, pairs["steps"][1], at, inner.source, inner.lost)


def _name_in(text: str) -> str:
    """The name of the shared step that a file holds, from the line `shared: name`; empty if there is none."""
    for rest in f"\n{text}".split("\nshared:")[1:]:
        name = rest.partition("\n")[0].lstrip(" ")
        name = name[1:] if name.startswith(('"', "'")) else name
        for sign in "\"'#":
            name = name.partition(sign)[0]
        if name and not name[0].isspace():
            return name.split()[0]
    return ""
