"""guides/<name>/guide.yml and the shared files it uses -> Guide.

Files are read by `load`; `read` is pure: texts in, Guide out. Whatever is wrong becomes a finding of
the guide, and the rest is read all the same.
"""

from __future__ import annotations

import itertools
import re
from collections.abc import Mapping
from fractions import Fraction
from pathlib import Path

from builder.findings import Finding, Place
from builder.guide.declared import GUIDE
from builder.guide.fields import by_name
from builder.guide.model import (
    Caution,
    Choice,
    Choose,
    Finished,
    Guide,
    Ref,
    Revision,
    Route,
    Stage,
    Step,
    Thing,
    Value,
)
from builder.guide.nodes import MappingNode, Node, ScalarNode, compose, error, place_of
from builder.guide.numbers import Numbers
from builder.guide.reading import Pairs, Reading
from builder.guide.steps import Entries, Shared, Verbs, read_caution
from builder.guide.things import SECTIONS, build, copy_likes, register
from builder.quantities.units import Dimension
from builder.quantities.values import length
from builder.quantities.show import Units

MOST_ROUTES = 8
_PARAMETER_SORTS = ("material", "tool", "part", "material|tool", "part|tool")


def load(path: Path) -> tuple[dict[str, str], str, list[Finding]]:
    """The texts of a guide by shown name: its own file, and every file of the `common` folder beside it.

    `path` is a guide's folder or its file. Unreadable files become findings.
    """
    file = path / "guide.yml" if path.is_dir() else path
    findings: list[Finding] = []
    texts: dict[str, str] = {}
    main = shown(file)
    common = [file.parent.parent / "common", file.parent / "common", file.parent]
    extra = [p for folder in common if folder.is_dir() for p in sorted(folder.glob("*.yml")) if p != file]
    seen: set[str] = set()
    for each in [file, *extra]:
        if each.name in seen or (each.parent == file.parent and each != file and not _is_library(each)):
            continue
        seen.add(each.name)
        try:
            texts[shown(each)] = each.read_bytes().decode("utf-8")
        except (OSError, UnicodeDecodeError) as fault:
            reason = "it is not UTF-8 text" if isinstance(fault, UnicodeDecodeError) else (fault.strerror or "")
            findings.append(error("unreadable", Place(shown(each), 1, 1), f"the file cannot be read: {reason}",
                                  "Nothing in it can be used.", "Check its name, its rights, and that it is "
                                  "saved as UTF-8 text."))  # fmt: skip
    for name in ("overview.md", "science.md"):
        prose = file.parent / name
        if prose.is_file():
            try:
                texts[shown(prose)] = prose.read_text("utf-8")
            except (OSError, UnicodeDecodeError):
                continue
    return texts, main, findings


def _is_library(path: Path) -> bool:
    """A file beside a lone guide counts as shared if it begins like a shared step."""
    try:
        head = path.read_text("utf-8", errors="replace")[:2000]
    except OSError:
        return False
    return bool(re.search(r"(?m)^(shared|cautions|verbs):", head))


def shown(path: Path) -> str:
    """A path as it is shown: relative to the working folder where that is shorter, with slashes."""
    try:
        return path.resolve().relative_to(Path.cwd()).as_posix()
    except ValueError:
        return path.as_posix()


def read_guide(path: Path, verbs: Verbs) -> Guide:
    """Read a guide from disk."""
    texts, main, findings = load(path)
    folder = path.name if path.is_dir() else path.parent.name if path.name == "guide.yml" else path.stem
    return read(texts, main, verbs, folder, findings)


class _Desk(Reading):
    """A reading desk that can open another one for a shared file."""

    def place_of_start(self) -> Place:
        return Place(self.file, 1, 1)

    def for_shared(self, file: str, bind: Mapping[str, str]) -> _Desk:
        return _Desk(file, self.lookup, self.names, self.findings, self.paths, bind)


