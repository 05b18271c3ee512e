"""Guide and dry runs -> findings: one fault, one finding, its consequences beneath it.

The seven rules: suppositions and nearest names are the run's and the reader's; unknown is contagious
(an unmet need is only recorded for known numbers); here are suspects and grounds, leftovers last, halves
that meet, and one place one finding.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping

from msgspec.structs import replace

from builder.checks import BENCH_RANK, GUIDE_CHECKS, ORDER, RUN_CHECKS, RUNS_CHECKS
from builder.checks.base import Check, Look
from builder.checks.usage import cautions_by_step, used_things
from builder.dryrun.effects import Make
from builder.dryrun.kinds import VERBS
from builder.dryrun.needs import Need
from builder.dryrun.run import DryRun, Frame, run_all
from builder.findings import Finding, Place, in_order
from builder.guide.model import Guide
from builder.guide.suspects import UNDONE, of_words
from builder.guide.wording.desk import Book

_RANK = {name: rank for rank, names in enumerate(ORDER) for name in names}


def check(
    guide: Guide, runs: tuple[DryRun, ...] | None = None, checks: tuple[Check, ...] | None = None
) -> list[Finding]:
    """All findings of a guide: what reading it found, and what its dry runs show to these checks (or all)."""
    made = run_all(guide) if runs is None else runs
    raw = [*_raw(guide, made, checks)]
    return judge(_beside_slips([*guide.findings, *raw], guide), len(made), guide)


def _line(guide: Guide, place: Place) -> str:
    lines = guide.texts.get(place.file, "").splitlines()
    return lines[place.line - 1] if 0 < place.line <= len(lines) else ""


SLIPS = ("yaml", "braces", "comment")  # of the text: what stands on the same line was not read as written


def _beside_slips(raw: list[Finding], guide: Guide) -> Iterator[Finding]:
    """Let what else is found on the line of a slip, or misses what stands in that line, rest on it."""
    if any(UNDONE in f.suspects for f in raw):
        raw = [_of_what_is_missing(f) for f in raw]
    slips = {(f.place.file, f.place.line) for f in raw if f.check in SLIPS}
    if not slips:
        yield from raw
        return
    for finding in raw:
        line = (finding.place.file, finding.place.line)
        if line not in slips:
            yield finding
            continue
        fact = frozenset((f"line:{line[0]}:{line[1]}",))
        if finding.check in SLIPS:
            words = re.findall(r"[a-z_][a-z0-9_]*", _line(guide, finding.place))
            doubts = of_words(words, guide.things, {*VERBS, *guide.own_verbs})
            yield replace(finding, suspects=finding.suspects | fact | doubts)
        else:
            yield replace(finding, rests_on=finding.rests_on | fact)


# What is told where nobody did something: a step that says nothing of what is done may have done it.
MISSING_DEEDS = (
    "attachable", "in-place", "masked", "never-removed", "never-used", "not-in-kit", "not-there",
    "nothing-dries", "preparation", "recoat", "station", "surface", "unknown-place", "used-before-made",
    "wait-in-words",
)  # fmt: skip


def _of_what_is_missing(finding: Finding) -> Finding:
    if finding.check not in MISSING_DEEDS:
        return finding
    return replace(finding, rests_on=finding.rests_on | {UNDONE})


def _raw(guide: Guide, runs: tuple[DryRun, ...], checks: tuple[Check, ...] | None) -> Iterator[Finding]:
    cautions = cautions_by_step(guide)
    makers, made = _makers(runs)
    look = Look(guide, runs, None, makers, cautions, used_things(guide, cautions), Book(guide), made)
    by_what: dict[str, list[Check]] = {"guide": [], "need": [], "run": [], "runs": []}
    for each in (*GUIDE_CHECKS, *RUN_CHECKS, *RUNS_CHECKS) if checks is None else checks:
        by_what[each.reads].append(each)
    by_need: Mapping[type[Need], list[Check]] | None = None
    for each in by_what["guide"]:
        yield from each.find(look)
    for run in runs:
        here = replace(look, run=run)
        route = (run.route.name,)
        for number, frame in enumerate(run.frames):
            for need in frame.needs:
                if need.met:
                    continue
                if by_need is None:
                    by_need = _by_need(checks)
                for each in by_need.get(type(need), ()):
                    finding = each.find(need, frame, here)
                    if finding is not None:
                        yield replace(finding, routes=route, order=number)
        for each in by_what["run"]:
            for finding in each.find(here):
                yield replace(finding, routes=route, order=len(run.frames))
    for each in by_what["runs"]:
        yield from each.find(look)


def _by_need(checks: tuple[Check, ...] | None) -> Mapping[type[Need], list[Check]]:
    """Need -> its checks, of these or of all. They are loaded here, when something is lacking for once."""
    if checks is None:
        from builder.checks.of_needs import NEED_CHECKS

        checks = NEED_CHECKS
    found: dict[type[Need], list[Check]] = {}
    for each in checks:
        if each.need is not None:
            found.setdefault(each.need, []).append(each)
    return found


def _makers(runs: tuple[DryRun, ...]) -> tuple[dict[str, tuple[str, ...]], dict[tuple[str, str], Frame]]:
    """Thing -> the names of the routes on which some action makes it; and (route, item) -> the first frame
    that makes it."""
    found: dict[str, list[str]] = {}
    first: dict[tuple[str, str], Frame] = {}
    for run in runs:
        for frame in run.frames:
            for effect in frame.effects:
                if isinstance(effect, Make):
                    first.setdefault((run.route.name, effect.item.key), frame)
                    routes = found.setdefault(effect.item.thing, [])
                    if run.route.name not in routes:
                        routes.append(run.route.name)
    return {thing: tuple(names) for thing, names in found.items()}, first


def judge(raw: Iterable[Finding], routes: int, guide: Guide | None = None) -> list[Finding]:
    """Merge what is said of one place, put leaders in order, fold consequences under them.

    What the `guide` accepts is marked; it neither leads nor hides another finding beneath it.
    """
    merged = _merged(raw, routes)
    if guide is not None and guide.accepted:
        from builder.checks.accept import accept
        from builder.checks.every import ALL

        merged = accept(merged, guide, {each.name for each in ALL})
    merged.sort(key=lambda f: (_rank(f), f.order if _rank(f) == BENCH_RANK else 0, f.place, f.check))
    leaders: list[Finding] = []
    suspects: list[frozenset[str]] = []
    for finding in merged:
        if finding.accepted is not None:
            leaders.append(finding)
            suspects.append(frozenset())
            continue
        leader = _leader(finding, leaders, suspects)
        if leader is None:
            leaders.append(finding)
            suspects.append(finding.suspects)
        else:
            leaders[leader] = replace(leaders[leader], follows=(*leaders[leader].follows, finding))
            suspects[leader] |= finding.suspects
    return in_order(leaders)


def _rank(finding: Finding) -> int:
    return _RANK.get(finding.check, BENCH_RANK)


def _leader(finding: Finding, leaders: list[Finding], suspects: list[frozenset[str]]) -> int | None:
    for number, leader in enumerate(leaders):
        if not suspects[number] & finding.rests_on:
            continue
        if leader.severity.rank > finding.severity.rank:
            continue  # an error never folds under a warning
        if finding.safety and not leader.safety:
            continue  # what can hurt is never hidden
        return number
    return None


def _merged(raw: Iterable[Finding], routes: int) -> list[Finding]:
    """One check, one written place, one fact: one finding over copies, routes and uses."""
    found: dict[tuple[object, ...], Finding] = {}
    counts: dict[tuple[object, ...], set[str]] = {}
    for finding in raw:
        key: tuple[object, ...] = (finding.check, finding.place)
        if finding.check in ("yaml", "unknown-key"):
            key = (*key, finding.message)
        counts.setdefault(key, set()).add(finding.message)
        if key not in found:
            found[key] = finding
            continue
        first = found[key]
        both = tuple(dict.fromkeys((*first.routes, *finding.routes)))
        found[key] = replace(
            first,
            routes=both,
            suspects=first.suspects | finding.suspects,
            rests_on=first.rests_on | finding.rests_on,
        )
    out = []
    for key, finding in found.items():
        others = len(counts[key]) - 1
        text = finding.message
        if others:
            text += f" (and so for {others} more)"
        named = () if len(finding.routes) == routes or not finding.routes else finding.routes
        out.append(replace(finding, message=text, routes=named))
    return out

