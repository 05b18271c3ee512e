"""guides/<name>/guide.yml and the shared files it uses -> Guide.

Files are read by `load`; `read` is pure: texts in, Guide out. Whatever is wrong becomes a finding of
the guide, and the rest is read all the same.
"""

from __future__ import annotations

import itertools
import os
from collections.abc import Mapping

import msgspec

from builder.findings import Finding, Place, Related
from builder.guide.actions import Names, Verbs
from builder.guide.approvals import accepted_in, signed_in
from builder.guide.declared import DIMENSION, GUIDE
from builder.guide.desk import MOST_FINDINGS, Pairs, cut
from builder.guide.fields import by_name
from builder.guide.files import load, shown
from builder.guide.head import (
    nested,
    read_choices,
    read_dimensions,
    read_finished,
    read_revision,
    read_units,
    texts_of,
)
from builder.guide.library import Library
from builder.guide.model import (
    Caution,
    Choice,
    Choose,
    Guide,
    Ref,
    Route,
    Stage,
    Step,
    Thing,
    Value,
)
from builder.guide.nodes import (
    MappingNode,
    Node,
    ScalarNode,
    SequenceNode,
    compose,
    error,
    is_null,
    plain_breaks,
)
from builder.guide.numbers import Numbers
from builder.guide.raw import SECTIONS
from builder.guide.reading import Reading
from builder.guide.step_cautions import read_caution
from builder.guide.steps import Entries, also
from builder.guide.suspects import of_words
from builder.guide.terms import read_terms
from builder.guide.things import build, copy_likes, register

MOST_ROUTES = 8
TEXT_CHECKS = ("alias", "comment", "tag", "yaml")  # what they stand at has been told

_GUIDE = by_name(GUIDE)
_UNITS, _FINISHED = by_name(_GUIDE["units"].inner), by_name(_GUIDE["finished"].inner)
_DIMENSION = by_name(DIMENSION)


def read_guide(path: str | os.PathLike[str], verbs: Verbs) -> Guide:
    """Read a guide from disk: its folder, or its file."""
    texts, main, findings = load(path)
    folder, name = os.path.split(os.path.abspath(os.fspath(path)))
    if name == "guide.yml":
        name = os.path.basename(folder)
    guide = read(texts, main, verbs, name.removesuffix(".yml"), findings)
    missing = []
    for word, name in guide.prose_files.items():
        if word not in guide.prose:
            missing.append(error(
                "unreadable", guide.where[word], f'there is no file "{cut(name)}" beside the guide',
                "The page would be empty.", "Write the file, or take the line out."))  # fmt: skip
    return msgspec.structs.replace(guide, findings=(*guide.findings, *missing)) if missing else guide