def read(texts: Mapping[str, str], main: str, verbs: Verbs, id: str, findings: list[Finding] | None = None) -> Guide:
    """Texts by file name -> Guide. `main` is the name of the guide's own text."""
    found: list[Finding] = list(findings or [])
    paths: dict[str, Place] = {}
    numbers = Numbers(found)
    desk = _Desk(main, numbers.lookup, numbers.names, found, paths)
    numbers.reading = desk
    start = Place(main, 1, 1)
    node, faults = compose(texts.get(main, ""), main)
    found += faults
    top: Pairs = {}
    if node is not None:
        top = desk.known(desk.pairs(node, "a guide"), by_name(GUIDE), "a guide")
        desk.required(top, by_name(GUIDE), node, "a guide")
    elif not found:
        found.append(error("shape", start, "the file is empty", "There is no guide in it.",
                           "Begin with `title: ...`."))  # fmt: skip
    shared, cautions = _library(texts, main, desk, found)
    fields = by_name(GUIDE)
    head = {n: desk.field(fields[n], p[1], n) for n, p in top.items() if n in ("title", "overview", "science")}
    units = _units(top, desk)
    numbers.finest = units.finest.base
    taken: dict[str, Place] = {}
    raws = []
    _dimensions(top, desk, numbers, taken)
    for name, sort, declared in SECTIONS:
        if name in top:
            raws += register(top[name][1], sort, declared, desk, numbers, taken)
    copy_likes(desk, numbers)
    things: dict[str, Thing] = {}
    for raw in raws:
        for thing in build(raw, desk, numbers):
            things[thing.id] = thing
    dimensions = {name: numbers.lookup(name) for name in numbers.dimensions}
    cautions = {**cautions, **_own_cautions(top, desk)}
    choices = _choices(top, desk)
    known = {**{t.id: t.sort for t in things.values()}}
    steps_node = top["steps"][1] if "steps" in top else None
    for assembly in _assemblies(steps_node):
        known.setdefault(assembly, "part")
    entries_reader = Entries(desk, verbs, shared, choices, known, cautions)
    entries = tuple(entries_reader.read(steps_node)) if steps_node is not None else ()
    for stage in entries_reader.stages:
        if stage.makes and stage.makes not in things:
            base = Ref(stage.base, stage.at)
            things[stage.makes] = Thing(stage.makes, stage.makes.replace("_", " "), "assembly", "assembly", stage.at,
                                        refs={"base": base} if stage.base else {})  # fmt: skip
    tolerance = desk.tolerance(top["cut tolerance"][1], "cut_tolerance") if "cut tolerance" in top else None
    return Guide(
        id=id,
        file=main,
        title=str(head.get("title") or ""),
        at=start,
        units=units,
        revision=_revision(top, desk),
        audience=_nested_text(top, "audience", desk),
        things=things,
        choices=choices,
        dimensions={n: v for n, v in dimensions.items() if v is not None},
        entries=entries,
        stages=tuple(entries_reader.stages),
        finished=_finished(top, desk, entries_reader),
        cautions=cautions,
        prose=_prose(texts, main, head),
        where={n: desk.place(p[0]) for n, p in top.items()},
        paths=paths,
        texts=dict(texts),
        findings=tuple(_once(found)),
        cut_tolerance=tolerance,
        routes=_routes(entries, choices, found),
        shared=tuple(dict.fromkeys(entries_reader.used)),
    )


def _once(found: list[Finding]) -> list[Finding]:
    """A node may be read twice (a shared step used twice, a borrowed field); its fault is one finding."""
    seen: dict[tuple[str, Place, str], Finding] = {}
    for finding in found:
        seen.setdefault((finding.check, finding.place, finding.message), finding)
    return list(seen.values())


def _library(texts: Mapping[str, str], main: str, desk: _Desk,
             found: list[Finding]) -> tuple[dict[str, Shared], dict[str, Caution]]:  # fmt: skip
    shared: dict[str, Shared] = {}
    cautions: dict[str, Caution] = {}
    for name, text in texts.items():
        if name == main or not name.endswith(".yml"):
            continue
        node, faults = compose(text, name)
        found += faults
        if not isinstance(node, MappingNode):
            continue
        inner = desk.for_shared(name, {})
        pairs = inner.pairs(node, "a shared file")
        if "shared" in pairs:
            title = inner.text(pairs["shared"][1], "shared")
            takes = inner.pairs(pairs["takes"][1], "`takes`") if "takes" in pairs else {}
            params = {k: inner.text(v[1], k) for k, v in takes.items()}
            for k, sort in params.items():
                if sort not in _PARAMETER_SORTS:
                    inner.fault("word", takes[k][1], f'"{sort}" is not a kind of parameter',
                                "A parameter stands for an id of a stated kind.",
                                f"Write one of: {', '.join(_PARAMETER_SORTS)}.")  # fmt: skip
            steps = pairs["steps"][1] if "steps" in pairs else None
            shared[title] = Shared(title, name, params, steps, place_of(pairs["shared"][1], name))
        if "cautions" in pairs:
            for key, (_, value) in inner.pairs(pairs["cautions"][1], "the cautions").items():
                caution = read_caution(key, value, inner)
                if caution:
                    cautions[key] = caution
    return shared, cautions


def _own_cautions(top: Pairs, desk: _Desk) -> dict[str, Caution]:
    if "cautions" not in top:
        return {}
    out = {}
    for key, (_, value) in desk.pairs(top["cautions"][1], "the cautions").items():
        caution = read_caution(key, value, desk)
        if caution:
            out[key] = caution
    return out


def _units(top: Pairs, desk: _Desk) -> Units:
    metric = Units("mm", "in", length(Fraction(1)))
    if "units" not in top:
        return metric
    inner = by_name(by_name(GUIDE)["units"].inner)
    pairs = desk.known(desk.pairs(top["units"][1], "units"), inner, "units")
    desk.required(pairs, inner, top["units"][0], "units")
    first = desk.word(pairs["first"][1], inner["first"]) if "first" in pairs else "mm"
    second = desk.word(pairs["second"][1], inner["second"]) if "second" in pairs else "in"
    finest = desk.number(pairs["finest"][1], "units.finest", Dimension.LENGTH) if "finest" in pairs else None
    step = finest.quantity if finest is not None and finest.quantity is not None and finest.quantity.base > 0 else None
    return Units(first or "mm", second or "in", step or length(Fraction(1)))


