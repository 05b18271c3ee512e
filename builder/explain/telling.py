"""What is known of a number, in words for a terminal."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from builder.dryrun.run import DryRun, run_all
from builder.explain import Explained, Slip, Term, explained, numbers_of, slips
from builder.explain.numbers import printed, told
from builder.explain.shows import Shown, drawings, pages, patterns, timed
from builder.findings import Finding, Place, Sources, on_routes
from builder.guide.model import Guide, Value
from builder.guide.wording import Book, title

Runs = tuple[DryRun, ...]

MOST = 8
"""How many lines of one kind are told; the rest is counted."""


def report(guide: Guide, name: str, quick: bool) -> str:
    """Everything of the number of this name; `quick` leaves out what has to be run or drawn again."""
    numbers = numbers_of(guide)
    runs = run_all(guide)
    about = explained(guide, runs, numbers, name)
    lines = [f"{about.name}: {about.shown}", *_where(guide, about)]
    lines += _terms("its sum names", about.terms)
    if not about.terms or not about.written:
        lines += _terms("it comes from", about.grounds)
    lines += _some("worked out from it", [f"{n}: {told(numbers[n], guide)}" for n in about.feeds])
    lines += _some("read in the steps", _steps(guide, about))
    if not quick:
        tried = slips(guide, about)
        lines += _shows(guide, runs, about, tried or _slips_of_ground(guide, runs, numbers, about))
        for slip in tried:
            lines += _slip(slip)
    return "\n".join(lines)


def _slips_of_ground(guide: Guide, runs: Runs, numbers: Mapping[str, Value], about: Explained) -> list[Slip]:
    """A number that was worked out is shown where it changes with one that it comes from."""
    for term in about.grounds:
        if term.name in numbers:
            found = slips(guide, explained(guide, runs, numbers, term.name))
            if found:
                return found
    return []


def _shows(guide: Guide, runs: Runs, about: Explained, tried: list[Slip]) -> Iterator[str]:
    if not tried:
        return
    other = tried[0].probe
    both = (guide, runs, other.guide, other.runs)
    if about.written:
        yield from _some("it makes longer or shorter the steps", timed(runs, other.runs))
    found = drawings(*both, {used.step: used for used in about.steps})
    yield from _some("shown in the drawings of", _texts(found, guide, about))
    if about.written:
        yield from _some("drawn in the patterns of", [each.where for each in patterns(*both)])
    yield from _some("shown on the pages", _texts(pages(*both), guide, about))


def _texts(found: list[Shown], guide: Guide, about: Explained) -> list[str]:
    """`jig_fins: 1/4 in (6.4 mm)`; of a number that was worked out only the texts that print it."""
    out = []
    for shown in found:
        texts = list(dict.fromkeys((before or "nothing").replace("\xa0", " ") for before, _ in shown.pairs))
        if not about.written:
            texts = [text for text in texts if any(half in text for half in printed(about.value, guide))]
        if texts:
            more = f" and {len(texts) - 2} more" if len(texts) > 2 else ""
            out.append(f"{shown.where}: {' / '.join(texts[:2])}{more}")
    return out


def _where(guide: Guide, about: Explained) -> Iterator[str]:
    value = about.value
    if not about.written:
        yield "  worked out, and written nowhere"
        return
    place = guide.paths.get(value.path, value.at)
    yield f"  written at {place}"
    line = Sources(guide.texts).line(place)
    if line is not None:
        yield f"    | {line.strip()}"
    if value.why:
        yield f"    because: {value.why}"
    if value.plus_minus is not None:
        yield f"    with its tolerance: {value.text}"


def _terms(head: str, terms: tuple[Term, ...]) -> Iterator[str]:
    if terms:
        yield f"  {head}:"
    for term in terms:
        at = f", written at {term.place}" if isinstance(term.place, Place) else ""
        yield f"    {term.name}: {term.shown or 'unknown'}{at}"


def _steps(guide: Guide, about: Explained) -> list[str]:
    book = Book(guide)
    titles = {step.id: title(step, book).text for step in guide.every_step()}
    return [
        f"{used.step} ({titles.get(used.step, '')})"
        + (f", {on_routes(used.routes)}" if used.routes else "")
        for used in about.steps
    ]


def _some(head: str, lines: list[str] | tuple[str, ...]) -> Iterator[str]:
    if lines:
        yield f"  {head}:"
        yield from (f"    {line}" for line in lines[:MOST])
    if len(lines) > MOST:
        yield f"    and {len(lines) - MOST} more"


def _slip(slip: Slip) -> Iterator[str]:
    way = "more" if slip.sign == "+" else "less"
    if not slip.probe.found:
        yield f"  if it were {slip.step} {way}: no check would tell"
        return
    yield f"  if it were {slip.step} {way}:"
    yield from _findings(slip.probe.found)


def _findings(found: tuple[Finding, ...]) -> Iterator[str]:
    for finding in found[:MOST]:
        yield f"    {finding.place}: {finding.severity.value}: {finding.message} [{finding.check}]"
        if finding.follows:
            yield f"      and {len(finding.follows)} that may follow from it"