def read(texts: Mapping[str, str], main: str, verbs: Verbs, id: str,
         findings: list[Finding] | None = None) -> Guide:
    """Texts by file name -> Guide. `main` is the name of the guide's own text."""
    found: list[Finding] = list(findings or [])
    paths: dict[str, Place] = {}
    numbers = Numbers(found)
    start = Place(main, 1, 1)
    composed = compose(texts.get(main, ""), main)
    found += composed.findings[:MOST_FINDINGS]
    desk = numbers.reading = Reading(main, numbers, found, paths, None, composed.lost, composed.text)
    top = Pairs()
    if composed.node is not None and not is_null(composed.node):
        pairs = desk.pairs(composed.node, "a guide")
        top = desk.known(pairs, _GUIDE, "a guide")
        desk.required(top, _GUIDE, composed.node, "a guide")
    elif not found:
        found.append(error("shape", start, "the file is empty", "There is no guide in it.",
                           "Begin with `title: ...`."))  # fmt: skip
    library = Library(texts, main)
    title = desk.text(top["title"][1], "the title") if "title" in top else ""
    files = {w: desk.text(top[w][1], f"`{w}`") for w in ("overview", "science") if w in top}
    units = read_units(top, desk)
    numbers.finest, numbers.first = units.finest.base, units.first
    taken: dict[str, Place] = {}
    read_dimensions(top, desk, numbers, taken)
    raws = []
    for name, sort, fields in SECTIONS:
        if name in top:
            raws += register(top[name][1], sort, fields, desk, numbers, taken)
    copy_likes(desk, numbers)
    things: dict[str, Thing] = {}
    for raw in raws:
        for thing in build(raw, desk, numbers):
            things[thing.id] = thing
    dimensions = {name: numbers.lookup(name) for name in numbers.dimensions}
    cautions = _cautions(top, desk, library)
    choices = read_choices(top, desk)
    steps = top["steps"][1] if "steps" in top else None
    sorts = {thing.id: thing.sort for thing in things.values()}
    for assembly in _assemblies(steps):
        sorts.setdefault(assembly, "part")
    names = Names(sorts, things)
    rows: Verbs = {}
    brought: Mapping[str, Mapping[str, str]] = {}
    if library.with_verbs:
        from builder.guide.own_verbs import own_verbs  # few libraries have words of their own

        own = own_verbs(library, desk, verbs)
        rows, brought = own.rows, own.brought
        verbs = {**verbs, **rows}
    reader = Entries(desk, verbs, library, choices, names, cautions)
    reader.actions.brought = brought
    if composed.lost:
        doubts = of_words(composed.lost, things, verbs) | {f"said:{word}" for word in composed.lost}
        found[:] = [msgspec.structs.replace(f, suspects=doubts) if f.check == "yaml" else f for f in found]
    entries = tuple(reader.read(steps)) if steps is not None else ()
    made = dict(things)
    for stage in reader.stages:
        if stage.makes and stage.makes not in made:
            base = {"base": Ref(stage.base, stage.at)} if stage.base else {}
            made[stage.makes] = Thing(stage.makes, stage.makes.replace("_", " "), "assembly", "assembly",
                                      stage.at,
                                      refs=base)  # fmt: skip
    tolerance = desk.tolerance(top["cut tolerance"][1], "cut_tolerance") if "cut tolerance" in top else None
    finished = read_finished(top, desk, names)
    audience = texts_of(nested(top, "audience", desk), desk)
    revision = read_revision(top, desk)
    accepted = tuple(accepted_in(top, desk))
    signed = tuple(signed_in(top, desk))
    return Guide(
        id=id,
        file=main,
        title=title,
        at=start,
        units=units,
        revision=revision,
        audience=audience,
        things=made,
        choices=choices,
        dimensions={n: v for n, v in dimensions.items() if v is not None},
        entries=entries,
        stages=tuple(reader.stages),
        finished=finished,
        cautions=cautions,
        prose=_prose(texts, main, files),
        where={n: desk.place(p[0]) for n, p in top.items()},
        paths=paths,
        texts=dict(texts),
        routes=_routes(entries, choices, found),
        findings=tuple(_placed(_once(found, main), texts)),
        accepted=accepted,
        signed=signed,
        own_verbs=rows,
        cut_tolerance=tolerance,
        shared=tuple(dict.fromkeys(reader.used)),
        terms=tuple(read_terms(top, desk)),
        prose_files=files,
    )


def _placed(found: list[Finding], texts: Mapping[str, str]) -> list[Finding]:
    """The findings of texts as they were written."""
    if not any(f.check == "yaml" for f in found):
        return found
    lines = {file: plain_breaks(text).split("\n") for file, text in texts.items()}
    return [_within(f, lines) for f in found]


def _within(finding: Finding, lines: Mapping[str, list[str]]) -> Finding:
    """A finding whose places stand inside their files; in a text that had to be mended they might not."""

    def back(place: Place) -> Place:
        own = lines.get(place.file, [""])
        line = min(place.line, len(own))
        return Place(place.file, line, min(place.column, len(own[line - 1]) + 1), place.length)

    others = tuple(Related(back(other.place), other.text) for other in finding.also)
    return msgspec.structs.replace(finding, place=back(finding.place), also=others)


