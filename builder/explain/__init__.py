"""What a number of a guide is about: where it was written, its sum, where it shows, what a slip would do."""

from __future__ import annotations

from collections.abc import Mapping

import msgspec

from builder.checks.judge import check
from builder.dryrun.run import DryRun, run_all
from builder.explain.numbers import numbers_of, told
from builder.explain.probe import Probe, probe, step_of
from builder.findings import Finding, Place
from builder.guide.model import Guide, Value
from builder.quantities.sums import Sum, read_sum, read_toleranced


class Term(msgspec.Struct, frozen=True):
    """A number that another one comes from: its name, how it is printed, where it was written."""

    name: str
    shown: str
    place: Place | None


class Used(msgspec.Struct, frozen=True):
    """A step whose actions read a number: its id, and the routes if not all go through it."""

    step: str
    routes: tuple[str, ...]


class Slip(msgspec.Struct, frozen=True):
    """A number one step off: what would be written, and what would be found."""

    sign: str
    step: str
    probe: Probe


class Explained(msgspec.Struct, frozen=True):
    """What is known of a number without drawing anything."""

    name: str
    value: Value
    shown: str
    terms: tuple[Term, ...]  # what its own sum names
    grounds: tuple[Term, ...]  # the written numbers that it comes from
    feeds: tuple[str, ...]  # the numbers that are worked out from it
    steps: tuple[Used, ...]

    @property
    def written(self) -> bool:
        """Whether it was written in the guide, and not worked out."""
        return bool(self.value.text)


def explained(guide: Guide, runs: tuple[DryRun, ...], numbers: Mapping[str, Value], name: str) -> Explained:
    """One number, by its name among the `numbers` of the guide."""
    value = numbers[name]
    own = {value.path} if value.text else set()
    terms = tuple(_term(each, numbers, guide) for each in _named(value))
    grounds = tuple(_term(each, numbers, guide) for each in sorted(value.reads - own))
    feeds = tuple(
        other for other, found in numbers.items()
        if value.path in found.reads and found is not value and found.path != value.path
    ) if value.text else ()  # fmt: skip
    return Explained(name, value, told(value, guide), terms, grounds, feeds, tuple(_steps(runs, value)))


def _named(value: Value) -> list[str]:
    """The names that a sum names, in its order."""
    if not value.text:
        return []
    read = read_sum(value.text)
    if not isinstance(read, Sum):
        whole = read_toleranced(value.text)
        read = getattr(whole, "value", read)
    return list(dict.fromkeys(name for name, _, _ in read.names)) if isinstance(read, Sum) else []


def _term(name: str, numbers: Mapping[str, Value], guide: Guide) -> Term:
    found = numbers.get(name)
    place = guide.paths.get(name)
    if found is None:
        found = next((each for each in numbers.values() if each.path == name), None)
    if found is None:
        return Term(name, "", place)
    return Term(name, told(found, guide), place or (found.at if found.text else None))


def _steps(runs: tuple[DryRun, ...], value: Value) -> list[Used]:
    """The steps whose frames rest on all the written numbers that a number comes from."""
    reads = value.reads or frozenset((value.path,))
    found: dict[str, list[str]] = {}
    for run in runs:
        for frame in run.frames:
            if reads <= frame.reads and run.route.name not in found.setdefault(frame.step.id, []):
                found[frame.step.id].append(run.route.name)
    return [Used(step, tuple(r) if len(r) < len(runs) else ()) for step, r in found.items() if r]


def slips(guide: Guide, explained: Explained) -> list[Slip]:
    """The number one step more and one step less. One that was worked out stands nowhere to be changed."""
    place = guide.paths.get(explained.value.path)
    if not explained.written or place is None:
        return []
    before: list[Finding] = check(guide, run_all(guide))
    step = step_of(explained.value, guide)
    tried = ((sign, probe(guide, before, place, explained.value, sign)) for sign in "+-")
    return [Slip(sign, step, made) for sign, made in tried if made is not None]


__all__ = ["Explained", "Slip", "Term", "Used", "explained", "numbers_of", "slips"]
