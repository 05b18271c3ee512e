"""Waits as the dry runs show them: what each waits for, and how long each joint rests before it is worked."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from fractions import Fraction

import msgspec

from builder.dryrun.needs import Bears
from builder.dryrun.run import DryRun, Frame
from builder.guide.model import Guide

Pair = frozenset[str]

ASKED = {"set": ("carry", "work", "load", "coat"), "cured": ("load", "coat"), "dry": ("coat",)}
"""What a wait puts off: until glue has set even to be carried is better put off."""

LABEL = {"set": ("set", "dry"), "cured": ("full_cure", "full_cure"), "dry": ("set", "dry")}
"""The time of the label that a wait takes: of an adhesive, of a paint."""


class Waiting(msgspec.Struct, frozen=True):
    """One wait. `labels` are the times that it comes from (thing, field), `joints` the pairs of items that
    it lets grow strong; `seconds` is the longest of its label times and of the minutes that are written."""

    step: str
    until: str
    seconds: Fraction
    labels: tuple[tuple[str, str], ...]
    joints: tuple[Pair, ...]
    stated: bool


def waitings(guide: Guide, runs: Iterable[DryRun]) -> dict[str, Waiting]:
    """Every wait by the path of its action; what several routes show is put together."""
    found: dict[str, Waiting] = {}
    for run in runs:
        for frame in run.frames:
            if frame.action.verb.kind != "wait":
                continue
            one = _waiting(guide, frame)
            known = found.get(frame.action.path)
            if known is not None:
                one = Waiting(
                    one.step, one.until, max(one.seconds, known.seconds),
                    tuple(dict.fromkeys((*known.labels, *one.labels))),
                    tuple(dict.fromkeys((*known.joints, *one.joints))), one.stated,
                )  # fmt: skip
            found[frame.action.path] = one
    return found


def _waiting(guide: Guide, frame: Frame) -> Waiting:
    action, bench = frame.action, frame.before
    until = action.word("until")
    stated = action.value("for")
    seconds = stated.base or Fraction(0) if stated is not None else Fraction(0)
    labels: dict[tuple[str, str], None] = {}
    joints: dict[Pair, None] = {}
    below = _below(guide, frame)
    if until:
        of_glue, of_paint = LABEL[until]
        for joint in bench.joints:
            thing = guide.things.get(joint.adhesive)
            needed = thing.mm(of_glue) if thing is not None and until != "dry" else None
            if needed and {joint.a, joint.b} & below and joint.closed + needed > bench.clock:
                labels[joint.adhesive, of_glue] = None
                joints[frozenset((joint.a, joint.b))] = None
                seconds = max(seconds, needed)
        for coat in bench.coats:
            thing = guide.things.get(coat.paint)
            needed = thing.mm(of_paint) if thing is not None and until != "set" else None
            if needed and coat.item in below and coat.at + needed > bench.clock:
                labels[coat.paint, of_paint] = None
                seconds = max(seconds, needed)
    return Waiting(frame.step.id, until, seconds, tuple(labels), tuple(joints), stated is not None)


def _below(guide: Guide, frame: Frame) -> set[str]:
    """The items that a wait names, with all that sits on them."""
    bench = frame.before
    found: set[str] = set()
    for ref in frame.action.refs("what"):
        thing = guide.things.get(ref.id)
        base = thing.refs.get("base") if thing is not None and thing.form == "assembly" else None
        wanted = base.id if base is not None else ref.id
        for key, item in bench.items.items():
            if item.thing == wanted:
                found.update(bench.below(key))
    return found


def rests(run: DryRun, demands: Iterable[str]) -> dict[Pair, Fraction]:
    """How long each joint rests: seconds by the clock from its closing to the first of the demands on it.
    A joint of which nothing is asked before it has cured rests for good, and is not told."""
    asked = frozenset(demands)
    found: dict[Pair, Fraction] = {}
    for frame in run.frames:
        for need in frame.needs:
            if isinstance(need, Bears) and need.demand in asked and need.joint.adhesive:
                pair = frozenset((need.joint.a, need.joint.b))
                found.setdefault(pair, frame.before.clock - need.joint.closed)
    return found


def rest_less(waiting: Waiting, runs: Iterable[tuple[DryRun, DryRun]], names: Mapping[str, str]) -> bool:
    """Whether a joint that this wait served rests less in the newer dry runs before it is worked.
    `runs` are the older and the newer dry run of each route that both have, `names` gives the newer name of
    a renamed item. Of written minutes, which serve what no label knows, less is always less."""
    if waiting.stated or not waiting.joints:
        return True
    demands = ASKED.get(waiting.until, ())
    for old, new in runs:
        before, after = rests(old, demands), rests(new, demands)
        for joint in waiting.joints:
            other = frozenset(names.get(item, item) for item in joint)
            rest = after.get(other)
            if rest is not None and (joint not in before or rest < before[joint]):
                return True
    return False