def _once(found: list[Finding], main: str) -> list[Finding]:
    """A node may be read twice (a shared step used twice, a borrowed field): its fault is one finding, and
    so is a name that many places miss. What the text's own fault stands at is not told again."""
    told = {(f.place.file, f.place.line, f.place.column) for f in found if f.check in TEXT_CHECKS}
    seen: dict[tuple[object, ...], Finding] = {}
    for finding in found:
        place = finding.place
        spot = (place.file, place.line, place.column)
        if finding.check not in TEXT_CHECKS and spot in told:
            continue
        key: tuple[object, ...] = (finding.check, spot, finding.message if place.file == main else "")
        if finding.check == "unknown-name":
            name = finding.message.partition('"')[2].partition('"')[0]
            key = (finding.check, name or finding.message, place.file != main and spot)
        first = seen.get(key)
        if first is None:
            seen[key] = finding
            continue
        suspects = first.suspects | finding.suspects  # what is in doubt at one of the places is
        if first.place == place:
            first = also(first, finding.also)
        else:
            first, later = sorted((first, finding), key=lambda f: f.place)
            first = also(first, (*later.also, Related(later.place, "it is named here too")))
        seen[key] = msgspec.structs.replace(first, suspects=suspects)
    out = list(seen.values())
    if len(found) >= MOST_FINDINGS:
        out.append(error("too-many", Place(main, 1, 1), f"there are more than {MOST_FINDINGS} findings; "
                         "the rest is not told", "Most of them will have one cause.",
                         "Mend the first ones, and check again."))  # fmt: skip
    return out


def _cautions(top: Pairs, desk: Reading, library: Library) -> dict[str, Caution]:
    """The guide's own cautions on top of those of the shared files, which are read only if one is named."""
    out: dict[str, Caution] = {}
    sections: list[tuple[Pairs, Reading]] = [(top, desk)]
    if "cautions:" in desk.source or any("cautions:" in library.texts[f] for f in library.shared.values()):
        sections = [*(library.file(name, desk) for name in library.with_cautions), (top, desk)]
    for pairs, reading in sections:
        if "cautions" not in pairs:
            continue
        for key, (_, value) in reading.pairs(pairs["cautions"][1], "the cautions").items():
            caution = read_caution(key, value, reading)
            if caution:
                out[key] = caution
    return out


def _assemblies(steps: Node | None) -> list[str]:
    """Names that stages make, needed before the steps are read."""
    out = []
    lists = [steps]
    for entries in lists:
        for entry in entries.value if isinstance(entries, SequenceNode) else ():
            if not isinstance(entry, MappingNode):
                continue
            words = {key.value: value for key, value in entry.value if isinstance(key, ScalarNode)}
            if "choose" in words:
                lists += [v for v in words.values() if isinstance(v, SequenceNode)]
            elif "stage" in words and isinstance(words.get("makes"), ScalarNode):
                out.append(words["makes"].value)
    return out


def _prose(texts: Mapping[str, str], main: str, files: Mapping[str, str]) -> dict[str, str]:
    """Overview and science as written, by their word."""
    folder = main.rpartition("/")[0]
    out = {}
    for word in ("overview", "science"):
        name = files.get(word) or f"{word}.md"
        text = texts.get(f"{folder}/{name}" if folder else name)
        if text is not None:
            out[word] = text
    return out


def _routes(entries: tuple[Step | Choose, ...], choices: Mapping[str, Choice],
            found: list[Finding]) -> tuple[Route, ...]:  # fmt: skip
    """One route for each combination of options, at most 8; the only one is called `the guide`."""
    used = list(dict.fromkeys(e.choice for e in entries if isinstance(e, Choose)))
    lists = [[(name, option) for option in choices[name].options] for name in used if choices[name].options]
    routes = []
    for count, combination in enumerate(itertools.product(*lists)):
        if count >= MOST_ROUTES:
            found.append(error("too-many", choices[used[-1]].at,
                               f"the choices make more than {MOST_ROUTES} routes",
                               "Every route is built on paper, and no teacher prints so many.",
                               "Leave out a choice, or make two guides."))  # fmt: skip
            break
        options = dict(combination)
        steps: list[Step] = []
        for entry in entries:
            if isinstance(entry, Step):
                steps.append(entry)
            else:
                steps += entry.options.get(options.get(entry.choice, ""), ())
        name = " and ".join(choices[c].options[o] for c, o in options.items()) or "the guide"
        routes.append(Route(name, options, tuple(steps)))
    return tuple(routes)


__all__ = ["MOST_ROUTES", "Stage", "Value", "load", "read", "read_guide", "shown"]