def _dimensions(top: Pairs, desk: _Desk, numbers: Numbers, taken: dict[str, Place]) -> None:
    if "dimensions" not in top:
        return
    for name, (key, node) in desk.pairs(top["dimensions"][1], "the dimensions").items():
        desk.new_id(key, "the id of a dimension")
        taken[name] = desk.place(key)
        why = ""
        if isinstance(node, MappingNode):
            pairs = desk.pairs(node, f'"{name}"')
            if "is" not in pairs:
                desk.fault("missing-field", node, f'the dimension "{name}" has no `is`', "It has no value.",
                           "Write `{is: 0.020 in, why: ...}`.")  # fmt: skip
                continue
            why = desk.text(pairs["why"][1], "why") if "why" in pairs else ""
            node = pairs["is"][1]
        numbers.dimensions[name] = (node, why)


def _choices(top: Pairs, desk: _Desk) -> dict[str, Choice]:
    out: dict[str, Choice] = {}
    if "choices" not in top:
        return out
    for name, (key, node) in desk.pairs(top["choices"][1], "the choices").items():
        desk.new_id(key, "the id of a choice")
        options = {n: desk.text(v[1], n) for n, v in desk.pairs(node, f'the options of "{name}"').items()}
        out[name] = Choice(name, options, desk.place(key))
    return out


def _nested_text(top: Pairs, name: str, desk: _Desk) -> dict[str, str]:
    if name not in top:
        return {}
    inner = by_name(by_name(GUIDE)[name].inner)
    pairs = desk.known(desk.pairs(top[name][1], f'"{name}"'), inner, f'"{name}"')
    desk.required(pairs, inner, top[name][0], f'"{name}"')
    return {n.replace(" ", "_"): desk.text(p[1], n) for n, p in pairs.items()}


def _revision(top: Pairs, desk: _Desk) -> Revision | None:
    if "revision" not in top:
        return None
    read = _nested_text(top, "revision", desk)
    return Revision(read.get("number", ""), read.get("dated", ""), read.get("by", ""), read.get("summary", ""),
                    desk.place(top["revision"][1]))  # fmt: skip


def _finished(top: Pairs, desk: _Desk, entries: Entries) -> Finished | None:
    if "finished" not in top:
        return None
    inner = by_name(by_name(GUIDE)["finished"].inner)
    pairs = desk.known(desk.pairs(top["finished"][1], "finished"), inner, "finished")
    desk.required(pairs, inner, top["finished"][0], "finished")
    if "is" not in pairs:
        return None
    what = desk.ref(pairs["is"][1], "is")
    what = entries.checked(what, "part") if what else None
    if what is None:
        return None
    holds_node = pairs["holds"][1] if "holds" in pairs else None
    everything = holds_node is None or (isinstance(holds_node, ScalarNode) and holds_node.value == "all")
    holds = () if everything or holds_node is None else _refs(desk.refs(holds_node, "holds"), entries)
    left = _refs(desk.refs(pairs["left over"][1], "left over"), entries) if "left over" in pairs else ()
    return Finished(what, holds, left, desk.place(top["finished"][1]))


def _refs(refs: tuple[Ref, ...], entries: Entries) -> tuple[Ref, ...]:
    checked = (entries.checked(r, "") for r in refs)
    return tuple(r for r in checked if r is not None)


def _assemblies(steps: Node | None) -> list[str]:
    """Names that stages make, needed before the steps are read."""
    out = []
    stack = [steps] if steps is not None else []
    while stack:
        node = stack.pop()
        if isinstance(node, MappingNode):
            names = {k.value: v for k, v in node.value if isinstance(k, ScalarNode)}
            makes = names.get("makes")
            if "stage" in names and isinstance(makes, ScalarNode):
                out.append(makes.value)
        elif node is not None and not isinstance(node, ScalarNode):
            stack.extend(node.value)
    return out


def _prose(texts: Mapping[str, str], main: str, head: Mapping[str, object]) -> dict[str, str]:
    """Overview and science as written, by their word."""
    folder = main.rpartition("/")[0]
    out = {}
    for word in ("overview", "science"):
        name = str(head.get(word) or f"{word}.md")
        text = texts.get(f"{folder}/{name}" if folder else name)
        if text is not None:
            out[word] = text
    return out


def _routes(entries: tuple[Step | Choose, ...], choices: Mapping[str, Choice], found: list[Finding]) -> tuple[Route, ...]:
    """One route for each combination of options, at most 8; the only one is called `the guide`."""
    used = list(dict.fromkeys(e.choice for e in entries if isinstance(e, Choose)))
    lists = [[(name, option) for option in choices[name].options] for name in used if choices[name].options]
    routes = []
    for count, combination in enumerate(itertools.product(*lists)):
        if count >= MOST_ROUTES:
            found.append(error("too-many", choices[used[-1]].at, f"the choices make more than {MOST_ROUTES} routes",
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
